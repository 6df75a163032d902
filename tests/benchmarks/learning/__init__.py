"""Simulated children practise for half a year under several rules: which one teaches more?

`python -m tests.benchmarks.learning --help` tells what can be run.

courses     which cards a child works through
memories    what a child truly remembers: models that are not the planner's own
outsiders   more such models, on which nothing was tuned
children    how a child answers: recalled, worked out, slipped, distracted, helped
strategies  what every rule offers, and where one gets it by its name
variants    our own rule, and others to try: a row each
trials      rules that were tried and left out
accounts    the same, with several accounts of one child at once
seldom      the same, for courses too large for the minutes
worked_out  another: what a card's misses say of its right answers
seated      our own rule through the real sitting
baselines   published and plain rules to be better than, and some that see the truth
knowing     what can be known of a child from its answers: the model of its memory known, or others believed
season      half a year of days: one child, one rule
no_counting children who miss what they do not recall: every fact, or those they meet
options     what every command of the bench may be told
beginning   the weights that a child's correction begins with, fitted
keeping     seasons kept in a file, so that a stopped run goes on
scores      what came of it, and how two rules differ
"""
