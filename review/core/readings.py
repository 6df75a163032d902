"""First answers, read against the error rules of their problems.

What a child writes before anybody has told or helped: a plain question, a first meeting, a placement. Where
it looked like a slip of the keys, what was typed first. Left out: copies and second looks (told a moment
ago), what was found with help (the help leads), what was interrupted, said aloud or marked on paper (nobody
knows what was said), what a parent put right (a slip of the keys, the parent says), and a gentle warm-up (it
promises that no miss counts, and right answers alone would speak against every rule).
"""

import re
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from review.core import judging, skills, slips
from review.core.answer_bodies import event_answer
from review.core.findings import Evidence
from review.core.keys import content_of, kind_of
from review.core.model import RIGHT, Answer, Event, Problem

MOST = 150
"""Newest answers of a family that are read (our judgement): half a year of three a sitting, two a week."""

NUMBER = re.compile(r"\d+", re.ASCII)
PLAIN = re.compile(r"0|[1-9]\d{0,8}", re.ASCII)  # a whole number that can be written in one way only

DIGITS = re.compile(r"[\d ,.+-]+", re.ASCII)  # a number, or several
BUT_DIGITS = dict.fromkeys(map(ord, " ,.+-0"))
LOOSE = frozenset({"clock", "duration", "timetable", "money", "number-property", "pairs"})
"""Kinds with forms of answers in which other digits may be the same answer: 13 and 1 o'clock, two coins for
one, a number that is said twice, one that is only about so much."""

TASKED = frozenset({
    "place-value", "number-name", "number-property", "money", "fraction", "decimal", "percent",
    "shape-measure", "duration", "word-problem",
})  # fmt: skip
"""Kinds whose cards ask for different things; the first word of the task says which."""

SAME_IDEA: Mapping[str, str] = {
    "place-value/less": "place-value/more",
    "decimal/order": "decimal/compare",
    "fraction/unit": "fraction/of",
    "decimal/divide": "decimal/times",
    "number-property/cube": "number-property/square",
}
"""Tasks that stand on one idea, so that one way of thinking shows in both."""

NEVER_NAMED = frozenset({
    ("product", "swapped"), ("product", "ten_off"), ("product", "step_short"), ("product", "step_over"),
    ("quotient", "swapped"), ("quotient", "ten_off"), ("quotient", "step_short"), ("quotient", "step_over"),
})  # fmt: skip
"""What tells nothing of facts: one step off explains a third of all wrong products (38%, design lab), and
digits or tens go astray with it. Which fact was given in its place is reported instead."""
PARTLY_NAMED = frozenset(kind for kind, _ in NEVER_NAMED)  # of all other kinds every rule can be named


Row = tuple[int, Answer]  # a day, and what was answered on it


class Reading(NamedTuple):
    """A first answer, beside what one would write under each error rule."""

    day: int
    card: str
    asked: str
    expected: str
    given: str
    right: bool
    says: Mapping[str, str]  # rule -> what one would write under it; only what differs from `expected`
    fits: frozenset[str]  # the rules that lead to what was given

    @property
    def evidence(self) -> Evidence:
        return Evidence(self.day, self.card, self.asked, self.expected, self.given)

    @property
    def problem(self) -> str:
        """What tells problems apart: 6 + 7 and 7 + 6 are one."""
        fact = skills.traits(self.card).fact
        return " ".join(sorted(NUMBER.findall(self.asked))) if fact else self.asked


Enough = Callable[[Sequence[Reading]], bool]
"""Whether the wrong answers of a family say enough for the right ones to be read."""

MayBe = Callable[[Iterable[Row]], bool]
"""Whether they may, told before they are read: never no where it is enough."""


# --- families -----------------------------------------------------------------------------------------


def family_of(key: str) -> str:
    """Cards in which one way of thinking would show: the kind, and what is asked for where that differs."""
    kind, content = kind_of(key), content_of(key)
    parts = content.split("/")
    if kind == "roman":
        return f"{kind}/{parts[1]}"
    if kind in TASKED:
        family = f"{kind}/{parts[0].split('-')[0]}"
        return SAME_IDEA.get(family, family)
    return f"{kind}/missing" if "_" in content else kind


def nameable(key: str, rule: str) -> bool:
    """Whether a rule says anything of a card of that kind."""
    return (kind_of(key), base(rule)) not in NEVER_NAMED


def base(rule: str) -> str:
    """The rule a variant belongs to."""
    return rule.partition("/")[0]


# --- the log ------------------------------------------------------------------------------------------


def by_family(told: Iterable[Event]) -> dict[str, list[Event]]:
    """The newest answers of one child that may tell something, oldest first. `told`: events of any kind, as
    they count and in their order."""
    found: dict[str, list[Event]] = defaultdict(list)
    families: dict[str, str] = {}
    for event in told:
        if event.kind == "answer" and tells(event.body):
            card = event.card
            found[families.get(card) or families.setdefault(card, family_of(card))].append(event)
    return {family: rows[-MOST:] for family, rows in found.items()}


def row_of(event: Event) -> Row:
    return event.day, event_answer(event)


def astray(rows: Sequence[Event]) -> dict[int, Row]:
    """Those that were wrong, or typed twice, by their place: the only ones that can speak for a rule."""
    marked = (n for n, row in enumerate(rows) if row.body["mark"] == "not_yet" or row.body.get("slipped"))
    return {n: row_of(rows[n]) for n in marked}


def tells(body: Mapping[str, object]) -> bool:
    """Whether a logged answer is a child's own first, in figures or words. Most of a log tells nothing, and
    no noun is made of it."""
    own = body.get("role") != "copy" and not body.get("showing") and body.get("help", "") in ("", "written")
    typed = bool(body.get("given")) and body.get("taken", "typed") == "typed"
    counts = body.get("sitting") != "gentle" and body.get("mark") in (*RIGHT, "not_yet")
    return own and typed and counts


def leads_anywhere(wrong: Iterable[Reading]) -> bool:
    """Whether some error rule leads to one of the answers."""
    return any(one.fits for one in wrong)


def may_lead_anywhere(rows: Iterable[Row]) -> bool:
    """The same of answers that went astray and were not read yet, or more than that."""
    return any(may_lead(answer) for _, answer in rows)


def read(
    rows: Sequence[Event], enough: Enough = leads_anywhere, may_be: MayBe = may_lead_anywhere
) -> tuple[Reading, ...]:
    """Of one family; () where the wrong answers alone say too little: unless told otherwise, where no error
    rule leads to any of them. No noun is made of a right one before that: of most families it never is. Nor
    is a wrong one read where it may not be enough."""
    marked = astray(rows)
    if not may_be(marked.values()):
        return ()
    wrong = {n: one for n, row in marked.items() if (one := _wrong(*row)) is not None}
    if not enough([*wrong.values()]):
        return ()
    every = (wrong.get(n) or _right(*row_of(row)) for n, row in enumerate(rows))
    return tuple(one for one in every if one is not None)


def _wrong(day: int, answer: Answer) -> Reading | None:
    if answer.mark != "not_yet" and not answer.slipped:
        return None
    if answer.mark in RIGHT and answer.slipped == answer.given:  # a parent put it right
        return None
    problem = skills.undrawn_if_known(answer.card, answer.asked)
    given = slips.first_given(answer)
    verdict = judging.judge(problem, given) if problem else "right"
    if problem is None or verdict == "right":
        return None
    says = predictions(answer.card, answer.asked)
    fits = frozenset(rule for rule, text in says.items() if leads_to(problem, text, given))
    if verdict == "unreadable" and not fits:
        return None
    return Reading(day, answer.card, answer.asked, answer.expected, given, False, says, fits)


def _right(day: int, answer: Answer) -> Reading | None:
    """None for what a parent put right, and for what was asked once more."""
    if answer.mark not in RIGHT or (answer.slipped and not _is_right(answer, answer.slipped)):
        return None
    if not answer.slipped and answer.given != answer.expected and not _is_right(answer, answer.given):
        return None
    says = predictions(answer.card, answer.asked)
    return Reading(day, answer.card, answer.asked, answer.expected, answer.given, True, says, frozenset())


def _is_right(answer: Answer, text: str) -> bool:
    problem = skills.undrawn_if_known(answer.card, answer.asked)
    return problem is not None and judging.judge(problem, text) == "right"


@lru_cache(maxsize=4096)  # a child is asked the same facts again and again
def predictions(key: str, asked: str) -> Mapping[str, str]:
    """What one would write under each rule that can be named."""
    try:
        found = skills.kind(key).predict(key, asked)
    except (LookupError, ValueError):
        return {}
    if kind_of(key) not in PARTLY_NAMED:
        return dict(found)
    return {rule: text for rule, text in found.items() if nameable(key, rule)}


def may_lead(answer: Answer) -> bool:
    """Whether some rule may have led to what was given: told without the problem, which takes most of a
    reading's time. It may say so of what no rule leads to, and never the other way."""
    given, loose = slips.first_given(answer), kind_of(answer.card) in LOOSE
    return any(loose or _may_be(text, given) for text in predictions(answer.card, answer.asked).values())


def _may_be(text: str, given: str) -> bool:
    """Whether two answers may be one: numbers are not, unless they have the same digits but for noughts."""
    both = DIGITS.fullmatch(text) and DIGITS.fullmatch(given)
    return not both or sorted(text.translate(BUT_DIGITS)) == sorted(given.translate(BUT_DIGITS))


def leads_to(problem: Problem, text: str, given: str) -> bool:
    """Whether what a rule writes is what was given, however that is spelled. Some rules write what cannot be
    read, like IIII."""
    if text.casefold() == given.strip().casefold():
        return True
    if problem.form == "whole" and PLAIN.fullmatch(text) and PLAIN.fullmatch(given):
        return False  # two numbers, each written as it is always written
    return judging.judge(problem._replace(expected=text), given) == "right"
