"""Temperatures: the drawn thermometer read back, whole classes, water by an outside library."""

import re
import tomllib
from collections.abc import Callable, Mapping
from importlib import import_module
from pathlib import Path
from random import Random
from typing import Any

import pint
import pytest

from review.core.answers import judge
from review.core.keys import encode
from review.core.model import Problem, Skill
from review.core.skills import problem as problem_of
from review.core.skills.temperatures import ASKS, KINDS, MOST_MARKS, TASKS
from review.signs import fit
from tests.core.shown import assert_uniform, refuses, seen
from tests.core.spaces import disagreements, every, shows_soundly, skill_of, tried

(TEMPERATURE,) = KINDS
num2words: Any = import_module("num2words").num2words  # the library has no types
TOP = Path(__file__).parents[2]
PINT: Any = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
READ = [
    f"temperature:read-{scale}/{span}"
    for scale in "cf"
    for span in ("0-100-10", "0-40-5", "0-30-2", "10-20-2", "10-5-1", "30-40-5", "20-50-5")
]
OTHERS = [
    f"temperature:{task}-{scale}/{span}"
    for scale in "cf"
    for task in ASKS[1:]
    for span in ("10-10-1", "20-30-5", "0-20-1")
    if TASKS.possible(f"temperature:{task}-{scale}/{span}")
]


def skill(**options: object) -> Skill:
    return skill_of(TEMPERATURE, **options)


def plain(text: str) -> str:
    return text.replace("\u2212", "-")


# --- what is shown ------------------------------------------------------------------------------------


@pytest.mark.parametrize("key", [*READ, *OTHERS])
def test_what_is_drawn_is_sound(key: str) -> None:
    shows_soundly(TEMPERATURE, key)


def read_back(picture: tuple[str, ...]) -> float:
    """The temperature at the highest full line, by the numbers at the lines that have one."""
    rows = [plain(line) for line in picture[1:-1]]
    named = {
        row: int(label[0]) for row, line in enumerate(rows) if (label := re.findall(r"^ *(-?\d+)", line))
    }
    (top, high), *_, (bottom, low) = sorted(named.items())
    full = next(row for row, line in enumerate(rows) if "▓" in line)
    return high + (full - top) * (low - high) / (bottom - top)


@pytest.mark.parametrize("key", READ)
def test_the_picture_shows_the_answer(key: str) -> None:
    def oracle(problem: Problem) -> bool:
        return read_back(seen(problem)) == int(problem.expected)

    askeds = every(TASKS, key)
    assert len(askeds) >= 8
    assert disagreements(TEMPERATURE, key, askeds, oracle) == []


NUMBERS = {num2words(number): number for number in range(-100, 101)}  # num2words (LGPL)


@pytest.mark.parametrize("key", READ)
def test_what_is_said_beside_the_picture_says_the_same(key: str) -> None:
    for asked in every(TASKS, key):
        problem = TEMPERATURE.problem(key, asked)
        found = re.fullmatch(
            r"A thermometer has a mark every (?:(.+) )?degrees?\. "
            r"It is full to (\S+) marks? (above|below) (.+)\. What does it show\?",
            problem.say,
        )
        assert found
        step, marks, way, start = found.groups()
        moved = NUMBERS[marks] * NUMBERS[step or "one"] * (1 if way == "above" else -1)
        assert NUMBERS[start] + moved == int(problem.expected)


@pytest.mark.parametrize("key", READ)
def test_the_picture_fits_a_small_screen_and_plain_signs(key: str) -> None:
    for asked in every(TASKS, key):
        picture = seen(TEMPERATURE.problem(key, asked))
        assert max(map(len, picture)) <= 40
        assert len(picture) <= MOST_MARKS + 2
        assert "?" not in "".join(fit(line, "ascii") for line in picture)


def numbers(problem: Problem) -> list[int]:
    return [int(one) for one in re.findall(r"-?\d+", plain(problem.prompt))]


ORACLES: Mapping[str, Callable[[int, int], int]] = {
    "which-warmer": lambda first, second: max(first, second),
    "which-colder": lambda first, second: min(first, second),
    "warmer": lambda start, by: start + by,
    "colder": lambda start, by: start - by,
    "apart": lambda low, high: high - low,
}


@pytest.mark.parametrize("key", OTHERS)
def test_answers_are_those_of_plain_arithmetic(key: str) -> None:
    task = key.split(":")[1].split("/")[0][:-2]

    def oracle(problem: Problem) -> bool:
        return int(problem.expected) == ORACLES[task](*numbers(problem))

    assert disagreements(TEMPERATURE, key, tried(TEMPERATURE, key, 200), oracle) == []


def test_where_there_is_a_zero_it_is_crossed() -> None:
    for key in ("temperature:warmer-c/10-10-1", "temperature:colder-c/10-10-1"):
        for asked in every(TASKS, key):
            problem = TEMPERATURE.problem(key, asked)
            assert numbers(problem)[0] * int(problem.expected) < 0


def test_what_is_believed_of_the_marks() -> None:
    """One degree a mark, counted from a printed number: common practice, no source."""
    predicted = {
        ("read-c/0-40-5", "15"): {"marks_as_ones": "11"},
        ("read-c/0-40-5", "20"): {},
        ("read-c/10-20-2", "-6"): {"marks_as_ones": "-3", "sign_lost": "6"},
        ("read-c/10-5-1", "3"): {},
    }
    for (key, asked), rules in predicted.items():
        assert dict(TEMPERATURE.predict(f"temperature:{key}", asked)) == rules, (key, asked)


def test_as_a_teacher_would_write_it() -> None:
    read = TEMPERATURE.problem("temperature:read-c/10-20-2", "-6")
    assert (read.prompt, read.expected, read.told) == (
        "The thermometer shows", "-6", "The thermometer shows \u22126 °C.",
    )  # fmt: skip
    ways = ("-6", "\u22126", "minus 6", "negative 6", "-6 °C", "-6C", "-6 degrees", "6 below zero")
    assert {judge(read, text) for text in ways} == {"right"}
    assert [judge(read, text) for text in ("6", "-8", "-6 °F", "cold")] == [
        "other", "other", "unreadable", "unreadable",
    ]  # fmt: skip
    move = TEMPERATURE.problem("temperature:warmer-c/10-10-1", "-3+8")
    assert (move.prompt, move.expected) == ("\u22123 °C, then 8 degrees warmer:", "5")
    assert move.helps[-1].text == "8 = 3 + 5\n\u22123 + 3 = 0\n0 + 5 = 5"
    apart = TEMPERATURE.problem("temperature:apart-c/20-30-1", "-3,8")
    assert (apart.prompt, apart.expected) == ("Degrees from \u22123 °C up to 8 °C:", "11")
    warmer = TEMPERATURE.problem("temperature:which-warmer-f/20-20-1", "-7?-4")
    assert (warmer.prompt, warmer.expected) == ("Warmer: \u22127 °F or \u22124 °F?", "-4")
    assert TEMPERATURE.predict(warmer.card, warmer.asked) == {"reversed": "-7"}


# --- water --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("prompt", "answer", "celsius"),
    [
        ("Water turns to ice, in °C:", "0", 0),
        ("Water boils, in °C:", "100", 100),
        ("Water turns to ice, in °F:", "32", 0),
        ("Water boils, in °F:", "212", 100),
    ],
)
def test_water_freezes_and_boils_where_it_does(prompt: str, answer: str, celsius: int) -> None:
    """0 and 100 °C: the two points the scale was made by (SI Brochure, from memory: 0 °C is 273.15 K; boiling
    is at 99.97 °C since 1990). In Fahrenheit: pint (BSD licence), which agrees with NIST SP 811."""
    pairs = {
        tuple(pair)
        for name in ("thermometers", "thermometers-fahrenheit")
        for one in tomllib.loads((TOP / "card_sets" / f"{name}.toml").read_text(encoding="utf-8"))["skill"]
        for pair in one.get("pairs", ())
    }
    assert (prompt, answer) in pairs
    assert len(pairs) == 4
    scale = "degC" if "°C" in prompt else "degF"
    assert PINT.Quantity(celsius, "degC").to(scale).magnitude == pytest.approx(int(answer))
    content = f"{encode(prompt)}={encode(answer)}"
    card = problem_of(f"pairs:{content}", content)
    letter = prompt[-2]
    ways = (answer, f"{answer} °{letter}", f"{answer}{letter}", f"{answer} degrees")
    assert {judge(card, way) for way in ways} == {"right"}


# --- classes ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("sizes", ["10-5-1", "10-20-2", "30-40-5", "20-50-5", "5-30-5", "0-30-2"])
def test_half_of_the_readings_are_below_zero_where_it_goes_there(sizes: str) -> None:
    random, below = Random(1), int(sizes.partition("-")[0])
    drawn = [int(TEMPERATURE.draw(f"temperature:read-c/{sizes}", random)) for _ in range(1000)]
    assert all(at > -below for at in drawn)
    under = sum(at < 0 for at in drawn)
    assert under == 0 if below <= 5 else 440 < under < 560


@pytest.mark.parametrize(
    ("key", "members"),
    [
        ("temperature:read-c/0-100-10", [str(at) for at in range(10, 101, 10)]),
        ("temperature:read-c/10-8-1", [str(at) for at in range(-9, 9)]),  # as many below zero as not
        ("temperature:apart-c/3-2-1", [f"-{low},{high}" for low in (1, 2, 3) for high in (1, 2)]),
        ("temperature:which-warmer-c/2-1-1",
         [f"{a}?{b}" for a in range(-2, 2) for b in range(-2, 2) if a != b and min(a, b) < 0]),
        ("temperature:colder-c/3-3-1", [f"{a}-{a + b}" for a in (1, 2, 3) for b in (1, 2, 3)]),
        ("temperature:warmer-c/0-3-1", ["0+1", "0+2", "0+3", "1+1", "1+2", "2+1"]),
    ],
)  # fmt: skip
def test_every_member_is_equally_likely(key: str, members: list[str]) -> None:
    assert_uniform(TEMPERATURE, key, members)


def test_a_stranger_is_refused() -> None:
    taken = [
        *refuses(TEMPERATURE, "temperature:read-c/10-20-2", ["-10", "22", "3", "+4", "-4,2"]),
        *refuses(TEMPERATURE, "temperature:warmer-c/10-10-1", ["-3+2", "3+2", "-3+14", "-3-4"]),
    ]
    assert taken == []


def test_keys_and_traits() -> None:
    one = skill(task=("read", "apart"), scale="F", below=20, above=60, marks=5)
    assert list(TEMPERATURE.keys(one)) == ["temperature:read-f/20-60-5", "temperature:apart-f/20-60-5"]
    assert (
        TEMPERATURE.traits("temperature:read-f/20-60-5").title == "reading a thermometer, \u221220 to 60 °F"
    )
    assert TEMPERATURE.traits("temperature:which-warmer-c/20-20-1").choices == 2


@pytest.mark.parametrize(
    ("options", "found"),
    [
        ({"task": ("read",), "below": 10, "above": 20, "marks": 2}, []),
        ({"task": ("read",), "below": 10, "above": 20, "marks": 3}, ["marks"]),
        ({"task": ("read",), "below": 5, "above": 20, "marks": 2}, ["below"]),
        ({"task": ("read",), "below": 20, "above": 40, "marks": 1}, ["marks"]),
        ({"task": ("read",), "below": 10, "above": 4, "marks": 2}, ["above"]),
        ({"task": ("read",), "below": 20, "above": 60, "marks": 5}, ["marks"]),
        ({"task": ("apart",), "below": 0, "above": 20, "marks": 1}, ["below"]),
        ({"task": ("apart",), "below": 50, "above": 50, "marks": 1}, []),
    ],
)
def test_impossible_conditions_are_told(options: dict[str, object], found: list[str]) -> None:
    assert [where for where, *_ in TEMPERATURE.check(skill(**options))] == found
