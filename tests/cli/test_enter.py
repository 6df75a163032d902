"""`review enter`: marks of a sheet into the book, put right, and never in the way of the day's warm-up."""

import json
import re
from pathlib import Path

import pytest

from review.book.store import open_book
from review.core.answer_bodies import event_answer
from review.core.model import Answer, Event
from review.core.sheets import made_of
from tests.cli.conftest import Review
from tests.cli.test_sheet import MONDAY, SUNDAY, here, number_of, orla

__all__ = ["here", "orla"]  # fixtures

WEDNESDAY = ("--on", "2026-01-14")
SATURDAY = ("--on", "2026-01-17")


@pytest.fixture
def week(orla: Review) -> str:
    """The number of a week's sheet made on Sunday 11 January."""
    return str(number_of(orla("sheet", "--week", "--out", "w.html", *SUNDAY).out))


@pytest.fixture
def today(orla: Review) -> str:
    return str(number_of(orla("sheet", "--out", "t.html", *MONDAY).out))


def rows(folder: Path) -> list[Event]:
    with open_book(folder / "family.book", folder / "xdg_state_home" / "review", write=False) as book:
        return list(book.events())


def answers(folder: Path) -> list[tuple[Event, Answer]]:
    """Those that stand."""
    from review.core.amendments import amended

    return [(row, event_answer(row)) for row in amended(rows(folder)) if row.kind == "answer"]


def date(event: Event) -> str:
    from review.core import days

    return str(days.date_of(event.day))


def test_marks_become_answers_of_the_day_it_was_done(orla: Review, here: Path, today: str) -> None:
    done = orla("enter", today, "--marks", "2. 3o=99", *WEDNESDAY)
    assert (done.code, done.err) == (0, "")
    found = answers(here)
    (made,) = [made_of(row) for row in rows(here) if "parts" in row.body]
    tasks = made.parts[0].tasks
    assert [(row.card, one.asked) for row, one in found] == [task[:2] for task in tasks]
    assert {date(row) for row, _ in found} == {"2026-01-14"}
    assert [one.mark for _, one in found].count("not_yet") == 1
    assert (found[2][1].given, found[1][1].recalled, found[0][1].recalled) == ("99", "no", "yes")
    assert {one.taken for _, one in found} == {"paper"}
    assert orla("verify").code == 0


def test_what_was_understood_is_shown(orla: Review, today: str) -> None:
    out = orla("enter", today, "--marks", "2. 3o=99", *WEDNESDAY).out
    assert "From memory: 1 and 4 to 6." in out
    assert re.search(r"Worked out: 2 \([^)]+\)\.", out)
    assert re.search(r"Not yet: 3 \([^)]+; 99 stands there\)\.", out)
    assert "done on Wednesday 14 January 2026" in out


def test_the_day_it_was_planned_for_is_taken_where_none_is_told(orla: Review, here: Path, week: str) -> None:
    """Marks of Monday to Wednesday, typed later: each sitting has its own day."""
    for day in ("1", "2", "3"):
        assert orla("enter", week, "--day", day, "--marks", "all").code == 0
    assert list(dict.fromkeys(date(row) for row, _ in answers(here))) == [
        "2026-01-12", "2026-01-13", "2026-01-14",
    ]  # fmt: skip


def test_a_week_is_asked_sitting_by_sitting(orla: Review, here: Path, week: str) -> None:
    typed = "2.\n\nall\ntue\n\nnonsense\n1o\n2026-01-15\n\n"
    done = orla("enter", week, *SATURDAY, typed=typed)
    assert (done.code, done.err) == (0, "")
    assert "is no mark" in done.out
    assert list(dict.fromkeys(date(row) for row, _ in answers(here))) == [
        "2026-01-12", "2026-01-13", "2026-01-15",
    ]  # fmt: skip
    assert {one.part for _, one in answers(here)} == {1, 2, 4}
    later = orla("enter", week, *SATURDAY, typed="")
    assert (later.code, later.out.count("Day ")) == (0, 1)
    assert "Day 3" in later.out, "the first that is not in the book yet"


def test_input_that_ends_early_keeps_what_was_typed(orla: Review, here: Path, week: str) -> None:
    done = orla("enter", week, *SATURDAY, typed="all\n\n3.")
    assert done.code == 0
    assert {one.part for _, one in answers(here)} == {1}


def test_marks_can_be_put_right(orla: Review, here: Path, week: str) -> None:
    for day in ("1", "2", "3"):
        orla("enter", week, "--day", day, "--marks", "all")
    before = [(row.day, row.card) for row, _ in answers(here)]
    done = orla("enter", week, "--day", "2", "--marks", "1o 3x")
    assert (done.code, done.err) == (0, "")
    assert "Put in the place of what was there" in done.out
    after = answers(here)
    second = [one for _, one in after if one.part == 2]
    assert second[0].mark == "not_yet"
    assert len(after) == len(before) - 1, "what is left out is no answer"
    assert {date(row) for row, one in after if one.part == 2} == {"2026-01-13"}, "the day it had"
    assert orla("verify").code == 0
    again = orla("enter", week, "--day", "2", "--marks", "all")
    assert again.code == 0
    assert sorted((row.day, row.card) for row, _ in answers(here)) == sorted(before)
    assert {one.mark for _, one in answers(here)} == {"right"}
    assert orla("verify").code == 0


def test_a_dot_is_told_as_worked_out_wherever_it_is_told(orla: Review, here: Path, week: str) -> None:
    told = orla("enter", week, "--day", "1", "--marks", "1. 3.", *MONDAY).out
    assert "Worked out: 1 " in " ".join(told.split())
    dotted = [one for _, one in answers(here) if one.recalled == "no"]
    assert {one.mark for one in dotted} == {"right_slow"}
    log = " ".join(orla("log", *MONDAY).out.split())
    assert "(right, worked out)" in log
    undo = orla("undo", "--sitting", "--yes", *MONDAY).out
    assert undo.count("(right, worked out)") == len(dotted) == 2


def test_a_sitting_put_right_does_not_stand_in_the_way_of_later_ones(orla: Review, week: str) -> None:
    for arguments in (("1", "all"), ("1", "2."), ("2", "all")):
        done = orla("enter", week, "--day", arguments[0], "--marks", arguments[1])
        assert done.code == 0, done.err


def test_never_before_the_childs_last_answers(orla: Review, here: Path, week: str) -> None:
    orla("warmup", "--jsonl", *WEDNESDAY, typed='{"answer":"3","seconds":3}\n{"stop":true}\n')
    book = (here / "family.book").read_bytes()
    done = orla("enter", week, "--day", "1", "--marks", "all", *MONDAY)
    assert (done.code, "--on 2026-01-14" in done.err) == (1, True)
    early = orla("enter", week, "--day", "1", "--marks", "all", "--on", "2026-01-10")
    assert early.code == 1
    assert (here / "family.book").read_bytes() == book


def test_what_a_parent_says_meanwhile_does_not_stand_in_the_way(orla: Review, week: str) -> None:
    """Another sheet printed, a skill taught: only answers keep their order."""
    orla("sheet", "--week", "--out", "next.html", *SATURDAY)
    orla("set", "add", "dots-to-10", "--taught", *SATURDAY)
    done = orla("enter", week, "--day", "1", "--marks", "all", *MONDAY)
    assert (done.code, done.err) == (0, "")


def test_a_day_on_paper_is_done_and_leaves_the_typed_warm_up_its_own(
    orla: Review, here: Path, today: str
) -> None:
    assert json.loads(orla("--json", *MONDAY).out)[0]["done"] is False
    orla("enter", today, "--marks", "all", *MONDAY)
    assert json.loads(orla("--json", *MONDAY).out)[0]["done"] is True
    told = orla("warmup", "--jsonl", *MONDAY, typed='{"stop":true}\n').out.splitlines()
    shown = [json.loads(line)["card"] for line in told if json.loads(line)["type"] == "problem"]
    assert not {row.card for row, _ in answers(here)} & set(shown), "what was asked on paper had its turn"


def test_a_typed_sitting_that_was_begun_goes_on_as_if_there_were_no_paper(
    orla: Review, here: Path, week: str
) -> None:
    half = '{"answer":"3","seconds":3}\n' * 3
    first = orla("warmup", "--jsonl", *MONDAY, typed=half + '{"stop":true}\n').out.splitlines()
    waiting = [json.loads(line)["card"] for line in first if json.loads(line)["type"] == "problem"][-1]
    orla("enter", week, "--day", "1", "--marks", "all", *MONDAY)
    then = orla("warmup", "--jsonl", *MONDAY, typed='{"stop":true}\n').out.splitlines()
    shown = [json.loads(line)["card"] for line in then if json.loads(line)["type"] == "problem"]
    assert shown == [waiting]


def test_what_was_marked_moves_memory(orla: Review, here: Path, today: str) -> None:
    """A ring at a first meeting: met and not known, so it comes the next day. The others were known, once:
    one day of recall is little, so that at this age they are looked at again the next day, as due."""
    orla("enter", today, "--marks", "1o", *MONDAY)
    ring, tick = (row.card for row, _ in answers(here)[:2])
    told = json.loads(orla("warmup", "--explain", "--json", "--on", "2026-01-13").out)
    why = {row["card"]: row["why"] for row in told}
    assert why[ring] == "met"
    assert why[tick] == "due"


def test_a_sheet_of_another_child_is_said_to_be_that_childs(orla: Review, week: str) -> None:
    orla("child", "add", "Fenn", "--age", "9", *MONDAY)
    for command in (("enter", week, "Fenn"), ("sheet", "Fenn", "--number", week, "--out", "again.html")):
        done = orla(*command)
        assert (done.code, done.out) == (1, "")
        assert done.err.startswith(f"Sheet {week} is Orla's. Write that name at the end, ")


@pytest.mark.parametrize(
    ("arguments", "code", "says"),
    [
        (("12",), 1, "There is no sheet 12"),
        (("no",), 2, "is no whole number"),
        (("{week}", "--day", "9", "--marks", "all"), 1, "has 5 sittings"),
        (("{week}", "--marks", "all"), 1, "Which sitting?"),
        (("{week}", "--day", "1", "--marks", "99."), 1, "no number 99"),
        (("{week}", "--day", "1", "--marks", "1-"), 1, "nothing to keep"),
        (("{week}", "Fenn", "--day", "1", "--marks", "all"), 1, "no child called"),
    ],
)
def test_one_sentence_for_what_cannot_be(
    orla: Review, here: Path, week: str, arguments: tuple[str, ...], code: int, says: str
) -> None:
    book = (here / "family.book").read_bytes()
    done = orla("enter", *(word.format(week=week) for word in arguments))
    assert (done.code, done.out) == (code, "")
    assert says in done.err
    assert (here / "family.book").read_bytes() == book


def test_practice_is_not_entered(orla: Review) -> None:
    number = number_of(orla("sheet", "--practice", "table-of-5", "--out", "p.html", *MONDAY).out)
    done = orla("enter", str(number), "--marks", "all")
    assert (done.code, "is practice" in done.err) == (1, True)


def test_days_on_paper_tell_which_days_a_family_practises(orla: Review, here: Path) -> None:
    """To print on Sundays makes no Sunday a practice day; the days that were done do."""
    from review import gather

    for sunday, first in (("11", 12), ("18", 19), ("25", 26)):
        number = str(
            number_of(orla("sheet", "--week", "--out", f"{sunday}.html", "--on", f"2026-01-{sunday}").out)
        )
        for day in range(4):
            on = f"2026-01-{first + day}"
            done = orla("enter", number, "--day", str(day + 1), "--marks", "all", "--on", on)
            assert done.code == 0, done.err
    with open_book(here / "family.book", here / "xdg_state_home" / "review", write=False) as book:
        (child,) = gather.family_of(book)
        thursday = next(row.day for row in reversed(list(book.events())) if row.kind == "answer")
        assert gather.pupil(book, child, thursday).settings.days_off == 3


def test_a_sheet_says_what_it_is_before_it_asks(orla: Review, week: str, today: str) -> None:
    assert "made on Sunday 11 January 2026: 5 short warm-ups." in " ".join(orla("enter", week).out.split())
    assert "made on Monday 12 January 2026: a warm-up." in " ".join(orla("enter", today).out.split())


def test_one_sitting_is_put_right_by_entering_it_again(orla: Review, here: Path, today: str) -> None:
    done = orla("enter", today, "--marks", "all", *MONDAY)
    assert f"To put it right: review enter {today}\n" in done.out
    done = orla("enter", today, *MONDAY, typed="2.\ntoday\n")
    assert "in the book as of Monday 12 January 2026" in done.out
    assert "Put in the place of what was there" in done.out
    assert [one.recalled for _, one in answers(here)].count("no") == 1


def test_no_marks_are_no_ticks(orla: Review, here: Path, today: str) -> None:
    done = orla("enter", today, "--marks", "", *MONDAY)
    assert (done.code, answers(here)) == (1, [])
    assert "There are no marks in it." in done.err


def test_a_sitting_on_paper_is_taken_back_alone_and_given_back(orla: Review, here: Path, today: str) -> None:
    orla("warmup", "--jsonl", *MONDAY, typed='{"answer":"3","seconds":3}\n' * 2 + '{"stop":true}\n')
    typed = answers(here)
    orla("enter", today, "--marks", "all", *MONDAY)
    both = answers(here)
    done = orla("undo", "--sitting", "--yes", *MONDAY)
    assert f"To enter its marks anew: review enter {today} --day 1" in done.out
    assert "review warmup" not in done.out
    assert answers(here) == typed, "what was typed that day stands"
    assert json.loads(orla("--json", *MONDAY).out)[0]["done"] is False
    assert "(interrupted)" not in orla("undo", "--redo", "--yes", *MONDAY).out
    assert answers(here) == both
    assert json.loads(orla("--json", *MONDAY).out)[0]["done"] is True


def test_marks_that_were_put_right_do_not_come_back_beside_the_new_ones(
    orla: Review, here: Path, today: str
) -> None:
    orla("enter", today, "--marks", "all", *MONDAY)
    orla("undo", "--yes", *MONDAY)
    orla("enter", today, "--marks", "2.", *MONDAY)
    there = answers(here)
    done = orla("undo", "--redo", "--yes", *MONDAY)
    assert (done.code, answers(here)) == (1, there)
    assert "Nothing of Orla has been taken back." in done.err


def test_days_without_marks_can_wait(orla: Review, here: Path, week: str, today: str) -> None:
    done = orla("enter", week, *SATURDAY, typed="all\n\n\n\n\n\n")
    assert f"Days 2, 3, 4 and 5 can wait. Once done: review enter {week}\n" in done.out
    assert "The sitting can wait." in orla("enter", today, *SATURDAY, typed="\n").out


def test_a_day_that_cannot_be_is_asked_again_without_speaking_of_options(orla: Review, today: str) -> None:
    out = " ".join(orla("enter", today, typed="all\n2026-01-01\n2026-01-12\n").out.split())
    assert "Choose that day or a later one: 2026-01-12 " in out
    assert "--on" not in out
    assert "done on Monday 12 January 2026" in out


def test_why_a_day_cannot_be_is_told(orla: Review, week: str, today: str) -> None:
    """One sentence told of a sheet of tomorrow, and of marks that come behind later answers."""
    early = orla("enter", today, "--marks", "all", *SUNDAY)
    assert (early.code, "The sheet was made on 12 January 2026. Choose" in early.err) == (1, True)
    assert orla("enter", today, "--marks", "all", *WEDNESDAY).code == 0
    behind = orla("enter", week, "--day", "1", "--marks", "all", *MONDAY)
    assert behind.code == 1
    assert "Orla has answered on 14 January 2026 since, and answers come day by day." in behind.err
    assert "--on 2026-01-14" in behind.err
