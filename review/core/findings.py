"""What is found of why a child misses: the nouns alone, so that who tells of it need not load how."""

from typing import Any, NamedTuple

from review.core.model import Child

Fact = tuple[int, int]  # of the tables, the smaller factor first


class Evidence(NamedTuple):
    """An answer that is told to a parent, beside what was expected."""

    day: int
    card: str
    asked: str
    expected: str
    given: str


class Found(NamedTuple):
    """An error rule that is named, with its evidence."""

    family: str
    rules: tuple[str, ...]  # the likeliest first; more than one where nothing tells them apart yet
    since: int  # the day it was named
    evidence: tuple[Evidence, ...]  # the answers it leads to, oldest first
    missed: int  # of the last wrong answers of the family
    explained: int  # how many of those it leads to


class Confused(NamedTuple):
    """The answer of another fact was given, on several days."""

    fact: Fact  # the one that was asked last
    others: tuple[Fact, ...]  # whose answer that is: the nearest, or several as near
    evidence: tuple[Evidence, ...]  # oldest first; also of a pair taken both ways


class Counting(NamedTuple):
    """Times that rise with what there is to count."""

    step: float  # seconds a unit of the smaller addend
    answers: int
    few: float  # mean seconds where there is little to count
    many: float  # and where there is much
    last_day: int


class Unsaid(NamedTuple):
    """Most of the last misses had no answer."""

    shown: int  # asked to be shown
    missed: int  # of so many last first tries that were missed


class Helped(NamedTuple):
    """Help was looked at in most of the last first tries."""

    helped: int
    tries: int  # of so many


class Findings(NamedTuple):
    """All that was found in one child's answers; what is empty was not."""

    day: int  # of the last answer that was read: on any day from there on the same is found
    rules: tuple[Found, ...]  # the freshest evidence first
    confused: tuple[Confused, ...]
    counting: Counting | None
    unsaid: Unsaid | None = None
    helped: Helped | None = None


class Misses(NamedTuple):
    """One child's report."""

    child: Child
    age: int
    answers: int  # that were given so far, as far as they were counted
    found: Findings


# --- as lists that JSON knows, and back ---------------------------------------------------------------


def findings_of(stored: Any) -> Findings:
    """As a list that JSON gave back."""
    day, rules, confused, counting, unsaid, helped = stored
    return Findings(
        day,
        tuple(_found(*one) for one in rules),
        tuple(_confused(*one) for one in confused),
        None if counting is None else Counting(*counting),
        None if unsaid is None else Unsaid(*unsaid),
        None if helped is None else Helped(*helped),
    )


def _found(family: str, rules: list[str], since: int, evidence: Any, missed: int, explained: int) -> Found:
    return Found(family, tuple(rules), since, _evidence(evidence), missed, explained)


def _confused(fact: Any, others: Any, evidence: Any) -> Confused:
    return Confused(_fact(fact), tuple(map(_fact, others)), _evidence(evidence))


def _fact(stored: Any) -> Fact:
    first, second = stored
    return first, second


def _evidence(stored: Any) -> tuple[Evidence, ...]:
    return tuple(Evidence(*one) for one in stored)
