"""What a kind of skill is made of: a row of the table of kinds, and the keys it takes in a skill set."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from random import Random
from typing import Literal, NamedTuple

from review.core.model import Problem, Skill, TraitsOf, Way


class Option(NamedTuple):
    """One key a kind takes in a `[[skill]]` table, as data the checker reads."""

    type: Literal[
        "whole", "wholes", "word", "words", "range", "ranges", "yes-no", "pairs", "letters", "phrase"
    ]
    about: str  # what it means, in words for a parent
    default: object = None  # None: the key must be given
    low: int = 0
    high: int = 0
    choices: tuple[str, ...] = ()  # for word and words
    example: str = ""  # as one would write it in TOML


class Kind(NamedTuple):
    """A kind of skill: five functions and a table of the keys it takes. See DEVELOPERS.md."""

    name: str
    about: str
    options: Mapping[str, Option]
    keys: Callable[[Skill], Iterator[str]]  # card keys, in the order they are introduced
    traits: TraitsOf
    draw: Callable[[str, Random], str]  # a card key and a source -> asked
    problem: Callable[[str, str], Problem]  # a card key and asked -> the problem
    check: Callable[[Skill], Iterable[tuple[str, str, str]]] = lambda skill: ()
    """Impossible conditions: (option name, what is wrong, what to write instead)."""
    predict: Callable[[str, str], Mapping[str, str]] = lambda key, asked: {}
    """What one would write under each error rule: (card key, asked) -> rule -> text. Only answers
    that differ from the expected one."""
    among: Callable[[Problem, Iterable[str]], Problem] = lambda problem, others: problem
    """The problem as it is judged where the child has those other cards."""
    ways: Callable[[str, str], Sequence[Way]] = lambda key, asked: ()
    """The ways that suit the numbers, the best first, which the problem's own help follows: (card key,
    asked) -> ways."""


CALLED = {
    **dict.fromkeys(("addition", "adding", "plus", "facts"), "sum"),
    **dict.fromkeys(("subtraction", "taking-away", "minus"), "difference"),
    **dict.fromkeys(("multiplication", "table", "tables", "times", "times-table", "times-tables"), "product"),
    "division": "quotient",
    **dict.fromkeys(("story", "stories"), "word-problem"),
    **dict.fromkeys(("time", "times-of-day"), "clock"),
    **dict.fromkeys(("words", "list", "questions"), "pairs"),
}
"""What people call a kind of problems, and its name here."""


def kind_called(name: str, names: Iterable[str]) -> list[str]:
    """The kind that people call so, where it is one of those names."""
    kind = CALLED.get("-".join(name.casefold()[:100].split()))
    return [kind] if kind is not None and kind in names else []
