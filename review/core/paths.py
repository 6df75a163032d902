"""What comes of an answer: the path each outcome takes, what is said, and when the card comes again."""

import re
from collections.abc import Callable
from typing import Literal, NamedTuple

from review.core import curve, judging, liking, sayings, skills
from review.core.model import FOUND, Answer, Problem
from review.core.queue import FAR, NEAR, Later, State, queue_without
from review.core.warmup import Say

NUMBERS = re.compile(r"\d+").findall

Outcome = Literal["copied", "told", "known", "helped", "unknown", "right", "missed"]


def outcome_of(answer: Answer, problem: Problem) -> Outcome:
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
        return judging.judge(problem, answer.given) == "right"
    return answer.mark in FOUND


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
    return state, _say(given, _shown(state, given))


def _right(state: State, given: Given) -> tuple[State, Say]:
    """A card that was right at once does not come back; a new one is looked at once more."""
    said = _say(given, _shown(state, given))
    if given.look is None:
        return state, said
    state = state._replace(learned=(*_unlearned(state, given), (given.answer.card, given.answer.asked)))
    return (_put_back(state, given, 2, True), said) if _looks_again(given) else (state, said)


def _looks_again(given: Given) -> bool:
    return given.look is not None and given.look.new and given.look.look == 1


def _helped(state: State, given: Given) -> tuple[State, Say]:
    """A new card found with help: it is new, and comes again."""
    return _put_back(state, given, 1, True), _say(given, _shown(state, given))


def _unknown(state: State, given: Given) -> tuple[State, Say]:
    """A new card that is not known: shown, copied, asked twice more. It is no miss."""
    return _taught(_put_back(state, given, 1, True), given)


def _missed(state: State, given: Given) -> tuple[State, Say]:
    """Told and copied, then looked at again; after too many misses the card is left for another day."""
    state = state._replace(learned=_unlearned(state, given))
    if state.missed.get(given.answer.card, 0) >= curve.misses_a_day(state.sitting.age):
        left = queue_without(state.queue, given.answer.card, once=False)
        return state._replace(worked=_which(given), queue=left), _say(given, _lesson(state, given), hold=True)
    if given.look is not None and given.look.look == 1:
        state = _put_back(state, given, 2, given.look.new)
    elif given.look is None and all(look.new for look in state.later):
        state = _put_back(state, given, 1, False)
    return _taught(state, given)


def _taught(state: State, given: Given) -> tuple[State, Say]:
    """A fact is shown and copied; of anything else the worked steps are shown, and nothing is copied. One
    who answers aloud has said it by then, and copies nothing either."""
    copies = skills.traits(given.answer.card).fact and given.answer.taken == "typed"
    state = state._replace(worked=_which(given), copy=_which(given) if copies else None)
    return state, _say(given, _lesson(state, given), hold=True)


def _lesson(state: State, given: Given) -> str:
    """A fact is told and said once; of anything else the worked steps are told. Behind either stands the line
    by which a set helps to remember it."""
    card = state.sitting.cards.get(given.answer.card)
    note = [card.note] if card and card.note else []
    if skills.traits(given.answer.card).fact:
        return "\n".join([given.problem.told, *note, sayings.SAY_IT])
    return "\n".join([_worked(state, given), *note])


def _worked(state: State, given: Given) -> str:
    told = given.problem.told
    steps = next((help.text for help in liking.helps(state, given.problem) if help.step == "steps"), "")
    return told if not steps else steps if _ends_with(steps, told) else f"{steps}\n{told}"


def _ends_with(steps: str, told: str) -> bool:
    """Whether the last step says it already: 18 + 20 = 38, and 18 + 20 makes 38."""
    return NUMBERS(steps.rpartition("\n")[2]) == NUMBERS(told)


def _shown(state: State, given: Given) -> str:
    """Of an answer that counts: the fact, where what was typed in the end is spelled another way, or is
    another answer than the one that was right at once."""
    problem, answer = skills.among(given.problem, state.sitting.cards), given.answer
    if answer.slipped and judging.judge(problem, answer.given) != "right":
        return problem.told
    return _spelling(given)


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
