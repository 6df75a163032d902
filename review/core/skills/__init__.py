"""The table of kinds, and the questions everyone asks of a card key.

A room is imported when a kind of it is first asked for: a child has a few kinds, and a start should not pay
for all of them (forty rooms cost 50 ms, measured here).
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache, lru_cache
from importlib import import_module
from random import Random
from typing import TYPE_CHECKING

from review.core.keys import kind_of
from review.core.model import HELP_STEPS, Help, Problem, Traits, TraitsOf, Way
from review.core.skills import strategies
from review.core.skills.picture_rooms import ROOMS as PICTURE_ROOMS
from review.core.skills.picture_rooms import is_unpictured

if TYPE_CHECKING:  # whoever makes no cards needs none
    from review.core.skills.kinds import Kind

ROOMS: Mapping[str, str] = {
    "sum": "facts",
    "difference": "facts",
    "product": "facts",
    "quotient": "facts",
    "bond": "facts",
    "double": "facts",
    "half": "facts",
    "count-by": "counting",
    "sequence": "sequence",
    "quantity": "quantity",
    "place-value": "place_value",
    "compare": "compare",
    "order": "ordering",
    "number-name": "number_names",
    "number-property": "properties",
    "rounding": "rounding",
    "roman": "roman",
    "mental-sum": "mental",
    "mental-difference": "mental_difference",
    "mental-product": "mental_times",
    "mental-quotient": "mental_times",
    "add-several": "several",
    "true-false": "equality",
    "column-sum": "column_sum",
    "column-difference": "column_difference",
    "column-product": "column_product",
    "division-written": "written_division",
    "convert": "measures",
    "money": "money",
    "clock": "clock",
    "duration": "duration",
    "timetable": "timetables",
    "temperature": "temperatures",
    "fraction": "fractions",
    "decimal": "decimals",
    "percent": "percents",
    "shape-measure": "shapes",
    "negative": "negatives",
    "operations": "operations",
    "estimate": "operations",
    "word-problem": "word_problems",
    "vocabulary": "vocabulary",
    "pairs": "pairs",
    "template": "templates",
}
"""Kind -> the room that makes it, in the order of the strands."""


class Kinds(Mapping[str, "Kind"]):
    """Every kind by its name, its room imported when it is first looked up."""

    def __getitem__(self, name: str) -> "Kind":
        return _kind(name)

    def __iter__(self) -> Iterator[str]:
        return iter(ROOMS)

    def __len__(self) -> int:
        return len(ROOMS)


@cache
def _kind(name: str) -> "Kind":
    room = import_module(f"review.core.skills.{ROOMS[name]}")
    return next(kind for kind in room.KINDS if kind.name == name)  # type: ignore[no-any-return]


KINDS: Mapping[str, "Kind"] = Kinds()


def kind(key_or_name: str) -> "Kind":
    """The kind of a card key, or of that name; KeyError for one there is not."""
    return KINDS[kind_of(key_or_name)]


@lru_cache(maxsize=8192)  # the planner asks for every card of a child again and again
def traits(key: str) -> Traits:
    return kind(key).traits(key)


def traits_among(known: Mapping[str, Traits]) -> TraitsOf:
    """The same, of cards whose traits are known already without a look into their rooms."""
    return lambda key: known.get(key) or traits(key)


def are_guessed(keys: Iterable[str]) -> bool:
    """Whether a card has two or three answers to choose from: there knowing and guessing look alike."""
    return any(traits(key).choices in (2, 3) for key in keys)


def draw(key: str, random: Random) -> str:
    """A fresh showing of a card: its `asked`, every member of its class equally likely."""
    return kind(key).draw(key, random)


def undrawn(key: str, asked: str) -> Problem:
    """What is shown, without the pictures of its help: enough to judge an answer, or to name the problem, and
    their rooms need not be imported. ValueError if `asked` does not belong to the card."""
    return kind(key).problem(key, asked)


def undrawn_if_known(key: str, asked: str) -> Problem | None:
    """The same; None where no kind of this version can show it."""
    try:
        return undrawn(key, asked)
    except (LookupError, ValueError):
        return None


@lru_cache(maxsize=64)  # an answer asks five times for the one that stands there
def problem(key: str, asked: str) -> Problem:
    """What is shown, with the pictures of its help; ValueError likewise."""
    found = undrawn(key, asked)
    if is_unpictured(key):
        return found
    helps = sorted((*found.helps, *pictures(found)), key=lambda help: HELP_STEPS.index(help.step))
    return found._replace(helps=tuple(helps))


BELOW_ZERO = re.compile(r"(?<!\S)-\d\S*")
LONG = r"(?<![\d.,:/])\d{4,}(?![\d:/])"
APART = ("\u00a0", ",")
"""Thousands, as screens set them apart: with a decimal comma, and our own way. In that order: 3,219 km make
3 219 m, and only our own way has no such space."""
SPACED = re.compile(r"(?=.*\u00a0)[\d\u00a0]+(?: [\d\u00a0]+)+")  # 9 000 100 70 6: where does one number end?


def shown_answer(problem: Problem) -> str:
    """The expected answer with its numbers as they are told on a screen: 5,277 and −4; a year stays 2028."""

    def told(found: re.Match[str]) -> str:
        ways = (f"{int(found[0]):,}".replace(",", sign) for sign in APART)
        return next((way for way in ways if way in problem.told), found[0])

    def signed(found: re.Match[str]) -> str:
        """A minus as long as the one in the problem, not the key that is typed for it."""
        from review.core.skills.wording import MINUS  # few answers lie below zero

        way = found[0].replace("-", MINUS)
        return way if way in problem.told else found[0]

    shown = BELOW_ZERO.sub(signed, re.sub(LONG, told, problem.expected, flags=re.ASCII))
    return shown.replace(" ", ", ") if SPACED.fullmatch(shown) else shown


def pictures(problem: Problem) -> tuple[Help, ...]:
    """The picture steps of its help, drawn in a room of their own."""
    room = import_module(f"review.core.skills.{PICTURE_ROOMS[problem.kind]}")
    return room.PICTURES[problem.kind](problem)  # type: ignore[no-any-return]


def among(problem: Problem, others: Iterable[str]) -> Problem:
    """The problem as it is judged beside the child's other cards."""
    return kind(problem.card).among(problem, others)


def ways(problem: Problem, named: Iterable[str] = ()) -> tuple[Way, ...]:
    """The ways of working it out that suit its numbers, of those a skill names where it names any."""
    return strategies.choice(kind(problem.card).ways(problem.card, problem.asked), named)


def helps(problem: Problem, named: Sequence[str] = (), liked: str = "") -> tuple[Help, ...]:
    """Its help, least to most, by the way that is liked where it suits, else by the one that suits best."""
    if not named and not liked:
        return problem.helps
    way = strategies.chosen(ways(problem, named), liked=liked)
    if way is None:
        return problem.helps
    drawn = _by_way(problem, way.strategy)
    if not drawn:
        return strategies.followed(problem.helps, way)
    others = (help for help in problem.helps if help.step not in ("picture", "exchange"))
    return strategies.followed(others, way._replace(helps=(*way.helps, *drawn)))


def _by_way(problem: Problem, strategy: str) -> tuple[Help, ...]:
    """Its picture steps as that way has them; nothing where all ways share theirs."""
    room = import_module(f"review.core.skills.{PICTURE_ROOMS[problem.kind]}")
    draw = getattr(room, "BY_WAY", {}).get(problem.kind)
    return draw(problem, strategy) if draw else ()
