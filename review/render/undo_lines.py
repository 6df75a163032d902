"""What would be taken back, and what came of it, in words."""

from collections.abc import Mapping

from review.core import days, family, given, judging, marking, skills
from review.core.amendments import What
from review.core.model import Answer
from review.core.text import clean, plural
from review.render.phrases import MARK_WORDS, SLIP, answered
from review.replies import TakenBack
from review.shell import word

MOST = 6  # answers named; of more, the first few and how many (our judgement)

HEADS: Mapping[What, str] = {
    "answer": "The last answer",
    "sitting": "The last sitting",
    "slip": "The last answer",
    "redo": "What was taken back last",
}
QUESTIONS: Mapping[What, str] = {
    "answer": "Take it back?",
    "sitting": "Take all of it back?",
    "slip": "Count it as right: a slip of the keys?",
    "redo": "Let it count again?",
}
DONE: Mapping[What, str] = {
    "answer": "Taken back. Memory is as if it had never been given.",
    "sitting": "Taken back. Memory is as if the sitting had never been.",
    "slip": "It counts as right now.",
    "redo": "It counts again, as it did.",
}


def looked(found: TakenBack, one_card: bool = False) -> list[str]:
    """What it is about, for the parent to say yes or no to; `one_card`: of a card that was named."""
    answers = [one for one in found.answers if one.role != "copy"] or list(found.answers)
    more, words = len(answers) - MOST, family.words_of(found.child)
    whose = f"of {clean(found.child.name)}{' to this card' if one_card else ''}"
    head = f"{HEADS[found.what]} {whose}, {days.words(found.about.day)}:"
    left = [f"  and {plural(more, 'more answer')}"] if more > 0 else []
    return [head, *(f"  {family.as_written(answer_line(one), words)}" for one in answers[:MOST]), *left]


def answer_line(answer: Answer) -> str:
    told = answered(prompt(answer), clean(written(answer))) if answer.given else prompt(answer)
    return f"{told} ({mark_words(answer)})"


def written(answer: Answer) -> str:
    found = skills.undrawn_if_known(answer.card, answer.asked)
    return given.as_written(found, answer.given) if found else answer.given


def mark_words(answer: Answer) -> str:
    found = skills.undrawn_if_known(answer.card, answer.asked)
    return SLIP if found and judging.was_slip(found, answer) else MARK_WORDS[marking.as_said(answer)]


def prompt(answer: Answer) -> str:
    """As it was shown; what this version cannot show is told as it was logged."""
    found = skills.undrawn_if_known(answer.card, answer.asked)
    return clean(found.prompt if found else answer.asked)


def question(what: What) -> str:
    return QUESTIONS[what]


def done(found: TakenBack) -> list[str]:
    who = word(found.child.name)
    if found.what == "redo":
        return [DONE["redo"]]
    on = [f"Today's warm-up goes on without it: review warmup {who}"] if goes_on(found) else []
    return [DONE[found.what], *on, *entered_anew(found), f"If that was a mistake: review undo --redo {who}"]


def entered_anew(found: TakenBack) -> list[str]:
    """For a sitting on paper, how its marks are entered once more."""
    first = next(iter(found.answers), None)
    if found.what not in ("answer", "sitting") or first is None or first.taken != "paper":
        return []
    return [f"To enter its marks anew: review enter {first.sheet} --day {first.part}"]


def goes_on(found: TakenBack) -> bool:
    """Whether the day's warm-up is asked again where it stood."""
    beside = (one.role == "probe" or one.sitting or one.taken == "paper" for one in found.answers)
    of_warmup = not any(beside)
    return found.what in ("answer", "sitting") and of_warmup and found.about.day == found.day


def row(found: TakenBack, done: bool) -> dict[str, object]:
    """The keys are a promise; they are only ever added to."""
    return {
        "child": found.child.name,
        "what": found.what,
        "done": done,
        "day": days.date_of(found.about.day).isoformat(),
        "answers": [
            {"card": one.card, "prompt": prompt(one), "given": one.given, "mark": one.mark}
            for one in found.answers
        ],
    }
