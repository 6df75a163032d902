"""What a sitting says to a child, apart from the problems themselves.

Under eight words a sentence, one idea a line, no verdict, no number, no hurry.
"""

SAY_IT = "Say it once."
NOTHING_TYPED = "Type a number, or ? for help."
NO_TEXT_TYPED = "Type your answer, or ? for help."
NO_MORE_HELP = "That was all the help.\nType ? once more for the answer."
LOOK_ONCE_MORE = "Look once more.\nType it again."
FROM_MEMORY = "From memory, or worked out?"
WHICH_WAY = "Which way do you like?"
MAY_STOP = "We can stop here.\nType stop to stop."
KNOWN_NOW = "You know that now."
WORKED_OUT = "You worked that out."
EFFORT = "You worked on this one:"
DONE = "You are done for today."
GO_ON = "You can go on later today."
ENOUGH = "That is all for now."
