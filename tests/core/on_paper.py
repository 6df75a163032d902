"""What must hold of sums on paper: units that are what they say, and digits that stand below each other."""

import re
from fractions import Fraction

from review.core.model import Problem
from tests.core.shown import assert_sound, number, seen, value_of

WORTH = {"one": 1, "ten": 10, "hundred": 100, "thousand": 1000}


def term(text: str) -> Fraction:
    """A number, or so many of a unit: "14 ones", "1 ten"."""
    count, _, unit = text.strip().partition(" ")
    return number(count) * (WORTH[unit.removesuffix("s")] if unit else 1)


def digit_sum(value: int) -> int:
    return sum(map(int, str(value)))


def layout(problem: Problem) -> list[str]:
    """The last lines of the worked steps: those that hold no equation and no sentence."""
    lines = problem.helps[-1].text.split("\n")
    return [line for line in lines if re.fullmatch(r"[\d +−×-]+|[\d )r]+", line)]


def in_columns(lines: list[str]) -> bool:
    """Rows of one width, digits at every other place from the right, nothing but one space between them."""
    return (
        len({len(line) for line in lines}) == 1
        and all(
            set(line[-2::-2]) <= {" "} and not re.search(r"\S  ", line)
            for line in lines
            if set(line) != {"-"}
        )
        and max(map(len, lines)) <= 40
    )


def read_row(line: str) -> int:
    return int(re.sub(r"\D", "", line))


def assert_on_paper(problem: Problem) -> None:
    """Sound, aligned, begun in the picture and ended in the steps with the answer."""
    assert_sound(problem, term)
    told = f"{problem.card} {problem.asked}"
    rows = layout(problem)
    assert in_columns(rows), told
    assert in_columns(list(seen(problem))), told
    assert [row.split() for row in rows[:2]] == [row.split() for row in seen(problem)[:2]], told
    numbers = [str(read_row(row)) for row in rows if set(row) - set(" -")]
    assert numbers[:2] == re.findall(r"\d+", problem.asked), told
    assert numbers[-1] == problem.expected, told
    assert value_of(problem.prompt.removesuffix(" =")) == int(problem.expected), told
