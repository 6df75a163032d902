"""A shipped set with its cards as they were written down beforehand, a line of JSON a set.

Which cards a set has, and what the planner knows of them, follows from its text; but to make them takes the
rooms of all their kinds and, for a child with forty sets, a third of a report's time (measured here).
`python -m tests.written_cards` writes the lines, and a test holds them against what is made. A line is of one
text: where somebody changed the set, its cards are made from what it says now.
"""

import json
from collections.abc import Iterator, Mapping, Sequence
from hashlib import sha256
from typing import Any, NamedTuple

from review.core.model import Skill, SkillSet, Traits

Row = Sequence[Any]  # the fields of a card's traits


class Written(NamedTuple):
    """A set whose skills name their cards, and the traits of these as they are written."""

    found: SkillSet
    rows: Mapping[str, Row]


class WrittenTraits(Mapping[str, Traits]):
    """The traits of many cards, each made when it is asked for."""

    def __init__(self, rows: Mapping[str, Row]) -> None:
        self._rows = rows

    def __getitem__(self, key: str) -> Traits:
        title, fact, seconds, groups, family, partner, choices, pairs = self._rows[key]
        return Traits(title, fact, seconds, frozenset(groups), family, partner, choices, frozenset(pairs))

    def __iter__(self) -> Iterator[str]:
        return iter(self._rows)

    def __len__(self) -> int:
        return len(self._rows)


def seal(text: str) -> str:
    """Of a set's text, however its lines end."""
    return sha256(text.replace("\r\n", "\n").encode()).hexdigest()[:16]


def by_set(lines: str) -> dict[str, str]:
    """Each line by the id of its set, which stands first in it."""
    return {line.split('"', 2)[1]: line for line in lines.split("\n") if line.startswith('["')}


def written(line: str, text: str) -> Written | None:
    """The set of a line; None where it is of another text, or no line of ours."""
    try:
        set_id, of, title, about, aim, ages, standards, skills, rows = json.loads(line)
        if of != seal(text):
            return None
        made = tuple(_skill(set_id, *row) for row in skills)
        return Written(SkillSet(set_id, title, about, aim, tuple(ages), tuple(standards), made), rows)
    except (LookupError, TypeError, ValueError, AttributeError):
        return None


def _skill(set_id: str, *row: Any) -> Skill:
    name, title, kind, aim, options, after, strategies, keys = row
    made = {key: _frozen(value) for key, value in options.items()}
    return Skill(name, title, kind, aim, made, tuple(after), tuple(strategies), set_id, tuple(keys))


def _frozen(value: object) -> object:
    return tuple(map(_frozen, value)) if isinstance(value, list) else value
