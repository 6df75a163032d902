"""Several numbers added: rows counted by hand and by generating function, carries against Holte's process."""

import tomllib
from collections import Counter
from fractions import Fraction
from itertools import accumulate, product
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.model import Skill
from review.core.skills.several import KINDS, numbers, rows
from tests.core.shown import SOURCES, assert_sound, assert_uniform, refuses

(SEVERAL,) = KINDS
CARRIES = Path(__file__).parents[1] / "data" / "carries.toml"


def every(many: int, digits: int, total: int) -> list[str]:
    some = range(10 ** (digits - 1), 10**digits)
    return ["+".join(map(str, row)) for row in product(some, repeat=many) if sum(row) <= total]


@pytest.mark.parametrize(
    ("many", "digits", "total"), [(2, 1, 18), (3, 1, 20), (3, 1, 10), (4, 1, 36), (4, 1, 17), (2, 2, 100)]
)
def test_rows_are_as_many_as_there_are(many: int, digits: int, total: int) -> None:
    assert rows(many, digits, total) == len(every(many, digits, total))


def test_rows_of_two_digits_are_as_many_as_the_generating_function_says() -> None:
    """Powers of x^10 + ... + x^99 multiplied out: the textbook count of sums."""
    poly = {0: 1}
    for _ in range(4):
        grown: Counter[int] = Counter()
        for total, ways in poly.items():
            for number in range(10, 100):
                grown[total + number] += ways
        poly = dict(grown)
    for bound in (40, 150, 200, 396):
        assert rows(4, 2, bound) == sum(ways for total, ways in poly.items() if total <= bound)


def test_every_row_is_equally_likely() -> None:
    assert_uniform(SEVERAL, "add-several:3x1/within-7", every(3, 1, 7))
    assert_uniform(SEVERAL, "add-several:2x2/within-32", every(2, 2, 32))


@pytest.mark.parametrize("many", [3, 4, 5])
def test_what_the_ones_carry_is_as_in_the_published_process(many: int) -> None:
    """carries.toml, after Holte 1997: with so many addends, and no carry in, the share of each carry out of a
    column. Ones of two-digit numbers run evenly over 0 to 9."""
    with CARRIES.open("rb") as file:
        shares = [Fraction(share) for share in tomllib.load(file)[f"addends_{many}"]["transition"][0]]
    random, draws = Random(many), 4000
    key = f"add-several:{many}x2/within-{99 * many}"
    found = Counter(
        sum(int(part) % 10 for part in SEVERAL.draw(key, random).split("+")) // 10 for _ in range(draws)
    )
    spread = sum((found[carry] - draws * share) ** 2 / (draws * share) for carry, share in enumerate(shares))
    free = len(shares) - 1
    assert float(spread) <= free + 5 * (2 * free) ** 0.5


KEYS = [
    f"add-several:{many}x{digits}/within-{total}"
    for many, digits, total in ((3, 1, 20), (4, 1, 36), (5, 1, 45), (3, 2, 100), (4, 2, 200), (5, 2, 495))
]


@given(st.sampled_from(KEYS), SOURCES)
def test_what_is_drawn_is_sound_and_each_total_is_asked(key: str, random: Random) -> None:
    one = SEVERAL.problem(key, SEVERAL.draw(key, random))
    assert_sound(one)
    totals = list(accumulate(int(part) for part in one.asked.split("+")))[1:]
    assert one.expected == " ".join(map(str, totals))
    for apart in (", ", ",", "; "):
        assert judge(one, apart.join(map(str, totals))) == "right"
    assert judge(one, str(totals[-1])) != "right"
    assert totals[-1] <= int(key.rpartition("-")[2])


def test_as_a_teacher_would_write_it() -> None:
    one = SEVERAL.problem("add-several:4x1/within-50", "7+5+9+3")
    assert (one.prompt, one.expected, one.told) == (
        "7 + 5 + 9 + 3. Each new total:",
        "12 21 24",
        "7 + 5 + 9 + 3 makes 24.",
    )
    assert one.say == "seven plus five, plus nine, plus three: each new total"
    assert one.helps[-1].text.split("\n") == ["7 + 5 = 12", "12 + 9 = 21", "21 + 3 = 24"]


def test_a_row_of_another_class_is_refused() -> None:
    strangers = ["7+5", "7+5+9+3", "9+9+3", "7+5+0", "07+5+1", "7+5+12", "7+5+", "7-5-1", "7+5+²"]
    assert refuses(SEVERAL, "add-several:3x1/within-20", strangers) == []
    assert all(0 not in numbers(digits) for digits in (1, 2))


def test_impossible_conditions_and_titles() -> None:
    low = Skill("s", "S", "add-several", "accuracy", {"addends": 4, "digits": 2, "total": 30})
    assert list(SEVERAL.check(low)) == [
        ("total", "four two-digit numbers make at least 40", "write 40 or more")
    ]
    fits = Skill("s", "S", "add-several", "accuracy", {"addends": 3, "digits": 1, "total": 20})
    assert list(SEVERAL.check(fits)) == []
    (key,) = SEVERAL.keys(fits)
    assert key == "add-several:3x1/within-20"
    assert SEVERAL.traits(key).title == "three one-digit numbers added, totals to 20"
    with pytest.raises(ValueError, match="no row"):
        SEVERAL.draw("add-several:4x2/within-30", Random(1))
