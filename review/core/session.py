"""A warm-up as a state machine: what is heard goes in, what is to be shown, kept and said comes out.

Pure: no clock, no terminal, no random number but those the seeds give. Whatever a sitting does follows from
its answers alone, so a sitting that was stopped is brought back by giving it the answers it had.
"""

from collections.abc import Callable, Sequence
from typing import Literal, NamedTuple

from review.core import answers, marking, seeds, skills
from review.core.model import (
    Answer,
    AskAgain,
    AskHelp,
    Effect,
    End,
    Heard,
    Help,
    Helped,
    Mark,
    Note,
    PassOn,
    Problem,
    Record,
    Say,
    Show,
    Sitting,
    Stop,
    Summary,
    Typed,
)
from review.core.queue import (
    FAR,
    NEAR,
    Later,
    State,
    Tally,
    Turn,
    choose,
    dots,
    filling,
    opened,
    role_of,
    without,
)

FRESH = 5  # problems of a card before one may come again
REDRAWS = 20  # for a fresh problem of the same kind (our judgement: classes hold ten problems and more)
NONSENSE = 4  # answers running that cannot be read, after which a stop is offered
UNAIDED = ("right", "right_slow")
YOUNG = 7  # up to this age the second miss of a sitting sets a card aside, from then on the third

SAY_IT = "Say it once."
NUMBERS = frozenset({"whole", "quantity"})
NOTHING_TYPED = "Type a number, or ? for help."
NO_TEXT_TYPED = "Type your answer, or ? for help."
NO_MORE_HELP = "That was all the help.\nType pass to see it."
MAY_STOP = "We can stop here.\nType stop to stop."
KNOWN_NOW = "You know that now."
WORKED_OUT = "You worked that out."
EFFORT = "You worked on this one:"
DONE = "You are done for today."
GO_ON = "You can go on later today."

Outcome = Literal["copied", "told", "known", "helped", "unknown", "right", "missed"]
Effects = tuple[Effect, ...]


def start(sitting: Sitting, so_far: Sequence[Answer] = ()) -> tuple[State, Effects]:
    """The sitting as it stands after today's answers so far, and what to show first.

    An answer to another card than the one expected (given on another computer) is taken as it is.
    """
    state, said = _next(opened(sitting)), None
    for answer in so_far:
        if marking.left_open(answer):
            state = _reopened(state, answer)
        else:
            state, said, _ = _take(state, answer)
    again = (said,) if said and said.hold and state.copy else ()
    return state, (*again, _showing(state))


def step(state: State, heard: Heard) -> tuple[State, Effects]:
    """What comes of one thing heard. A record always stands before what is said of it."""
    if state.turn is None:
        return state, (_showing(state),)
    match heard:
        case Typed():
            return _typed(state, state.turn, heard)
        case AskHelp():
            return _more_help(state, state.turn)
        case PassOn():
            return _answered(state, _row(state, state.turn, Typed("", heard.end_ms, heard.end_ms), "shown"))
        case Stop():
            stopped = state._replace(turn=None, ended=True)
            end = End((*_best_line(state), GO_ON), _summary(state, finished=False))
            return stopped, (*_open_help(state, state.turn), end)


# --- what was heard -----------------------------------------------------------------------------------


def _typed(state: State, turn: Turn, heard: Typed) -> tuple[State, Effects]:
    problem = skills.problem(turn.card, turn.asked)
    heard = heard._replace(text=heard.text.strip())
    if not heard.text:
        if turn.role == "intro":
            return _answered(state, _row(state, turn, heard, "not_yet"))
        return state, (AskAgain(NOTHING_TYPED if problem.form in NUMBERS else NO_TEXT_TYPED),)
    verdict = answers.judge(problem, heard.text)
    if verdict == "unreadable" and not turn.unread:
        return state._replace(turn=turn._replace(unread=1)), (AskAgain(answers.asks_for(problem)),)
    return _answered(state, _row(state, turn, heard, None))


def _more_help(state: State, turn: Turn) -> tuple[State, Effects]:
    """One step further than the last."""
    helps = _helps(turn)
    if turn.helped >= len(helps):
        return state, (AskAgain(NO_MORE_HELP),)
    return state._replace(turn=turn._replace(helped=turn.helped + 1)), (Helped(helps[turn.helped]),)


def _open_help(state: State, turn: Turn) -> tuple[Record, ...]:
    """The help that was given on a problem nobody has answered yet."""
    asked_for = turn.helped and turn.role != "copy"
    return (Record(_row(state, turn, Typed(""), "void")),) if asked_for else ()


def _reopened(state: State, answer: Answer) -> State:
    """The problem that waits, with the help it had when the sitting stopped."""
    turn = state.turn
    if turn is None or (turn.card, turn.asked) != (answer.card, answer.asked):
        return state
    steps = [help.step for help in _helps(turn)]
    reached = steps.index(answer.help) + 1 if answer.help in steps else 0
    return state._replace(turn=turn._replace(helped=max(turn.helped, reached)))


def _helps(turn: Turn) -> tuple[Help, ...]:
    problem = skills.problem(turn.card, turn.asked)
    return (Help("written", problem.told),) if turn.role == "copy" else problem.helps


def _row(state: State, turn: Turn, heard: Typed, mark: Mark | None) -> Answer:
    """The answer as it is logged; without a mark of its own it is judged."""
    sitting, problem = state.sitting, skills.problem(turn.card, turn.asked)
    counts = turn.card in sitting.timed and turn.role != "copy" and turn.showing == 0
    helps = _helps(turn)[: turn.helped + max(0, heard.helped)]
    blank = Answer(
        turn.card,
        turn.asked,
        problem.expected,
        heard.text,
        "not_yet",
        turn.role,
        heard.first_ms,
        heard.end_ms,
    )
    row = blank._replace(
        help=helps[-1].step if helps else "",
        aim=sitting.cards[turn.card].aim,
        age=sitting.age,
        copy_ms=marking.copying_ms(sitting.age, answers.digits(problem), sitting.copy_ms),
        slow_ms=marking.slow_ms(sitting.age) if counts else 0,
        recalled=heard.recalled,
        showing=turn.showing,
        rule=marking.RULE,
        untimed=int(sitting.untimed),
    )
    return row._replace(mark=mark or _judged(row, skills.among(problem, sitting.cards), heard.suspended))


def _judged(row: Answer, problem: Problem, suspended: bool) -> Mark:
    verdict = answers.judge(problem, row.given)
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
    return state, (Record(answer), said, *noted, _showing(state))


def _take(state: State, answer: Answer) -> tuple[State, Say, tuple[Note, ...]]:
    """The one way an answer changes a sitting, given now or read from the log."""
    problem = skills.problem(answer.card, answer.asked)
    came = _outcome(answer, problem)
    look = next((look for look in state.later if look.card == answer.card), None)
    counted = _counted(state, answer, came, problem)
    offer = counted.tally.unreadable_running >= NONSENSE
    if offer:
        counted = counted._replace(tally=counted.tally._replace(unreadable_running=0))
    left = counted if came == "copied" else without(counted, answer.card)
    after, said = FOLLOWS[came](left, Given(answer, problem, look))
    return _next(after), said, (Note(MAY_STOP),) if offer else ()


def _outcome(answer: Answer, problem: Problem) -> Outcome:
    if answer.role == "copy":
        return "copied"
    if answer.aim == "familiarity":
        return "told"
    well = _is_well(answer, problem)
    if answer.role != "intro":
        return "right" if well else "missed"
    return "unknown" if not well else "helped" if answer.mark == "right_helped" else "known"


def _is_well(answer: Answer, problem: Problem) -> bool:
    """A void mark counts for nothing, but what was answered still says whether to teach."""
    if answer.mark == "void":
        return answers.judge(problem, answer.given) == "right"
    return answer.mark in ("right", "right_slow", "right_helped")


def _counted(state: State, answer: Answer, came: Outcome, problem: Problem) -> State:
    """The answer in the sitting's counts, and the card among those asked."""
    copied = came == "copied"
    first = came in ("right", "missed", "told", "known") and answer.card not in state.asked
    measured = first and answer.mark != "void"
    missed = came == "missed" and answer.mark != "void"
    seen = (*state.asked.get(answer.card, ()), answer.asked)
    return state._replace(
        tally=_tallied(state.tally, answer, came, measured, problem),
        recent=(*state.recent, answer.mark in UNAIDED) if measured else state.recent,
        asked=state.asked if copied else {**state.asked, answer.card: seen},
        missed={**state.missed, answer.card: state.missed.get(answer.card, 0) + 1}
        if missed
        else state.missed,
        last=answer.card,
        copy=None,
    )


def _tallied(tally: Tally, answer: Answer, came: Outcome, measured: bool, problem: Problem) -> Tally:
    unread = bool(answer.given) and answers.judge(problem, answer.given) == "unreadable"
    running = tally.misses_running
    if came == "missed" and answer.mark != "void":
        running += 1
    elif came in ("right", "known"):
        running = 0
    return Tally(
        answers=tally.answers + 1,
        cards=tally.cards + (came != "copied"),
        used_ms=tally.used_ms + answer.end_ms,
        first_tries=tally.first_tries + measured,
        right=tally.right + (measured and answer.mark in UNAIDED),
        new=tally.new + (came in ("unknown", "helped")),
        misses_running=running,
        unreadable_running=tally.unreadable_running + 2 if unread else 0,  # it was asked twice
    )


# --- the path each outcome takes ----------------------------------------------------------------------


class Given(NamedTuple):
    answer: Answer
    problem: Problem
    look: Later | None  # the second look it was, if it was one


def _say(given: Given, text: str = "", hold: bool = False) -> Say:
    return Say(given.answer.card, given.answer.mark, given.problem.expected, text, hold)


def _told(state: State, given: Given) -> tuple[State, Say]:
    """A card to recognise, or a copy: what was not right is told, and on it goes."""
    return state, _say(given, "" if _is_well(given.answer, given.problem) else given.problem.told)


def _known(state: State, given: Given) -> tuple[State, Say]:
    return state, _say(given, _spelling(given))


def _right(state: State, given: Given) -> tuple[State, Say]:
    """A card that was right at once does not come back; a new one is looked at once more."""
    said = _say(given, _spelling(given))
    if given.look is None:
        return state, said
    state = state._replace(learned=(*_unlearned(state, given), (given.answer.card, given.answer.asked)))
    return (_put_back(state, given, 2, True), said) if _looks_again(given) else (state, said)


def _looks_again(given: Given) -> bool:
    return given.look is not None and given.look.new and given.look.look == 1


def _helped(state: State, given: Given) -> tuple[State, Say]:
    """A new card found with help: it is new, and comes again."""
    return _put_back(state, given, 1, True), _say(given, _spelling(given))


def _unknown(state: State, given: Given) -> tuple[State, Say]:
    """A new card that is not known: shown, copied, asked twice more. It is no miss."""
    return _taught(_put_back(state, given, 1, True), given)


def _missed(state: State, given: Given) -> tuple[State, Say]:
    """Told and copied, then looked at again; after too many misses the card is left for another day."""
    state = state._replace(learned=_unlearned(state, given))
    if state.missed.get(given.answer.card, 0) >= (2 if state.sitting.age <= YOUNG else 3):
        return state._replace(worked=_which(given)), _say(given, _lesson(given), hold=True)
    if given.look is not None and given.look.look == 1:
        state = _put_back(state, given, 2, given.look.new)
    elif given.look is None and all(look.new for look in state.later):
        state = _put_back(state, given, 1, False)
    return _taught(state, given)


def _taught(state: State, given: Given) -> tuple[State, Say]:
    """A fact is shown and copied; of anything else the worked steps are shown, and nothing is copied."""
    fact = skills.traits(given.answer.card).fact
    state = state._replace(worked=_which(given), copy=_which(given) if fact else None)
    return state, _say(given, _lesson(given), hold=True)


def _lesson(given: Given) -> str:
    if skills.traits(given.answer.card).fact:
        return f"{given.problem.told}\n{SAY_IT}"
    steps = (help.text for help in given.problem.helps if help.step == "steps")
    return next(steps, given.problem.told)


def _spelling(given: Given) -> str:
    """An answer in words that counts but is spelled another way is shown as it is written. "And" may be
    left out of a number."""
    expected, text = (
        "".join(word for word in map(_letters, written.replace("-", " ").split()) if word != "and")
        for written in (given.problem.expected, given.answer.given)
    )
    return given.problem.told if expected and text != expected else ""


def _letters(text: str) -> str:
    return "".join(letter for letter in text.casefold() if letter.isalpha())


def _put_back(state: State, given: Given, look: int, new: bool) -> State:
    if state.closed:
        return state
    later = Later(given.answer.card, state.tally.cards, NEAR if look == 1 else FAR, look, new)
    return state._replace(later=(*state.later, later))


def _unlearned(state: State, given: Given) -> tuple[tuple[str, str], ...]:
    return tuple(pair for pair in state.learned if pair[0] != given.answer.card)


def _which(given: Given) -> tuple[str, str]:
    return given.answer.card, given.answer.asked


FOLLOWS: dict[Outcome, Callable[[State, Given], tuple[State, Say]]] = {
    "copied": _told,
    "told": _told,
    "known": _known,
    "helped": _helped,
    "unknown": _unknown,
    "right": _right,
    "missed": _missed,
}


# --- what is shown next -------------------------------------------------------------------------------


def _next(state: State) -> State:
    """The state with its next turn, or ended."""
    state = state._replace(filled=filling(state))
    if state.copy is not None:
        card, asked = state.copy
        return state._replace(
            turn=Turn(card, "copy", asked, len(state.asked[card]) - 1, closing=state.closed)
        )
    choice = choose(state)
    if choice is None:
        return state._replace(turn=None, ended=True)
    card = choice.item.key
    showing = len(state.asked.get(card, ()))
    turn = Turn(card, role_of(state, choice.item), _drawn(state, card, showing), showing, choice.closing)
    return state._replace(turn=turn)


def _drawn(state: State, card: str, showing: int) -> str:
    """What the card asks: none of its last five problems, where it has others, else the one longest ago."""
    sitting = state.sitting
    source = seeds.problem_source(sitting.book, sitting.child, sitting.plan.day, card, showing)
    first = skills.draw(card, source)
    before = (*sitting.lately.get(card, ()), *state.asked.get(card, ()))[-FRESH:]
    if first not in before or skills.traits(card).fact:
        return first
    others = (skills.draw(card, source) for _ in range(REDRAWS))
    return min((first, *others), key=lambda asked: _asked_at(before, asked))


def _asked_at(before: Sequence[str], asked: str) -> int:
    """Its last place in what was asked before; -1 where it was not."""
    return max((n for n, earlier in enumerate(before) if earlier == asked), default=-1)


def _showing(state: State) -> Show | End:
    turn = state.turn
    if turn is None:
        return End((*_best_line(state), DONE), _summary(state, finished=True))
    return Show(
        state.tally.answers + 1,
        skills.problem(turn.card, turn.asked),
        first_meeting=turn.role == "intro",
        second_look=turn.role == "ask" and turn.showing > 0,
        copying=turn.role == "copy",
        dots=dots(state, turn.closing),
    )


# --- the end ------------------------------------------------------------------------------------------


def _best_line(state: State) -> tuple[str, ...]:
    """One thing known now and not before, or the effort on one; nothing is counted."""
    if state.learned:
        card, asked = state.learned[-1]
        return skills.problem(card, asked).told, KNOWN_NOW if skills.traits(card).fact else WORKED_OUT
    if state.worked:
        return EFFORT, skills.problem(*state.worked).told
    return ()


def _summary(state: State, finished: bool) -> Summary:
    tally = state.tally
    return Summary(tally.used_ms / 1000, tally.first_tries, tally.right, tally.new, finished)
