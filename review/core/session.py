"""A warm-up as a state machine: what is heard goes in, what is to be shown, kept and said comes out.

Pure: no clock, no terminal, no random number but those the seeds give. Whatever a sitting does follows from
its answers alone, so a sitting that was stopped is brought back by giving it the answers it had.
"""

from collections.abc import Sequence
from random import Random

from review.core import doubts, judging, liking, marking, sayings, seeds, skills, spoken
from review.core.model import Answer, Help, Mark, Problem
from review.core.paths import FOLLOWS, Given, Outcome, outcome_of
from review.core.queue import State, Tally, Turn, lasting, opened, without
from review.core.turns import ended, shown, with_next
from review.core.warmup import (
    AskAgain,
    AskHelp,
    AskRecalled,
    Effects,
    Heard,
    Helped,
    Note,
    PassOn,
    Record,
    Say,
    Sitting,
    Stop,
    Told,
    Typed,
)

NONSENSE = 4  # answers running that cannot be read, after which a stop is offered

NUMBERS = frozenset({"whole", "quantity", "counted"})


def start(sitting: Sitting, so_far: Sequence[Answer] = ()) -> tuple[State, Effects]:
    """The sitting as it stands after today's answers so far, and what to show first.

    An answer to another card than the one expected (given on another computer) is taken as it is.
    """
    state, said = with_next(opened(sitting)), None
    for answer in so_far:
        if marking.left_open(answer):
            state = _reopened(state, answer)
        else:
            state, said, _ = _take(state, answer)
    again = (said,) if said and said.hold and state.copy else ()
    return state, (*again, shown(state))


def step(state: State, heard: Heard) -> tuple[State, Effects]:
    """What comes of one thing heard. A record always stands before what is said of it."""
    if state.turn is None:
        return state, (shown(state),)
    if state.turn.waiting is not None:
        return _found(state, state.turn.waiting, heard)
    match heard:
        case Typed():
            return _typed(state, state.turn, heard)
        case Told():
            return _told(state, state.turn, heard)
        case AskHelp():
            return _more_help(state, state.turn, heard.end_ms)
        case PassOn():
            return _answer(state, state.turn, Typed("", heard.end_ms, heard.end_ms), "shown")
        case Stop():
            return _stopped(state, _open_help(state, state.turn))


# --- what was heard -----------------------------------------------------------------------------------


def _typed(state: State, turn: Turn, heard: Typed) -> tuple[State, Effects]:
    problem = skills.problem(turn.card, turn.asked)
    heard = heard._replace(text=heard.text.strip())
    if unknown := liking.unknown(problem, heard.liked):
        return state, (Note(unknown),)
    if not heard.text:
        if turn.role == "intro":
            return _answer(state, turn, heard, "not_yet")
        return state, (AskAgain(_nothing_typed(turn, problem)),)
    verdict = judging.judge(problem, heard.text)
    if verdict == "unreadable" and not turn.unread:
        return state._replace(turn=turn._replace(unread=1)), (AskAgain(judging.asks_for(problem)),)
    return _answer(state, turn, heard, None)


def _nothing_typed(turn: Turn, problem: Problem) -> str:
    if turn.spent:
        return sayings.NO_MORE_HELP
    return sayings.NOTHING_TYPED if problem.form in NUMBERS else sayings.NO_TEXT_TYPED


def _told(state: State, turn: Turn, told: Told) -> tuple[State, Effects]:
    """The parent has heard it: nothing is asked once more."""
    heard = spoken.as_typed(skills.problem(turn.card, turn.asked), told)
    return _answered(state, spoken.taken(_row(state, turn, heard, None if heard.text else "not_yet")))


def _answer(state: State, turn: Turn, heard: Typed, mark: Mark | None) -> tuple[State, Effects]:
    """An answer is kept at once, but where it is asked once more, or how it was found."""
    row = _row(state, turn, heard, mark)
    if turn.tried is not None:
        from review.core import slips  # with what reads answers: nobody needs it who typed nothing

        return _answered(state, slips.settled(turn.tried, row))
    if _once_more(state, turn, row):
        return state._replace(turn=turn._replace(tried=row)), (AskAgain(sayings.LOOK_ONCE_MORE),)
    if state.sitting.person and not row.recalled and _in_doubt(state, row):
        return state._replace(turn=turn._replace(waiting=row)), (AskRecalled(sayings.FROM_MEMORY),)
    ways = _offered(state, row) if state.sitting.person else ()
    if ways:
        return state._replace(turn=turn._replace(waiting=row, offered=ways)), (liking.question(row, ways),)
    return _answered(state, row)


def _once_more(state: State, turn: Turn, row: Answer) -> bool:
    """A copy is not asked once more: it was shown a moment ago, and is told again."""
    if turn.role == "copy" or not row.given:
        return False
    from review.core import slips  # likewise

    problem = skills.problem(turn.card, turn.asked)
    if slips.asks_slip(problem, row, state.tally.slips):
        return True
    source, tally = _source(state, row, "once more"), state.tally
    return state.sitting.person and slips.asks_check(problem, row, tally.checks, tally.cards, source)


def _in_doubt(state: State, row: Answer) -> bool:
    """Follows from the row and those before it alone, so that it can be counted again from the log."""
    tally = state.tally
    return doubts.drawn(row, tally.doubts, tally.misses_running, _source(state, row, "doubt"))


def _offered(state: State, row: Answer) -> tuple[str, ...]:
    return liking.offered(state, row, _source(state, row, "liked"))


def _source(state: State, row: Answer, of: str) -> Random:
    sitting = state.sitting
    return seeds.source(sitting.book, sitting.child, sitting.plan.day, row.card, row.showing, of)


def _found(state: State, row: Answer, heard: Heard) -> tuple[State, Effects]:
    """The child has said how it was found, or which way is liked, or nothing: the answer is kept anyway."""
    if isinstance(heard, Stop):
        kept, _, _ = _take(state, row)
        return _stopped(kept, (Record(row),))
    text = heard.text if isinstance(heard, Typed) else ""
    ways = state.turn.offered if state.turn else ()
    if ways:
        return _answered(state, row._replace(liked=liking.chosen(ways, text)))
    return _answered(state, row._replace(recalled=doubts.said(text)))


def _stopped(state: State, kept: tuple[Record, ...]) -> tuple[State, Effects]:
    goes_on = state.sitting.keep and not state.sitting.sort
    last = sayings.GO_ON if goes_on else sayings.ENOUGH
    return state._replace(turn=None, ended=True), (*kept, ended(state, last, finished=False))


def _more_help(state: State, turn: Turn, at_ms: int) -> tuple[State, Effects]:
    """One step further than the last; where none is left, asked once more it is shown: nobody need type a
    word to give up. What is copied has been seen by then, and it goes on."""
    helps = _helps(state, turn)
    none_left = turn.helped >= len(helps)
    if turn.spent or (none_left and turn.role == "copy"):
        return step(state, PassOn(at_ms))
    if none_left:
        return state._replace(turn=turn._replace(spent=True)), (AskAgain(sayings.NO_MORE_HELP),)
    return state._replace(turn=turn._replace(helped=turn.helped + 1)), (Helped(helps[turn.helped]),)


def _open_help(state: State, turn: Turn) -> tuple[Record, ...]:
    """The help that was given on a problem nobody has answered yet."""
    asked_for = turn.helped and turn.role != "copy" and not state.sitting.sort  # those never go on
    return (Record(_row(state, turn, Typed(""), "void")),) if asked_for else ()


def _reopened(state: State, answer: Answer) -> State:
    """The problem that waits, with the help it had when the sitting stopped. It is the one that was on the
    screen, also where another would be drawn by now, since an older answer was taken back."""
    if state.turn is None or (state.turn.card, state.turn.role) != (answer.card, answer.role):
        return state
    turn = state.turn._replace(asked=answer.asked)
    steps = [help.step for help in _helps(state, turn)]
    reached = steps.index(answer.help) + 1 if answer.help in steps else 0
    return state._replace(turn=turn._replace(helped=max(turn.helped, reached)))


def _helps(state: State, turn: Turn) -> tuple[Help, ...]:
    problem = skills.problem(turn.card, turn.asked)
    return (Help("written", problem.told),) if turn.role == "copy" else liking.helps(state, problem)


def _row(state: State, turn: Turn, heard: Typed, mark: Mark | None) -> Answer:
    """The answer as it is logged; without a mark of its own it is judged."""
    sitting, problem = state.sitting, skills.problem(turn.card, turn.asked)
    timed = turn.card in sitting.timed and turn.role != "copy" and turn.showing == 0
    counts = timed and not judging.is_in_words(problem, heard.text)
    helps = _helps(state, turn)[: turn.helped + max(0, heard.helped)]
    row = Answer(
        card=turn.card,
        asked=turn.asked,
        expected=problem.expected,
        given=heard.text,
        mark="not_yet",  # until it is judged
        role=turn.role,
        first_ms=heard.first_ms,
        end_ms=heard.end_ms,
        help=helps[-1].step if helps else "",
        aim=sitting.cards[turn.card].aim,
        age=sitting.age,
        copy_ms=marking.copying_ms(sitting.age, judging.keys_to_type(problem), sitting.copy_ms),
        slow_ms=(sitting.slow_ms or marking.slow_ms(sitting.age)) if counts else 0,
        recalled=heard.recalled,
        liked=heard.liked,
        showing=turn.showing,
        rule=marking.RULE,
        untimed=int(sitting.untimed),
        sitting=sitting.sort,
    )
    return row._replace(mark=mark or _judged(row, skills.among(problem, sitting.cards), heard.suspended))


def _judged(row: Answer, problem: Problem, suspended: bool) -> Mark:
    verdict = judging.judge(problem, row.given)
    return marking.mark(
        "right" if verdict == "right" else "other",
        help=row.help,
        first_ms=row.first_ms,
        end_ms=row.end_ms,
        copy_ms=row.copy_ms,
        slow_ms=row.slow_ms,
        suspended=suspended,
        fact=skills.traits(row.card).fact,
    )


# --- what comes of an answer --------------------------------------------------------------------------


def _answered(state: State, answer: Answer) -> tuple[State, Effects]:
    state, said, noted = _take(state, answer)
    return state, (Record(answer), said, *noted, shown(state))


def _take(state: State, answer: Answer) -> tuple[State, Say, tuple[Note, ...]]:
    """The one way an answer changes a sitting, given now or read from the log."""
    problem = skills.problem(answer.card, answer.asked)
    came = outcome_of(answer, problem)
    look = next((look for look in state.later if look.card == answer.card), None)
    counted = _counted(state, answer, came, problem)
    offer = counted.tally.unreadable_running >= NONSENSE
    if offer:
        tally = counted.tally
        counted = counted._replace(tally=tally._replace(unreadable_running=0, offered=tally.offered + 1))
    left = counted if came == "copied" else without(counted, answer.card)
    after, said = FOLLOWS[came](left, Given(answer, problem, look))
    return with_next(after), said, (Note(sayings.MAY_STOP),) if offer else ()


def _counted(state: State, answer: Answer, came: Outcome, problem: Problem) -> State:
    """The answer in the sitting's counts, and the card among those asked."""
    copied = came == "copied"
    first = came in ("right", "missed", "told", "known") and answer.card not in state.asked
    measured = first and answer.mark != "void"
    missed = came == "missed" and answer.mark != "void"
    seen = (*state.asked.get(answer.card, ()), answer.asked)
    return state._replace(
        tally=_asked_besides(
            state, answer, _tallied(state.tally, lasting(state, answer), came, measured, problem)
        ),
        recent=(*state.recent, marking.is_right(answer)) if measured else state.recent,
        asked=state.asked if copied else {**state.asked, answer.card: seen},
        missed={**state.missed, answer.card: state.missed.get(answer.card, 0) + 1}
        if missed
        else state.missed,
        last=answer.card,
        copy=None,
        likes=liking.liked_after(state.likes, answer),
    )


def _tallied(tally: Tally, answer: Answer, came: Outcome, measured: bool, problem: Problem) -> Tally:
    unread = bool(answer.given) and judging.judge(problem, answer.given) == "unreadable"
    running = tally.misses_running
    if came == "missed" and answer.mark != "void":
        running += 1
    elif came in ("right", "known"):
        running = 0
    return tally._replace(
        answers=tally.answers + 1,
        cards=tally.cards + (came != "copied"),
        used_ms=tally.used_ms + answer.end_ms,
        first_tries=tally.first_tries + measured,
        right=tally.right + (measured and marking.is_right(answer)),
        new=tally.new + (came in ("unknown", "helped")),
        misses_running=running,
        unreadable_running=tally.unreadable_running + 2 if unread else 0,  # it was asked twice
    )


def _was_right(state: State, answer: Answer) -> bool:
    from review.core import slips  # likewise

    return slips.was_right(state.sitting.cards, answer)


def _asked_besides(state: State, answer: Answer, tally: Tally) -> Tally:
    """What was asked once more, and of which it was asked how they were found."""
    check = bool(answer.slipped) and _was_right(state, answer)
    return tally._replace(
        slips=tally.slips + (bool(answer.slipped) and not check),
        checks=tally.checks + check,
        doubts=tally.doubts + _in_doubt(state, answer),
        likings=tally.likings + bool(_offered(state, answer)),
    )
