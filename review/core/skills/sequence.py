"""The number after, before or between: 47, □, 49.

A class is every number of a range that has its neighbours in it too. `within` are those where nothing but
the ones change, `across` those where a ten is passed: after 29, before 30, between 29 and 31.
"""

from collections.abc import Iterator, Mapping
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Help, Problem, Skill, Traits
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import ranges, words
from review.core.skills.wording import EQUALS, MINUS, PLUS, grouped, in_words
from review.core.skills.worked import worked

TASKS = ("after", "before", "between")
STEPS = ("all", "within", "across")
LARGEST = 999_999  # our judgement
SHOWN = {"after": (0, 1), "before": (0, 1), "between": (0, 1, 2)}  # from the first number of a showing
ANSWER = {"after": 1, "before": 0, "between": 1}  # which of them is asked for


class Class(NamedTuple):
    task: str
    low: int
    high: int
    step: str

    @property
    def starts(self) -> range:
        """The first numbers of its showings, whatever they pass."""
        return range(self.low, self.high - SHOWN[self.task][-1] + 1)


def _class(key: str) -> Class:
    task, span, *step = content_of(key).split("/")
    low, _, high = span.partition("..")
    return Class(task, int(low), int(high), *(step or ["all"]))


def _key(of: Class) -> str:
    return f"sequence:{of.task}/{of.low}..{of.high}" + ("" if of.step == "all" else f"/{of.step}")


# --- which numbers belong -----------------------------------------------------------------------------


def _belongs(of: Class, start: int) -> bool:
    across = start // 10 != (start + SHOWN[of.task][-1]) // 10
    return start in of.starts and (of.step == "all" or across == (of.step == "across"))


def _asked(of: Class, start: int) -> str:
    return ",".join("_" if at == ANSWER[of.task] else str(start + at) for at in SHOWN[of.task])


def _possible(of: Class) -> bool:
    """Whether any number belongs: whether a ten is passed comes again after ten numbers."""
    return any(_belongs(of, start) for start in of.starts[:10])


def draw(key: str, random: Random) -> str:
    of = _class(key)
    if not _possible(of):
        raise ValueError(f"no number belongs to {key}")
    start = random.choice(of.starts)
    while not _belongs(of, start):
        start = random.choice(of.starts)
    return _asked(of, start)


# --- what is shown ------------------------------------------------------------------------------------

SAYS = {
    "after": "What comes after {a}?",
    "before": "What comes before {b}?",
    "between": "What comes between {a} and {b}?",
}
PROMPTS = {"after": "After {a} comes", "before": "Before {b} comes", "between": "Between {a} and {b} comes"}
QUESTIONS = {
    "after": "Say it. What do you say next?",
    "before": "Count up to it. Which came last?",
    "between": "Count on. What do you say next?",
}


def _start(of: Class, asked: str) -> int:
    """The first number of a showing; ValueError if it is none of this card's."""
    first, second, *_ = asked.split(",")
    start = int(first) if first != "_" else int(second) - 1
    if _asked(of, start) != asked or not _belongs(of, start):
        raise ValueError(f"{asked} does not belong to {_key(of)}")
    return start


def _helps(of: Class, answer: int) -> tuple[Help, ...]:
    sign, known = (MINUS, answer + 1) if of.task == "before" else (PLUS, answer - 1)
    step = f"{grouped(known)} {sign} 1 {EQUALS} {grouped(answer)}"
    ten = max(answer, known)
    passed = f"A new ten starts at {grouped(ten)}."
    return (
        Help("question", QUESTIONS[of.task]),
        Help("build", "Point to it on a number line."),
        *worked(*((passed,) if ten % 10 == 0 and of.task == "before" else ()), step),
    )


def problem(key: str, asked: str) -> Problem:
    of = _class(key)
    start = _start(of, asked)
    answer, last = start + ANSWER[of.task], start + SHOWN[of.task][-1]
    prompt = PROMPTS[of.task].format(a=grouped(start), b=grouped(last))
    return Problem(
        card=key,
        kind="sequence",
        asked=asked,
        prompt=prompt,
        say=SAYS[of.task].format(a=in_words(start), b=in_words(last)),
        form="whole",
        expected=str(answer),
        told=f"{prompt} {grouped(answer)}.",
        helps=_helps(of, answer),
    )


def predict(key: str, asked: str) -> Mapping[str, str]:
    """The slips of counting, with a step of one (see `counting`); from memory."""
    of = _class(key)
    answer = _start(of, asked) + ANSWER[of.task]
    way = -1 if of.task == "before" else 1
    known = answer - way
    slips = {
        "repeated": known,
        "skipped": answer + way,
        "wrong_way": known - way,
        "ten_not_moved": known - known % 10 + answer % 10,
    }
    if of.task == "between":  # what stands there is not said again
        slips = {"ten_not_moved": slips["ten_not_moved"]}
    return {rule: str(slip) for rule, slip in slips.items() if slip >= 0 and slip != answer}


# --- the kind -----------------------------------------------------------------------------------------


def _classes(skill: Skill) -> Iterator[Class]:
    for low, high in ranges(skill, "ranges"):
        for step in words(skill, "steps"):
            yield from (Class(task, low, high, step) for task in words(skill, "task"))


def keys(skill: Skill) -> Iterator[str]:
    return (_key(of) for of in _classes(skill) if _possible(of))


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for of in _classes(skill):
        if not _possible(of):
            wrong = f"{of.low:,} to {of.high:,} has no number {of.task} another{PASSING[of.step]}"
            yield "ranges", wrong, f"write [{of.low}, {of.low + 20}]"


TITLES = {"after": "the number after", "before": "the number before", "between": "the number between two"}
PASSING = {"all": "", "within": ", in one ten", "across": ", past a ten"}
SECONDS = {"after": 4.0, "before": 5.0, "between": 5.0}  # our judgement


def traits(key: str) -> Traits:
    of = _class(key)
    title = f"{TITLES[of.task]}, {grouped(of.low)} to {grouped(of.high)}{PASSING[of.step]}"
    groups = frozenset({f"procedure-{key}", f"sequence-{of.task}"})
    return Traits(title, False, SECONDS[of.task] + (2.0 if of.high > 999 else 0.0), groups)


KINDS: tuple[Kind, ...] = (
    Kind(
        "sequence",
        "the number after, before or between",
        {
            "task": Option(
                "words", "what is asked", default=TASKS, choices=TASKS, example='["after", "before"]'
            ),
            "ranges": Option(
                "ranges", "which numbers are shown, a card each", low=0, high=LARGEST,
                example="[[1, 20], [20, 100]]",
            ),
            "steps": Option(
                "words", "all, or within one ten and across to the next as cards of their own",
                default=("all",), choices=STEPS, example='["within", "across"]',
            ),
        },
        keys, traits, draw, problem, check, predict=predict,
    ),
)  # fmt: skip
