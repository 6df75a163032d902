"""Pictures: every one is read back sign by sign, without the code that drew it."""

from fractions import Fraction

import pytest

from review.core.model import Problem, Skill
from review.core.skills.quantity import KINDS, SHOWN
from tests.core.shown import COLUMNS, assert_sound, assert_uniform, refuses, seen

(QUANTITY,) = KINDS


def skill(**options: object) -> Skill:
    return Skill("s", "S", "quantity", "accuracy", options)


def members(key: str) -> list[str]:
    every = [*map(str, range(1200)), *(f"{a}x{b}" for a in range(8) for b in range(8)), "100000", "250000"]
    return refuses(QUANTITY, key, every)


KEYS = ["dots/1..5", "dots/6..10", "teens/11..20", "ten-and/11..19", "rows/2..5", "rows/1..6", "line/0..10",
        "line/0..100", "line/300..400", "line/40..140", "line/0..1000", "halfway/0..100", "halfway/0..1000",
        "halfway/50..150"]  # fmt: skip


@pytest.mark.parametrize("key", KEYS)
def test_every_picture_is_sound_and_fits(key: str) -> None:
    for asked in members(f"quantity:{key}"):
        problem = QUANTITY.problem(f"quantity:{key}", asked)
        assert_sound(problem)
        assert all(len(line) <= COLUMNS for line in seen(problem))


@pytest.mark.parametrize(
    ("key", "count"),
    [("dots/1..10", 10), ("teens/11..19", 9), ("rows/2..5", 16), ("line/0..100", 9), ("halfway/0..100", 5)],
)
def test_a_class_has_as_many_members_as_can_be_counted(key: str, count: int) -> None:
    assert len(members(f"quantity:{key}")) == count


@pytest.mark.parametrize("key", ["dots/1..10", "rows/2..5", "line/300..400", "halfway/0..1000"])
def test_every_member_is_equally_likely(key: str) -> None:
    assert_uniform(QUANTITY, f"quantity:{key}", members(f"quantity:{key}"))


def frames(problem: Problem) -> list[list[str]]:
    """The rows of each ten-frame: two rows of five places."""
    first, second = ([row.replace(" ", "") for row in line.split("    ")] for line in seen(problem))
    return [list(rows) for rows in zip(first, second, strict=True)]


@pytest.mark.parametrize("number", range(1, 21))
def test_ten_frames_fill_by_row_five_then_five(number: int) -> None:
    """As teachers lay them: common practice, no source."""
    task = "dots/1..10" if number <= 10 else "teens/11..20"
    problem = QUANTITY.problem(f"quantity:{task}", str(number))
    found = frames(problem)
    assert all(len(row) == 5 for rows in found for row in rows)
    places = "".join(row for rows in found for row in rows)
    assert places == "●" * number + "○" * (len(places) - number)
    assert problem.expected == str(places.count("●"))
    assert len(found) == (1 if number <= 10 else 2)


def test_teen_numbers_are_ten_and_some() -> None:
    for number in range(11, 20):
        problem = QUANTITY.problem("quantity:ten-and/11..19", str(number))
        assert 10 + int(problem.expected) == number
        assert not seen(problem)
    assert problem.prompt == "19 is 10 and"


def test_rows_have_as_many_dots_as_are_told() -> None:
    problem = QUANTITY.problem("quantity:rows/2..5", "3x4")
    assert seen(problem) == ("● ● ● ●",) * 3
    assert problem.told == "3 rows of 4 make 12."
    for asked in members("quantity:rows/1..6"):
        problem = QUANTITY.problem("quantity:rows/1..6", asked)
        assert "".join(seen(problem)).count("●") == int(problem.expected)


@pytest.mark.parametrize("key", [key for key in KEYS if key.startswith(("line", "halfway"))])
def test_the_arrow_stands_where_the_number_is(key: str) -> None:
    """Measured on the picture: the column of the arrow, as a share of the line, between its two ends."""
    for asked in members(f"quantity:{key}"):
        problem = QUANTITY.problem(f"quantity:{key}", asked)
        arrow, line, ends = seen(problem)
        low, high = (int(end.replace(",", "")) for end in ends.split())
        share = Fraction(arrow.index("v") - line.index("|"), line.rindex("|") - line.index("|"))
        assert low + share * (high - low) == int(problem.expected)
        assert line.count("|") == (11 if key.startswith("line") else 6)
        assert (line[arrow.index("v")] == "|") == key.startswith("line")


def test_strangers_are_refused() -> None:
    assert refuses(QUANTITY, "quantity:line/0..100", ["0", "35", "100", "040", "4x2", ""]) == []
    assert refuses(QUANTITY, "quantity:rows/2..5", ["1x2", "6x2", "8"]) == []


def test_keys_and_conditions() -> None:
    assert list(QUANTITY.keys(skill(task="dots", ranges=((1, 5), (6, 10))))) == [
        "quantity:dots/1..5", "quantity:dots/6..10",
    ]  # fmt: skip
    good = {"dots": (1, 10), "rows": (2, 5), "teens": (11, 20), "ten-and": (11, 19), "line": (0, 100),
            "halfway": (0, 1000)}  # fmt: skip
    assert set(good) == set(SHOWN)
    for task, span in good.items():
        assert list(QUANTITY.check(skill(task=task, ranges=(span,)))) == []
    (told,) = QUANTITY.check(skill(task="line", ranges=((0, 55),)))
    assert told[2] == "write [0, 100]"
    (told,) = QUANTITY.check(skill(task="halfway", ranges=((0, 0),)))
    assert told[2] == "write [0, 100]"
    (told,) = QUANTITY.check(skill(task="dots", ranges=((1, 11),)))
    assert told == ("ranges", "1 to 11 does not fit on the picture", "take from 1 to 10")
    titles = [QUANTITY.traits(f"quantity:{key}").title for key in KEYS]
    assert len(set(titles)) == len(titles)


@pytest.mark.parametrize("key", ["line/0..10", "line/40..140", "halfway/0..100"])
def test_number_lines_need_no_times_and_no_divided(key: str) -> None:
    """A child of six reads a number line before it meets them (common practice, no source)."""
    for asked in members(f"quantity:{key}"):
        texts = [help.text for help in QUANTITY.problem(f"quantity:{key}", asked).helps]
        assert not set("×÷") & set("".join(texts))
