"""The picture step of help, over the whole catalogue."""

import re
from collections.abc import Iterator
from datetime import datetime, timedelta
from fractions import Fraction
from functools import cache
from itertools import pairwise
from random import Random
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from review import catalogue
from review.core import card_sets, skills
from review.core.drawn import drawn
from review.core.keys import content_of
from review.core.model import HELP_STEPS, Help, Problem
from review.core.picture_words import sentence
from review.core.pictures import Array, Bar, ClockFace, Exchange, Mat, NumberLine, Table, TenFrames
from review.core.skills import fractions, part_pictures, percents, way_pictures
from review.core.skills.picture_rooms import ROOMS, UNPICTURED, is_unpictured
from review.signs import fit
from tests.core.shown import COLUMNS, for_a_child

LINES = 14  # of a picture, so that prompt and text stay with it on a screen of 24 (our judgement)
TALL: dict[type, int] = {ClockFace: 19}  # both hands must be told apart

# What need not have every step: the prompt says the step already, or there is nothing between.
FEWER_STEPS = {
    "product:nx0": {"question", "build", "blank", "steps"},
    "pairs": {"steps"},
    "template": {"steps"},
    "vocabulary": {"question", "steps"},
    "place-value": {"question", "build", "picture", "steps"},  # the blank would say what the prompt says
    "money": {"question", "build", "steps"},  # likewise
}

# Where the answer may stand in the picture, and why.
WRITTEN = {
    "rounding": "both ends of the line are named",
    "decimal:round": "both ends of the line are named",
    "fraction:times": "the wholes along the line are named",
    "roman": "a letter of the table may be all of the answer",
    "convert": "a number of the fact one starts from",
    "mental-quotient": "the digits stay, their places change",
}


@cache
def keys() -> tuple[str, ...]:
    sets = [catalogue.shipped(name) for name in catalogue.names()]
    return tuple(card.key for card in card_sets.cards(sets))


def some_of_each(times: int = 3) -> Iterator[Problem]:
    for key in keys():
        random = Random(key)
        for _ in range(1 if skills.traits(key).fact else times):
            yield skills.problem(key, skills.draw(key, random))


def task(key: str) -> str:
    return key.partition("/")[0]


def excused(key: str) -> set[str] | None:
    return FEWER_STEPS.get(task(key)) or FEWER_STEPS.get(key.partition(":")[0])


def pictures(problem: Problem) -> list[Help]:
    return [help for help in problem.helps if help.step in ("picture", "exchange")]


def test_a_sentence_of_a_picture_names_no_place_without_its_digit() -> None:
    """Of 4 × 100 a voice read “A table: hundreds, tens, ones 4”."""
    said = {sentence(help.picture) for one in some_of_each(1) for help in pictures(one) if help.picture}
    assert [one for one in said if re.search(r" [,;.]|  ", one)] == []


def test_every_kind_has_a_room_or_a_reason() -> None:
    assert set(ROOMS) | {name for name in UNPICTURED if ":" not in name} == set(skills.ROOMS)
    assert not set(ROOMS) & set(UNPICTURED)
    used = {name for name in UNPICTURED if any(key.startswith(name) for key in keys())}
    assert used == set(UNPICTURED)


def test_helps_come_from_least_to_most_and_none_is_missing() -> None:
    for problem in some_of_each():
        found = [help.step for help in problem.helps]
        told = f"{problem.card} {problem.asked} {found}"
        assert found == sorted(set(found), key=HELP_STEPS.index), told
        whole = {"question", "blank", "steps", *(() if is_unpictured(problem.card) else ("picture",))}
        assert set(found) >= (excused(problem.card) or whole), told


def test_no_step_of_help_says_what_one_before_it_said() -> None:
    """A child who asks for more gets more; and no line stands twice running."""
    for problem in some_of_each():
        told = f"{problem.card} {problem.asked}"
        texts = [help.text for help in problem.helps]
        assert len({*texts}) == len(texts), told
        assert all(line != other for text in texts for line, other in pairwise(text.split("\n"))), told


def test_a_picture_fits_a_small_screen_and_is_for_a_child() -> None:
    for problem in some_of_each():
        told = f"{problem.card} {problem.asked}"
        assert for_a_child(problem), told
        for help in pictures(problem):
            assert help.picture is not None, told
            assert help.text, told
            lines = [fit(line, "ascii") for line in drawn(help.picture)]
            assert max(map(len, lines)) <= COLUMNS, told
            assert len(lines) <= TALL.get(type(help.picture), LINES), told
            assert "?" not in "".join(lines), told


def numbers(text: str) -> set[str]:
    return set(re.findall(r"\d[\d,./:]*\d|\d|\b[IVXLCDM]+\b", text.replace(",", "")))


LAID = re.compile(r"(\d+|one) rows? of (\d+)|Make rows of (\d+)|Make (one) row\b")


def test_the_rows_of_a_picture_are_those_the_counters_were_laid_in() -> None:
    seen = 0
    for problem in some_of_each():
        build = next((help.text for help in problem.helps if help.step == "build"), "")
        laid = LAID.search(build.replace("\n", " "))
        arrays = [help.picture for help in pictures(problem) if isinstance(help.picture, Array)]
        for array in arrays if laid else ():
            seen += 1
            rows, columns = laid[1] or laid[4], laid[2] or laid[3]  # type: ignore[index]
            told = f"{problem.card} {problem.asked} {build!r}"
            assert rows in (None, "one" if array.rows == 1 else str(array.rows)), told
            assert columns in (None, str(array.columns)), told
    assert seen > 100


def test_the_answer_is_not_written_in_a_picture() -> None:
    for problem in some_of_each():
        if {task(problem.card), problem.card.partition(":")[0]} & set(WRITTEN):
            continue
        above = sentence(problem.picture) if problem.picture else ""
        known = numbers(f"{problem.prompt} {above}")
        for help in pictures(problem):
            assert help.picture is not None
            written = numbers("\n".join(drawn(help.picture)))
            assert problem.expected not in written - known, f"{problem.card} {problem.asked}"


def test_the_sentence_names_what_is_written_in_the_picture() -> None:
    for problem in some_of_each(1):
        for help in pictures(problem):
            if help.picture is None or isinstance(help.picture, ClockFace):
                continue
            written, said = numbers("\n".join(drawn(help.picture))), numbers(sentence(help.picture))
            if isinstance(help.picture, NumberLine) and len({j.label for j in help.picture.jumps}) == 1:
                written &= said | {mark.name for mark in help.picture.marks}
            told = f"{problem.card} {problem.asked} {written - said}"
            assert len(written - said) == 0, told


# --- whether a picture shows what is asked ------------------------------------------------------------


def the_picture(key: str, asked: str) -> object:
    (help,) = [help for help in skills.problem(key, asked).helps if help.step == "picture"]
    return help.picture


def counted(picture: object, sign: str = "●") -> int:
    return "".join(drawn(picture)).count(sign)  # type: ignore[arg-type]


def test_counting_finds_the_answer_to_facts() -> None:
    for a in range(1, 11):
        for b in range(1, 11):
            low, high = sorted((a, b))
            total = the_picture(f"sum:{low}+{high}", f"{a}+{b}")
            assert counted(total) + counted(total, "◆") == a + b
            assert counted(the_picture(f"difference:{a + b}-{b}", f"{a + b}-{b}")) == a
            if low > 1:
                product = the_picture(f"product:{low}x{high}", f"{a}x{b}")
                assert isinstance(product, Array)
                assert (product.rows, product.columns, counted(product)) == (a, b, a * b)
                quotient = the_picture(f"quotient:{a * b}/{b}", f"{a * b}/{b}")
                assert isinstance(quotient, Array)
                assert quotient.rows == a


def digit_sum(number: int) -> int:
    return sum(map(int, str(number)))


@given(st.integers(100, 999), st.integers(100, 999))
def test_an_exchange_comes_where_there_is_a_carry(a: int, b: int) -> None:
    """Kummer's theorem (1852) for ten: the carries of a sum are the fall of the digit sums by nines."""
    carries = (digit_sum(a) + digit_sum(b) - digit_sum(a + b)) // 9
    shown = column_exchange("column-sum", f"{a}+{b}", "3+3")
    assert (shown is not None) == (carries > 0)
    if shown:
        worth = sum(n * 10 ** (len(shown.places) - 1 - at) for at, n in enumerate(shown.counters))
        assert worth == a + b


@given(st.integers(100, 999), st.integers(100, 999))
def test_an_exchange_comes_where_a_place_has_too_few(a: int, b: int) -> None:
    """The same theorem turned round: a − b borrows as often as b and a − b carry."""
    a, b = max(a, b), min(a, b)
    borrows = (digit_sum(b) + digit_sum(a - b) - digit_sum(a)) // 9
    shown = column_exchange("column-difference", f"{a}-{b}", "3-3")
    assert (shown is not None) == (borrows > 0)
    assert shown is None or shown.counters == tuple(map(int, str(a)))


def column_exchange(kind: str, asked: str, digits: str) -> Exchange | None:
    """Drawn for any numbers, whatever class they belong to."""
    bare = Problem(f"{kind}:{digits}/0", kind, asked, "", "", "whole", "", "")
    found = [help.picture for help in skills.pictures(bare) if help.step == "exchange"]
    assert all(isinstance(picture, Exchange) for picture in found)
    return found[0] if found else None  # type: ignore[return-value]


IN_THE_HEAD = [key for key in keys() if key.startswith(("mental-sum:", "mental-difference:"))]


@given(st.sampled_from(IN_THE_HEAD), st.randoms(use_true_random=False))
def test_each_way_has_its_own_picture_and_jumps_lead_to_the_answer(key: str, random: Random) -> None:
    problem = skills.problem(key, skills.draw(key, random))
    for way in skills.ways(problem):
        helps = skills.helps(problem, liked=way.strategy)
        (picture,) = [help.picture for help in helps if help.step == "picture"]
        if not isinstance(picture, NumberLine):
            assert isinstance(picture, Mat)
            continue
        first, last = picture.jumps[0].start, picture.jumps[-1].end
        walked_up = way.strategy in ("counting-up", "constant-difference")
        assert (last - first if walked_up else last) == int(problem.expected)
        assert all(one.end == other.start for one, other in pairwise(picture.jumps))
        assert len(picture.jumps) <= 6


@pytest.mark.parametrize(
    ("asked", "way", "jumps"),
    [
        ("47+5", "bridging", [3, 2]),
        ("58+29", "rounding", [30, -1]),
        ("58+27", "compensating", [2, 25]),
        ("36+25", "counting-on", [20, 5]),
        ("52-29", "rounding", [-30, 1]),
        ("52-29", "constant-difference", [23]),
        ("73-25", "taking-off", [-20, -3, -2]),
        ("52-7", "bridging", [-2, -5]),
        ("71-38", "counting-up", [2, 31]),
    ],
)
def test_jumps_as_a_teacher_would_draw_them(asked: str, way: str, jumps: list[int]) -> None:
    """Each as the steps of its way go (common practice, no source)."""
    a, b = map(int, re.split("[+-]", asked))
    draw = (way_pictures.SUMS if "+" in asked else way_pictures.DIFFERENCES)[way]
    (line,) = [help.picture for help in draw(a, b) if help.step == "picture"]
    assert isinstance(line, NumberLine)
    assert [jump.end - jump.start for jump in line.jumps] == jumps


def test_tens_and_ones_apart_are_seen_on_a_mat() -> None:
    helps = skills.helps(skills.problem("mental-sum:2+2/regroup-ones", "36+37"), liked="partitioning")
    pictures = [help.picture for help in helps if help.step in ("picture", "exchange")]
    assert pictures[0] == Mat(("tens", "ones"), ((3, 6), (3, 7)))
    assert isinstance(pictures[1], Exchange)
    helps = skills.helps(skills.problem("mental-sum:2+2/regroup-ones", "36+37"), liked="counting-on")
    assert "exchange" not in [help.step for help in helps]


def test_lines_of_time_hold_on_a_calendar_clock() -> None:
    """By Python's own datetime: each jump lasts as long as its label says."""
    for key in keys():
        if not key.startswith("duration:"):
            continue
        random = Random(key)
        for _ in range(5):
            problem = skills.problem(key, skills.draw(key, random))
            (line,) = [help.picture for help in pictures(problem)]
            assert isinstance(line, NumberLine)
            for mark in line.marks:
                if ":" in mark.name:
                    clock = datetime(2001, 1, 1) + timedelta(minutes=mark.at)
                    hour, minute = map(int, mark.name.split(":"))
                    assert (hour % 12, minute) == (clock.hour % 12, clock.minute)
            for jump in line.jumps:
                told = re.findall(r"(\d+) (h|min)", jump.label)
                spent = sum(int(n) * (60 if unit == "h" else 1) for n, unit in told)
                assert not told or spent == abs(jump.end - jump.start)


def test_every_row_of_a_table_of_units_is_true() -> None:
    """By the unit library pint, which has its factors from the standards."""
    units: Any = pint.UnitRegistry()
    seen = 0
    for key in keys():
        source = content_of(key).partition(">")[0].split("+")[0]
        metric = source in ("mm", "cm", "m", "km", "g", "kg", "ml", "l")
        if not key.startswith("convert:") or not metric:
            continue
        problem = skills.problem(key, skills.draw(key, Random(1)))
        for help in pictures(problem):
            if isinstance(help.picture, Table):
                large, small = help.picture.heads
                ratio = Fraction(round(units.Quantity(1, large).to(small).magnitude))
                for left, right in help.picture.rows:
                    if "□" not in (left, right):
                        seen += 1
                        assert Fraction(left.replace(",", "")) * ratio == Fraction(right.replace(",", ""))
    assert seen > 20


def test_parts_of_a_bar_make_its_whole() -> None:
    for problem in some_of_each(2):
        if problem.kind not in ("word-problem", "shape-measure"):
            continue
        for help in pictures(problem):
            if isinstance(help.picture, Bar) and help.picture.whole != "□":
                total = sum(part.size for part in help.picture.parts)
                shares = {part.size for part in help.picture.parts} == {1}
                assert shares or total == int(help.picture.whole), problem.card


def test_a_number_name_is_counted_on_a_mat_or_a_frame() -> None:
    assert the_picture("number-name:read/1..10", "7") == TenFrames(7)
    assert the_picture("number-name:read/100..999", "407") == Mat(("hundreds", "tens", "ones"), ((4, 0, 7),))


@pytest.mark.parametrize(
    ("key", "asked", "what"),
    [("sum:_+8=28", "_+8=28", NumberLine), ("sum:_+8=29", "_+8=29", Bar), ("sum:_+7=7", "7+_=7", TenFrames)],
)
def test_steps_are_drawn_up_to_twenty(key: str, asked: str, what: type) -> None:
    """Further apart nobody counts them: a bar with the part that is missing (our judgement)."""
    (picture,) = [help.picture for help in skills.problem(key, asked).helps if help.step == "picture"]
    assert isinstance(picture, what)


@pytest.mark.parametrize(("asked", "ends"), [("34-27", [27, 30, 34]), ("40-29", [29, 30, 40])])
def test_close_numbers_are_counted_up_by_the_ten_between(asked: str, ends: list[int]) -> None:
    problem = skills.problem("mental-difference:2-2/regroup", asked)
    helps = skills.helps(problem, liked="counting-up")
    (picture,) = [help.picture for help in helps if help.step == "picture"]
    assert isinstance(picture, NumberLine)
    assert [int(mark.name) for mark in picture.marks if mark.name] == ends
    assert [mark.at for mark in picture.marks] == [*range(ends[0], ends[-1] + 1)]


def test_pictures_of_parts_are_of_tasks_there_are() -> None:
    """Any other task falls back on the parts of mixed numbers, so a name that is off would show those."""
    assert part_pictures.FRACTIONS.keys() <= fractions.TABLE.keys()
    assert part_pictures.PERCENTS.keys() <= percents.TABLE.keys()
