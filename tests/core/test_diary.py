"""The record of days, and what a spreadsheet makes of it."""

import csv
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import days
from review.core.diary import Day, Diary, Sample, diary, in_words_of
from review.core.model import STANDARD, Event, Words
from review.core.tries import Tally, tally
from review.render import diary as shown
from review.render import phrases
from tests.core.stock import event, told
from tests.core.test_reports import DAY, pupil


def kept(rows: list[Event]) -> Diary:
    return diary(pupil("times-2-5-10"), rows, DAY - 27, DAY)


def test_a_day_has_its_minutes_problems_and_samples() -> None:
    rows = [
        told(1, DAY - 1, key="product:2x7", end_ms=61_000),
        told(2, DAY - 1, "not_yet", key="product:5x7", end_ms=30_000),
        told(3, DAY - 1, "right", "copy", key="product:5x7", end_ms=30_000),
    ]
    rows = [row._replace(body={**row.body, "asked": row.card.partition(":")[2]}) for row in rows]
    (day,) = kept(rows).days
    assert (day.day, day.ms, day.problems, day.tally.tries, day.tally.right) == (DAY - 1, 120_000, 2, 2, 1)
    assert set(day.skills) == {"The table of 2", "The table of 5"}
    assert [shown.sample_words(one) for one in day.samples] == ["2 × 7 = 2 (right)", "5 × 7 = 2 (not yet)"]


def test_what_was_written_in_columns_is_told_in_digits_and_a_picture_in_words() -> None:
    """“eight hundred and eighty-three minus seven hundred and fifty-four: 131” stood in a record to look
    through."""
    columns = told(1, DAY, "not_yet", key="column-difference:3-3/1", asked="883-754")
    dots = told(2, DAY, key="quantity:dots/1..5", asked="4")
    rows = [row._replace(body={**row.body, "given": given}) for row, given in ((columns, "131"), (dots, "4"))]
    (day,) = kept(rows).days
    assert shown.samples_words(day) == "883 − 754 = 131 (not yet); How many dots are there? 4 (right)"


def test_a_slip_of_the_keys_is_told_as_one() -> None:
    """“2 × 7 = 12 (right)” stood in a record that others read. What was only asked again is no slip."""
    rows = [told(n, DAY, key="product:2x7", asked="2x7") for n in (1, 2)]
    given = [{"given": "12", "slipped": "12"}, {"given": "14", "slipped": "14"}]
    rows = [row._replace(body={**row.body, **said}) for row, said in zip(rows, given, strict=True)]
    slip, right = (kept([row]).days[0] for row in rows)
    assert shown.samples_words(slip) == "2 × 7 = 12 (a slip of the keys, taken as right)"
    assert shown.samples_words(right) == "2 × 7 = 14 (right)"
    assert [row["mark"] for row in shown.day_row("Mira", slip)["samples"]] == ["right"]  # type: ignore[attr-defined]


def test_what_was_beside_the_warm_up_is_told_so_and_in_no_share() -> None:
    rows = [
        told(1, DAY - 1, "not_yet", key="product:2x7", asked="2x7"),
        told(2, DAY - 1, key="product:5x7", asked="5x7"),
        told(3, DAY, "not_yet", key="product:5x7", asked="5x7"),
        told(4, DAY, key="product:2x7", asked="2x7"),
    ]
    sorts = ("gentle", "", "gentle", "gentle")
    rows = [
        row._replace(body={**row.body, "sitting": sort}) if sort else row
        for row, sort in zip(rows, sorts, strict=True)
    ]
    found = kept(rows)
    assert (found.practised, found.tally.tries, found.tally.right) == (2, 1, 1)
    assert [(day.problems, day.gentle, day.extra) for day in found.days] == [(2, 1, 0), (2, 2, 0)]
    mixed, hard = map(shown.done_words, found.days)
    assert mixed.endswith("2 problems (1 in a gentle warm-up), 100% of 1 right at first")
    assert hard.endswith("2 problems (all in a gentle warm-up)")
    assert shown.samples_words(found.days[0]) == "5 × 7 = 2 (right)"
    assert shown.samples_words(found.days[1]) == "5 × 7 = 2 (not yet, gentle); 2 × 7 = 2 (right, gentle)"
    both = found.days[0]._replace(problems=12, gentle=3, extra=6)
    assert shown.beside_words(both) == "3 in a gentle warm-up and 6 extra"


@pytest.mark.parametrize(
    ("problem", "told"),
    [
        ("6 ÷ 3 =", "6 ÷ 3 = 2"),
        ("7 + □ = 9", "7 + 2 = 9"),
        ("Smallest first: 0.8, 0.31:", "Smallest first: 0.8, 0.31: 2"),
        ("Split 42 into tens and ones.", "Split 42 into tens and ones: 2"),
        ("Days in a week", "Days in a week: 2"),
    ],
)
def test_a_sample_reads_as_one_sentence(problem: str, told: str) -> None:
    assert phrases.answered(problem, "2") == told


def test_what_a_parent_noted_stands_on_its_day() -> None:
    rows = [
        event(1, DAY - 3, "taught", {"skills": ["table-of-2", "gone-by"]}),
        event(2, DAY - 3, "away", {"from": DAY - 2, "to": DAY - 2}),
        event(3, DAY - 2, "set_add", {"set": "times-2-5-10", "aim": "", "text": ""}),
        event(4, DAY - 2, "known", {"cards": ["product:2x3"]}),
        event(5, DAY - 1, "taught", {"skills": ["table-of-5"]}),
        event(6, DAY, "undo", {"device": 1, "seq": 5}),
    ]
    assert [(day.day, day.notes) for day in kept(rows).days] == [
        (DAY - 3, ("Taught: The table of 2; gone-by", f"Days off: {days.words(DAY - 2)}")),
        (DAY - 2, ("Set given: times-2-5-10", "Known already: 2 × 3")),
    ]


def test_what_is_noted_more_than_once_a_day_stands_once_under_its_label() -> None:
    rows = [
        event(1, DAY, "taught", {"skills": ["table-of-2", "table-of-5"]}),
        event(2, DAY, "known", {"cards": ["product:2x3", "product:2x4"]}),
        event(3, DAY, "taught", {"skills": ["table-of-2"]}),
        event(4, DAY, "known", {"cards": ["product:2x5"]}),
    ]
    (day,) = kept(rows).days
    assert day.notes == ("Taught: The table of 2; The table of 5", "Known already: 2 × 3; 2 × 4; 2 × 5")


def test_a_set_is_noted_by_its_title() -> None:
    found = pupil("times-2-5-10")._replace(sets={"times-2-5-10": "Tables of 2, 5 and 10"})
    rows = [event(1, DAY, "set_add", {"set": "times-2-5-10", "aim": "", "text": ""})]
    (day,) = diary(found, rows, DAY, DAY).days
    assert day.notes == ("Set given: Tables of 2, 5 and 10",)


@pytest.mark.parametrize(
    ("ms", "told"),
    [(0, "1 day with practice."), (400, "under a minute"), (61_000, "1 minute,"), (90_000, "1 minute,")],
)
def test_time_is_told_alike_of_a_day_and_of_all(ms: int, told: str) -> None:
    """Nought minutes would be read as no practice; on paper no time is taken, so that none is told."""
    row_ = told_of(ms)
    said = "\n".join(shown.lines(kept([row_])))
    assert said.count(told.strip(".,")) == (1 if ms == 0 else 2)
    assert " 0 minutes" not in said


def test_time_of_a_part_is_told_as_that() -> None:
    """A month aloud and one minute typed is no month of one minute."""
    typed, aloud = told_of(61_000), told_of(0)._replace(seq=2)
    said = "\n".join(shown.lines(kept([typed, aloud._replace(body={**aloud.body, "taken": "aloud"})])))
    assert said.count("1 minute typed") == 2
    assert "typed" not in "\n".join(shown.lines(kept([typed])))


def told_of(ms: int) -> Event:
    row_ = told(1, DAY, key="product:2x7", end_ms=ms)
    return row_._replace(body={**row_.body, "asked": "2x7"})


def test_a_card_of_a_dropped_set_is_told_by_its_own_title() -> None:
    (day,) = kept([told(1, DAY, key="sum:3+4")]).days
    assert day.skills == ("3 + 4",)


@pytest.mark.parametrize(
    ("problem", "given_", "words"),
    [
        ("6 × 7 =", "42", "6 × 7 = 42"),
        ("7 + □ = 12", "5", "7 + 5 = 12"),
        ("Half of 14 is", "7", "Half of 14 is 7"),
        ("What is the 3 worth in 8,382?", "300", "What is the 3 worth in 8,382? 300"),
        ("Write in order", "1 2 3", "Write in order: 1 2 3"),
    ],
)
def test_an_answer_stands_where_it_belongs(problem: str, given_: str, words: str) -> None:
    assert phrases.answered(problem, given_) == words


# What a cell must not begin with, after OWASP, "CSV Injection": = + - @ tab, carriage return (from memory).
@given(st.sampled_from("=+-@\t\r"), st.text())
def test_no_cell_is_a_formula_and_no_column_slips(begin: str, rest: str) -> None:
    hostile = begin + rest
    day = Day(
        DAY, 1, 1, Tally(0, 0, 0, 0, 0), ("typed",), (hostile,), (Sample("", hostile, "right"),), (hostile,)
    )
    made = shown.spreadsheet([Diary(hostile, DAY, DAY, (day,), 1, 1, day.tally)]).decode("utf-8-sig")
    (heads, cells) = list(csv.reader(StringIO(made, newline="")))
    assert len(heads) == len(cells) == len(shown.COLUMNS)
    assert not any(cell[:1] in tuple("=+-@\t\r") for cell in cells if cell)


def test_the_name_of_every_day_is_its_weekday() -> None:
    """25 November 2026 is a Wednesday (any calendar)."""
    assert days.full_words(days.day_of(days.date_of(739_945))) == "Wednesday 25 November 2026"


def test_problems_of_the_record_are_in_the_familys_signs() -> None:
    day = Day(DAY, 0, 1, tally(()), (), (), (Sample("1.5 × 3 =", "4.5", "right"),), ())
    assert in_words_of(day, Words(decimals="comma", times="dot")).samples == (
        Sample("1,5 · 3 =", "4,5", "right"),
    )
    assert in_words_of(day, STANDARD) == day
