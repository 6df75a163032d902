"""A shipped set with its cards as they were written down beforehand, a line of JSON a set.

Which cards a set has, and what the planner knows of them, follows from its text; but to make them takes the
rooms of all their kinds and, for a child with forty sets, a third of a report's time (measured here).
`python -m tests.written_cards` writes the lines, and a test holds them against what is made. A line is of one
text: where somebody changed the set, its cards are made from what it says now.
"""

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from review.core.digests import sha256
from review.core.model import Skill, SkillSet, Traits

Row = Sequence[Any]  # the fields of a card's traits


class WrittenTraits(Mapping[str, Traits]):
    """The traits of many cards, each made when it is first asked for: children share most of their sets."""

    def __init__(self, rows: Mapping[str, Row]) -> None:
        self._rows = rows
        self._made = dict[str, Traits]()

    def __getitem__(self, key: str) -> Traits:
        found = self._made.get(key)
        if found is None:
            title, fact, seconds, groups, family, partner, choices, pairs = self._rows[key]
            shared, unlike = frozenset(groups), frozenset(pairs)
            found = Traits(title, fact, seconds, shared, family, partner, choices, unlike)
            self._made[key] = found
        return found

    def __iter__(self) -> Iterator[str]:
        return iter(self._rows)

    def __len__(self) -> int:
        return len(self._rows)


class Written(NamedTuple):
    """A set whose skills name their cards, and the traits of these."""

    found: SkillSet
    traits: WrittenTraits


class TraitsOfSets(Mapping[str, Traits]):
    """The traits of the cards of several sets."""

    def __init__(self, sets: Iterable[WrittenTraits]) -> None:
        self._of = {key: one for one in sets for key in one}

    def __getitem__(self, key: str) -> Traits:
        return self._of[key][key]

    def get(self, key: str, default: Any = None) -> Any:  # as a mapping has it, without its `try`
        found = self._of.get(key)
        return default if found is None else found[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._of)

    def __len__(self) -> int:
        return len(self._of)


def seal(text: str) -> str:
    """Of a set's text, however its lines end."""
    return sha256(text.replace("\r\n", "\n").encode()).hexdigest()[:16]


def by_set(lines: bytes) -> dict[str, bytes]:
    """Each line by the id of its set, which stands first in it. They stay bytes: most are never read."""
    return {
        line[2 : line.find(b'"', 2)].decode(errors="replace"): line
        for line in lines.split(b"\n")
        if line.startswith(b'["')
    }


def written(line: str | bytes, text: str) -> Written | None:
    """The set of a line; None where it is of another text, or no line of ours."""
    try:
        set_id, of, title, about, aim, ages, standards, skills, rows = json.loads(line)
        if of != seal(text):
            return None
        made = tuple(_skill(set_id, *row) for row in skills)
        return Written(
            SkillSet(set_id, title, about, aim, tuple(ages), tuple(standards), made), WrittenTraits(rows)
        )
    except (LookupError, TypeError, ValueError, AttributeError):
        return None


def _skill(set_id: str, *row: Any) -> Skill:
    name, title, kind, aim, options, after, strategies, note, keys = row
    made = {key: _frozen(value) for key, value in options.items()}
    return Skill(name, title, kind, aim, made, tuple(after), tuple(strategies), set_id, tuple(keys), note)


def _frozen(value: object) -> object:
    return tuple(map(_frozen, value)) if isinstance(value, list) else value
