"""Placement as a state machine: finding, kindly, which cards a child knows already.

Each item is chosen so that it is probably known; a miss is followed by something easier, and two running end
it. Pure: whatever it does follows from the answers, so that one that was stopped is brought back by them.
"""

from collections.abc import Sequence

from review.core import judging, marking, sayings, seeds, skills, spoken
from review.core.item_choice import (
    Probing,
    State,
    Turn,
    choice,
    closing,
    is_over,
    is_well,
    misses_running,
    most_today,
    used_ms,
)
from review.core.model import Answer, Mark, Problem
from review.core.warmup import (
    AskAgain,
    AskHelp,
    Effects,
    End,
    Heard,
    Note,
    PassOn,
    Record,
    Show,
    Stop,
    Summary,
    Told,
    Typed,
)

__all__ = ["Probing", "start", "step"]

MOST_DOTS = 20  # two ten-frames, as in a warm-up

LATER = "We'll leave that for later."
AGAIN = "Here it is again.\nOr press Enter."


def start(probing: Probing, so_far: Sequence[Answer] = ()) -> tuple[State, Effects]:
    """The placement as it stands after today's answers so far, and what to show first."""
    state = _next(State(probing))
    for answer in so_far:
        state = _take(state, answer)
    return state, (_showing(state),)


def step(state: State, heard: Heard) -> tuple[State, Effects]:
    """What comes of one thing heard. Nothing is ever said of an answer: the next item comes."""
    turn = state.turn
    if turn is None:
        return state, (_showing(state),)
    match heard:
        case Typed():
            return _typed(state, turn, heard._replace(text=heard.text.strip()))
        case Told():
            typed = spoken.as_typed(skills.problem(turn.card, turn.asked), heard)
            return _answered(state, spoken.taken(_row(state, turn, typed)))
        case AskHelp():
            return state, (AskAgain(AGAIN, skills.problem(turn.card, turn.asked).picture),)
        case PassOn():
            return _answered(state, _row(state, turn, Typed("", heard.end_ms, heard.end_ms)))
        case Stop():
            stopped = state._replace(turn=None, ended=True)
            return stopped, (End((sayings.GO_ON,), _summary(state, finished=False)),)


# --- what was heard -----------------------------------------------------------------------------------


def _typed(state: State, turn: Turn, heard: Typed) -> tuple[State, Effects]:
    """An empty answer means "not yet", and is no miss to be ashamed of; what cannot be read is asked again
    once."""
    problem = skills.problem(turn.card, turn.asked)
    unreadable = bool(heard.text) and judging.judge(problem, heard.text) == "unreadable"
    if unreadable and not turn.unread:
        return state._replace(turn=turn._replace(unread=True)), (AskAgain(judging.asks_for(problem)),)
    return _answered(state, _row(state, turn, heard))


def _row(state: State, turn: Turn, heard: Typed) -> Answer:
    """The answer as it is logged. No time counts against it: time only says how far out a card starts."""
    probing, problem = state.probing, skills.problem(turn.card, turn.asked)
    row = Answer(turn.card, turn.asked, problem.expected, heard.text, "not_yet", "probe")
    row = row._replace(
        first_ms=heard.first_ms,
        end_ms=heard.end_ms,
        aim=probing.cards[turn.card].aim,
        age=probing.age,
        copy_ms=marking.copying_ms(probing.age, judging.keys_to_type(problem), probing.copy_ms),
        recalled=heard.recalled,
        showing=turn.showing,
        rule=marking.RULE,
        untimed=int(probing.untimed),
    )
    return row._replace(mark=_mark(row, problem, heard.suspended))


def _mark(row: Answer, problem: Problem, suspended: bool) -> Mark:
    right = bool(row.given) and judging.judge(problem, row.given) == "right"
    return marking.mark(
        "right" if right else "other",
        help="",
        first_ms=row.first_ms,
        end_ms=row.end_ms,
        copy_ms=row.copy_ms,
        slow_ms=0,
        suspended=suspended,
        fact=skills.traits(row.card).fact,
    )


# --- what comes of an answer --------------------------------------------------------------------------


def _answered(state: State, answer: Answer) -> tuple[State, Effects]:
    after = _take(state, answer)
    return after, (Record(answer), *((Note(LATER),) if _leaves(state, after) else ()), _showing(after))


def _leaves(before: State, after: State) -> bool:
    """Whether a miss is the last try of the day: two running, or nothing easier is likely enough."""
    tries = after.turn is not None and not after.turn.closing
    closed = before.turn is not None and before.turn.closing
    return bool(misses_running(after.so_far)) and not tries and not closed


def _take(state: State, answer: Answer) -> State:
    """The one way an answer changes a placement, given now or read from the log."""
    closed = state.turn is not None and state.turn.closing and state.turn.card == answer.card
    after = state._replace(so_far=(*state.so_far, answer))
    return after._replace(turn=None, ended=True) if closed else _next(after)


def _next(state: State) -> State:
    """The state with its next turn, or ended."""
    if state.ended:
        return state
    if not is_over(state) and (item := choice(state)):
        return state._replace(turn=_turn(state, item))
    if last := closing(state):
        return state._replace(turn=_turn(state, last, closing=True))
    return state._replace(turn=None, ended=True)


def _turn(state: State, key: str, closing: bool = False) -> Turn:
    """What the card asks, drawn as a warm-up draws it."""
    probing = state.probing
    showing = sum(answer.card == key for answer in state.so_far)
    source = seeds.problem_source(probing.book, probing.child, probing.day, key, showing)
    return Turn(key, skills.draw(key, source), showing, closing)


# --- what is shown ------------------------------------------------------------------------------------


def _showing(state: State) -> Show | End:
    turn = state.turn
    if turn is None:
        return End((sayings.DONE,), _summary(state, finished=True))
    met = {answer.card for answer in (*state.probing.earlier, *state.so_far)}
    meeting = turn.card in state.probing.items and turn.card not in met
    return Show(
        len(state.so_far) + 1,
        skills.problem(turn.card, turn.asked),
        first_meeting=meeting,
        dots=_dots(state, turn.closing),
    )


def _dots(state: State, closing: bool) -> tuple[int, int]:
    """Filled, of: against all that may come today; the last dot belongs to the last item."""
    most = max(1, min(most_today(state.probing), len(state.probing.open) + 1))
    of = min(most, MOST_DOTS)
    return (of - 1 if closing else min(len(state.so_far) * of // most, of - 1)), of


def _summary(state: State, finished: bool) -> Summary:
    well = sum(map(is_well, state.so_far))
    return Summary(used_ms(state.so_far) / 1000, len(state.so_far), well, 0, finished)
