"""Pictures in characters and in words: golden files, and what must hold of every one."""

import re
from itertools import pairwise
from unicodedata import east_asian_width

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from review.core.drawn import DRAWN, drawn
from review.core.picture_words import SAID, sentence
from review.core.pictures import (
    Area,
    Array,
    Bar,
    Bars,
    Coins,
    Exchange,
    Jump,
    Mark,
    Mat,
    NumberLine,
    Part,
    Picture,
    Strip,
    Strips,
    Table,
    TenFrames,
    mats,
)
from review.signs import SIGNS, fit
from tests.core.picture_samples import GOLDEN, SAMPLES, TENS, THOUSANDS, in_words_and_signs

COLUMNS = 40


@pytest.mark.parametrize("name", SAMPLES)
def test_a_picture_as_it_is_kept(name: str) -> None:
    kept = (GOLDEN / f"{name}.txt").read_text(encoding="utf-8")
    assert in_words_and_signs(SAMPLES[name]) == kept


def test_every_noun_is_drawn_said_and_kept() -> None:
    nouns = set(Picture.__args__)
    assert set(DRAWN) == set(SAID) == nouns == {type(sample) for sample in SAMPLES.values()}


@pytest.mark.parametrize("name", SAMPLES)
def test_a_picture_fits_and_is_as_wide_in_ascii(name: str) -> None:
    """Signs besides ASCII take one column, or are left to the terminal (Unicode Standard Annex 11)."""
    for line in drawn(SAMPLES[name]):
        plain = fit(line, "ascii")
        assert "?" not in plain
        assert len(line) <= COLUMNS
        assert len(plain) <= COLUMNS
        assert all(sign.isascii() or sign in SIGNS for sign in line)
        assert not {east_asian_width(sign) for sign in line} & {"W", "F"}
        if "°" not in line and "£" not in line:
            assert len(plain) == len(line)


@pytest.mark.parametrize("name", SAMPLES)
def test_a_sentence_is_one_line_without_signs_of_drawing(name: str) -> None:
    said = sentence(SAMPLES[name])
    assert "\n" not in said
    assert not set("●○◆▓□|/\\") & set(said.replace("3/4", "").replace("5/8", ""))


# --- counters -----------------------------------------------------------------------------------------


@given(st.integers(0, 20), st.integers(0, 20), st.data())
def test_ten_frames_hold_what_they_say(counters: int, others: int, data: st.DataObject) -> None:
    """Five then five, row by row, never in two even columns (common practice, no source)."""
    away = data.draw(st.integers(0, counters if not others else 0))
    lines = drawn(TenFrames(counters, others, away))
    text = "".join(lines)
    assert (text.count("●"), text.count("◆"), text.count("×")) == (counters - away, others, away)
    assert sum(map(text.count, "●◆×○")) == 10 * -(-max(counters + others, 1) // 10)
    frames = [half for line in lines if line for half in line.split("    ")]
    assert all(len(half.split(" ")) == 5 for half in frames)
    upper, lower = lines[0].split("    ")[0], lines[1].split("    ")[0]
    assert "○" not in upper or set(lower) == {"○", " "}


def test_counting_a_ten_frame_is_left_to_the_child() -> None:
    for number in range(1, 21):
        numbers = re.findall(r"\d+", sentence(TenFrames(number)))
        assert str(number) not in numbers


@given(st.lists(st.tuples(*[st.integers(0, 9)] * 4), min_size=1, max_size=2))
def test_a_mat_holds_as_many_counters(rows: list[tuple[int, int, int, int]]) -> None:
    lines = drawn(Mat(THOUSANDS, tuple(rows)))
    cells = [line.split("|") for line in lines if "|" in line]
    for at, column in enumerate(zip(*cells, strict=True)):
        assert "".join(column).count("●") == sum(row[at] for row in rows)
    assert len(lines) <= 14
    assert all(str(count) in sentence(Mat(THOUSANDS, tuple(rows))) for row in rows for count in row)


@given(st.tuples(*[st.integers(0, 9)] * 4), st.integers(0, 3), st.integers(0, 8), st.booleans())
def test_an_exchange_changes_no_value(
    counters: tuple[int, ...], column: int, over: int, opened: bool
) -> None:
    """Ten of a place are worth one of the next, so both mats are worth the same."""
    if opened:
        column, have = min(column, 2), max(1, counters[min(column, 2)])
    else:
        column, have = max(column, 1), 10 + over
    counters = (*counters[:column], have, *counters[column + 1 :])
    before, after = mats(Exchange(THOUSANDS, counters, column, opened))
    worth = [sum(n * 10 ** (3 - at) for at, n in enumerate(mat.rows[0])) for mat in (before, after)]
    assert worth[0] == worth[1]
    assert before.ringed == (column, 1 if opened else 10)
    lines = drawn(Exchange(THOUSANDS, counters, column, opened))
    middle = next(at for at, line in enumerate(lines) if line.strip() == "v")
    halves = ["".join(lines[:middle]), "".join(lines[middle:])]
    held = [half.count("●") + half.count("◆") for half in halves]
    assert held == [sum(before.rows[0]), sum(after.rows[0])]
    assert "".join(lines[middle:]).count("◆") == (10 if opened else 1)
    assert max(map(len, lines)) <= COLUMNS
    assert len(lines) <= 14


def test_ten_are_ringed_and_one_comes_into_the_next_place() -> None:
    lines = drawn(Exchange(TENS, (6, 12), 1))
    assert lines[1:6] == (
        "----------+--------------",
        "● ● ● ● ● | .-----------.",
        "●         | | ● ● ● ● ● |",
        "          | | ● ● ● ● ● |",
        "          | '-----------'",
    )
    assert [line.split("|")[0].split() for line in lines[-2:]] == [["●"] * 5, ["●", "◆"]]


@given(st.integers(1, 12), st.integers(1, 12), st.integers(0, 11))
def test_an_array_holds_rows_times_columns(rows: int, columns: int, rest: int) -> None:
    rest %= columns
    of = Array(rows, columns, 5 if columns > 5 else 0, 5 if rows > 5 else 0, rest)
    text = "".join(drawn(of))
    assert text.count("●") == rows * columns + rest
    assert {str(rows), str(columns)} <= set(re.findall(r"\d+", sentence(of)))
    asked = sentence(of._replace(asked="rows"))
    assert set(re.findall(r"\d+", asked)) == {str(rows * columns + rest), str(columns)}


# --- lines and lengths --------------------------------------------------------------------------------

PLACES = st.lists(st.integers(-1000, 1000), min_size=2, max_size=5, unique=True).map(sorted)


@given(PLACES)
@example([-1000, -838, 0])
def test_a_line_keeps_its_order_and_its_names(places: list[int]) -> None:
    jumps = tuple(Jump(a, b, f"+{b - a}") for a, b in pairwise(places))
    of = NumberLine(tuple(Mark(at, str(at)) for at in places), jumps)
    lines = drawn(of)
    assert lines[-1].split() == [str(at) for at in places]
    assert lines[0].split() == [jump.label for jump in jumps]
    assert lines[-2].count("|") == len(places)
    assert lines[1].count("v") == len(jumps)


@given(st.integers(0, 10**6), st.sampled_from([10, 100, 1000]))
def test_a_line_with_an_arrow_is_to_scale(number: int, place: int) -> None:
    low = number // place * place
    of = NumberLine(tuple(Mark(at, f"{at:,}") for at in (low, low + place // 2, low + place)), arrow=number)
    arrow, line, names = drawn(of)
    at, (first, middle, last) = arrow.index("v"), [n for n, sign in enumerate(line) if sign == "|"]
    assert middle - first in (last - middle - 1, last - middle, last - middle + 1)
    assert (at < middle) == (number - low < place // 2) or at == middle
    assert abs((at - first) * place - (number - low) * (last - first)) <= 2 * place
    assert max(len(line), len(names)) <= COLUMNS


def test_jumps_that_cross_stand_above_each_other() -> None:
    lines = drawn(SAMPLES["number-line-there-and-back"])
    assert [line.count("v") for line in lines[:4]] == [0, 1, 0, 1]


@pytest.mark.parametrize(("last", "signs"), [(36, "|'"), (16, "|-")])
def test_marks_without_a_gap_are_short_where_they_have_no_name(last: int, signs: str) -> None:
    """All of them in full length were a wall, in which nobody found the 12 that stood below it."""
    names = {0: "0", 12: "12", last: str(last)}
    arrow, line, below = drawn(NumberLine(tuple(Mark(n, names.get(n, "")) for n in range(last + 1)), arrow=3))
    assert set(line) == set(signs)
    (twelve,) = (n for n in range(len(below)) if below[n : n + 2] == "12")
    assert line[twelve + 1] == "|"
    assert line.count("|") == (3 if "'" in signs else last + 1)
    assert line[arrow.index("v")] == signs[1].replace("-", "|")


def test_the_ends_of_a_line_are_long_also_without_a_name() -> None:
    line, _ = drawn(NumberLine(tuple(Mark(n, "10" if n == 10 else "") for n in range(36))))
    assert line.replace("'", " ").split() == ["|", "|", "|"]
    assert (line[0], line[10], line[-1]) == ("|", "|", "|")


@given(st.lists(st.integers(1, 99), min_size=2, max_size=5), st.integers(0, 4))
def test_a_bar_has_all_its_labels(sizes: list[int], asked: int) -> None:
    labels = ["□" if at == asked else str(size) for at, size in enumerate(sizes)]
    of = Bar(tuple(map(Part, sizes, labels)), str(sum(sizes)))
    edge, whole, between, parts, below = drawn(of)
    assert parts.strip("|").replace(" ", "").split("|") == labels
    assert whole.strip("| ") == str(sum(sizes))
    assert len(edge) == len(whole) == len(between) == len(parts) == len(below) <= COLUMNS


@given(st.integers(2, 99), st.data())
def test_of_two_bars_the_longer_one_is_above(more: int, data: st.DataObject) -> None:
    fewer = data.draw(st.integers(1, more - 1))
    _, above, _, below, _ = drawn(Bars((Part(more, str(more)), Part(fewer, str(fewer))), "□"))
    assert len(above) == len(below) <= COLUMNS
    assert below.rstrip().endswith(":")


@given(st.integers(1, 12).flatmap(lambda parts: st.tuples(st.integers(0, parts), st.just(parts))))
def test_a_strip_has_its_parts(of: tuple[int, int]) -> None:
    shaded, parts = of
    for strips in (Strips((Strip(*of),)), Strips((Strip(*of, "x"), Strip(1, 2, "y")))):
        cells = drawn(strips)[1].rpartition("|")[0].strip("|").split("|")
        assert len(cells) == parts
        assert sum("▓" in cell for cell in cells) == shaded


@given(
    st.lists(st.integers(1, 9000), min_size=1, max_size=4),
    st.lists(st.integers(1, 90), min_size=1, max_size=2),
)
def test_an_area_has_a_box_for_each_product(across: list[int], down: list[int]) -> None:
    lines = drawn(Area(tuple(across), tuple(down)))
    assert "".join(lines).count("□") == len(across) * len(down)
    assert lines[0].split() == [f"{n:,}" for n in across]
    assert max(map(len, lines)) <= COLUMNS


@given(st.lists(st.sampled_from(["1p", "50p", "£2", "£20"]), min_size=1, max_size=16))
def test_coins_are_all_there_in_their_order(names: list[str]) -> None:
    lines = drawn(Coins(tuple((name, name == "£20") for name in names)))
    assert re.findall(r"[(\[]([^)\]]+)[)\]]", " ".join(lines)) == names


def test_a_table_stands_close_together_before_it_stands_upright() -> None:
    heads = ("hundreds", "tens", "ones", "tenths", "hundredths")
    assert drawn(Table(heads, (("", "2", "5", "2", "5"),))) == (
        "hundreds|tens|ones|tenths|hundredths",
        "--------+----+----+------+----------",
        "        |   2|   5|     2|         5",
    )


def test_a_table_too_wide_for_its_heads_stands_upright() -> None:
    heads = ("hundred-thousands", "ten-thousands", "thousands")
    lines = drawn(Table(heads, (("1", "2", "3"), ("4", "5", "6"))))
    assert [line.split() for line in lines] == [
        ["hundred-thousands", "1", "4"], ["ten-thousands", "2", "5"], ["thousands", "3", "6"],
    ]  # fmt: skip


def test_paper_money_is_called_as_the_sets_call_it() -> None:
    """Bills beside dollars, notes beside pounds and euros (common practice, no source)."""
    dollars, pounds = (("$5", True), ("25c", False)), (("£5", True), ("20p", False))
    assert sentence(Coins(dollars)) == "Coins and bills: $5 and 25c."
    assert sentence(Coins(pounds)) == "Coins and notes: £5 and 20p."
    assert sentence(Coins(dollars[:1])) == "Bills: $5."
