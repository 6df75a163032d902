"""The ways of bonds: as they look, that there are two, and that none tells its own answer."""

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest

from review.core import skills
from review.core.model import Way
from review.core.skills.bond_ways import BOND, bond
from review.core.skills.hints import ways
from tests.core.shown import COLUMNS
from tests.core.way_spaces import by_way, facts

BOND_HELP = Path(__file__).parent / "golden" / "bond_ways.txt"
BONDS = ("8=4+_", "10=7+_", "10=3+_", "13=9+_", "15=4+_", "20=14+_", "100=30+_", "100=48+_", "1000=350+_")


def bond_card(asked: str) -> str:
    whole, known = (int(number) for number in re.findall(r"\d+", asked))
    small, large = sorted((known, whole - known))
    return f"bond:{whole}={small}+{large}"


def help_of_bonds() -> Iterator[str]:
    for asked in BONDS:
        problem = skills.problem(bond_card(asked), asked)
        for way, shown in by_way(problem):
            helps = "\n".join(help.text for help in shown.helps if help.picture is None)
            yield f"{problem.prompt}  ({way.strategy})\n{helps}\n"


def test_the_ways_of_bonds_look_as_they_did() -> None:
    """At most 40 columns, as everything shown to a child."""
    looks = "\n".join(help_of_bonds())
    assert looks == BOND_HELP.read_text(encoding="utf-8")
    assert max(map(len, looks.split("\n"))) <= COLUMNS


@pytest.mark.parametrize("whole", [5, 10, 20, 100])
def test_nearly_every_bond_has_a_second_way(whole: int) -> None:
    """But where the whole is a ten and ones, and the ten is there: 16 = 10 + □."""
    for problem in facts("bond"):
        if problem.prompt.startswith(f"{whole} ="):
            assert len({way.helps[-1].text for way in skills.ways(problem)}) > 1, problem.asked


def test_no_bond_is_helped_by_itself_turned_round() -> None:
    """“You know 31 = 20 + 11” told the answer of 31 = 11 + □, and “You know 5 = 3 + 2” that of 5 = 2 + □."""
    pairs = ((whole, known) for whole in (*range(2, 101), 1000) for known in range(1, whole))
    told = [
        (whole, known, way.strategy)
        for whole, known in pairs
        for way in bond_ways_of(whole, known)
        for help in way.helps
        if help.step == "neighbour" and f" {bond(whole, whole - known)}." in help.text
    ]
    assert told == []


@pytest.mark.parametrize(("whole", "known"), [(3, 1), (4, 1), (5, 1)])
def test_next_to_the_whole_no_double_helps(whole: int, known: int) -> None:
    """4 = 2 + 2 is no way to 4 = □ + 1, where the number before 4 is the answer."""
    neighbour = next(help.text for help in bond_ways_of(whole, known)[0].helps if help.step == "neighbour")
    assert neighbour == f"Say the number before {whole}."


def bond_ways_of(whole: int, known: int) -> Sequence[Way]:
    return ways(BOND, whole, known)
