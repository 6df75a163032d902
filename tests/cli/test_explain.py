"""`review warmup --explain`: for a parent; nothing is asked and nothing kept."""

import json
from datetime import date
from pathlib import Path

import pytest

from review.app.explaining import Told
from review.core import days
from review.core.explain import Explained, Held, Here
from review.core.model import Child, Chosen, Pupil, Settings, Skill
from review.render import explain_lines
from tests.cli.conftest import Review

KEYS = [
    "child", "card", "prompt", "skill", "why", "words", "recall", "gap", "planned_day", "seconds",
    "missed_more_often",
]  # fmt: skip
DAY = ("--on", "2026-01-06")


def rows(review: Review, *more: str) -> list[dict[str, object]]:
    done = review("warmup", "Mira", "--explain", "--json", *more)
    assert (done.code, done.err) == (0, "")
    found: list[dict[str, object]] = json.loads(done.out)
    return found


def cards(review: Review, *more: str) -> list[object]:
    return [row["card"] for row in rows(review, *more)]


def asked(review: Review, day: str, *more: str, typed: str = '{"stop":true}\n') -> list[object]:
    done = review("warmup", "Mira", "--jsonl", "--on", day, *more, typed=typed)
    said = [json.loads(line) for line in done.out.splitlines()]
    return [row["card"] for row in said if row["type"] == "problem"]


def test_it_keeps_nothing(family: Review, tmp_path: Path) -> None:
    before = (tmp_path / "family.book").read_bytes()
    assert rows(family, *DAY)
    assert family("warmup", "--explain", *DAY).code == 0
    assert (tmp_path / "family.book").read_bytes() == before


def test_the_keys_of_the_json(family: Review) -> None:
    for row in rows(family, *DAY):
        assert list(row) == KEYS
        assert (row["child"], row["why"], row["recall"], row["planned_day"]) == ("Mira", "new", None, None)
        assert str(row["words"]).startswith(("Next of “", "From “"))


def test_it_tells_of_the_warm_up_that_comes(family: Review) -> None:
    told = cards(family, *DAY)
    assert asked(family, "2026-01-06") == told[:1]


def test_a_day_that_was_begun_keeps_its_reasons(family: Review) -> None:
    before = rows(family, *DAY)
    answers = '{"answer":"1","seconds":3}\n' * 4 + '{"stop":true}\n'
    asked(family, "2026-01-06", typed=answers)
    assert rows(family, *DAY) == before
    assert "the plan the day began with" in family("warmup", "Mira", "--explain", *DAY).out
    assert rows(family, *DAY, "--minutes", "9") == before


def test_a_day_that_is_over_can_be_asked_about(family: Review) -> None:
    told = rows(family, *DAY)
    asked(family, "2026-01-06", typed='{"answer":"1","seconds":3}\n{"stop":true}\n')
    asked(family, "2026-01-07", typed='{"answer":"1","seconds":3}\n{"stop":true}\n')
    assert rows(family, *DAY) == told
    gone = family("warmup", "Mira", "--explain", "--on", "2026-01-05")
    assert gone.code == 1
    assert "There was no warm-up of Mira on 5 January 2026" in gone.err


def test_a_day_is_told_as_it_was_also_where_its_answers_were_taken_back(family: Review) -> None:
    """All that was met before it: a planned day of none of its cards is known any more."""
    miss = '{"pass":true}\n'
    asked(family, "2026-01-06", typed=miss * 2)
    told = rows(family, "--on", "2026-01-07")
    assert {row["why"] for row in told} >= {"met"}
    asked(family, "2026-01-07", typed=miss * 2)
    for _ in range(2):
        assert family("undo", "Mira", "--sitting", "--yes", "--on", "2026-01-07").code == 0
    asked(family, "2026-01-08", typed=miss)
    assert rows(family, "--on", "2026-01-07") == told


def test_what_was_taught_after_the_day_began_is_told(family: Review) -> None:
    asked(family, "2026-01-06", typed='{"answer":"1","seconds":3}\n{"stop":true}\n')
    assert "Not taught yet" in family("warmup", "Mira", "--explain", *DAY).out
    assert family("taught", "roman-early", "Mira", *DAY).code == 0
    out = family("warmup", "Mira", "--explain", *DAY).out
    assert "Taught after this plan was made" in out
    assert "Not taught yet" not in out


def test_without_a_name_it_tells_of_all_children(family: Review) -> None:
    done = family("warmup", "--explain", *DAY)
    assert done.code == 0
    assert "Mira, 6 January 2026: " in done.out
    assert "Jonah: no skill set yet" in done.out


def test_what_does_not_go_together_is_refused(family: Review) -> None:
    for wrong in ("--try", "--jsonl", "--untimed"):
        done = family("warmup", "Mira", "--explain", wrong, *DAY)
        assert done.code == 2
        assert "--explain asks nothing" in done.err
    done = family("warmup", "Mira", "--json", *DAY)
    assert done.code == 2
    assert "--jsonl" in done.err
    assert family("warmup", "Mira", "--explain", "--minutes", "99", *DAY).code == 1


def test_a_book_without_children_says_what_to_do(review: Review) -> None:
    assert review("warmup", "--explain").code == 1


# --- the words -----------------------------------------------------------------------------------------


def here(**fields: object) -> Here:
    usual = Here("sum:1+2", "1 + 2", "sums", "due", "due", "between", 4.0, 0.84, 12, 739_000, 0, 0, False)
    return usual._replace(**fields)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("row", "words"),
    [
        (here(), "Its gap of 12 days is over today; chance today 84%."),
        (
            here(gap=1, planned_day=738_999),
            "Its gap of 1 day is over (was planned for yesterday); chance today 84%.",
        ),
        (here(part="fading", recall=0.999), "Its gap of 12 days is over today; chance today 99%."),
        (here(part="slip", planned_day=739_001), "Planned for tomorrow; chance today 84%."),
        (here(part="sure", spot="opens"), "Opens the warm-up; chance today 84%."),
        (here(part="met", since=738_999), "Met yesterday, not asked from memory yet."),
        (here(part="meet", meetings=2), "Met twice, of 6 meetings."),
        (here(part="meet", meetings=9), "Met 6 times, now about once a month."),
        (here(part="then", gap=0, planned_day=0), "As it stood then; chance then 84%."),
        (here(part="new", next=True), "Next of sums."),
        (here(part="back", since=738_990), "Set aside on 14 April, begins as new once more."),
    ],
)
def test_a_reason_in_words(row: Here, words: str) -> None:
    assert explain_lines.sentence(row, 739_000, {}) == words


def test_days_are_named_as_one_says_them() -> None:
    """Weekdays and months as `datetime` names them in English."""
    for ahead in range(-6, 7):
        word = explain_lines.day_word(FRIDAY + ahead, FRIDAY)
        near = {0: "today", 1: "tomorrow", -1: "yesterday"}
        assert word == near.get(ahead, days.date_of(FRIDAY + ahead).strftime("%A"))
    assert explain_lines.day_word(FRIDAY + 7, FRIDAY) == "27 November"
    assert explain_lines.day_word(FRIDAY - 7, FRIDAY) == "13 November"
    assert explain_lines.day_word(FRIDAY - 365, FRIDAY) == "20 November 2025"


FRIDAY = date(2026, 11, 20).toordinal()


def test_no_name_in_it_reaches_the_terminal_as_more_than_text() -> None:
    bad = "T\x1b[31m\u202e"
    child = Child("", bad, 9, 0, sets=(Chosen("s", "", ""),), taught=(bad,))
    skill = Skill(bad, bad, "pairs", "accuracy", {})
    pupil = Pupil(child, FRIDAY, (), {bad: skill}, {}, Settings(9))
    held = tuple(Held("k", bad, bad, reason, (bad,), FRIDAY + 1) for reason in explain_lines.HELD)
    parts = tuple(here(prompt=bad, skill=bad, part=part, since=FRIDAY) for part in explain_lines.HEADS)
    told = Told(pupil, True, Explained(FRIDAY, parts, held, (bad,), 3.0, 4, 3.5, 2, (9, 10), (bad,)))
    lines = explain_lines.explained(told)
    assert all(line.isprintable() for line in lines)
    assert len(lines) > 3 * len(parts)


def test_no_name_of_a_rating_is_in_its_words() -> None:
    """The names are those of the memory library."""
    from fsrs import Rating

    said = [*explain_lines.HEADS.values(), *explain_lines.HELD.values()]
    said += [explain_lines.why(here(part=part, since=FRIDAY), FRIDAY, {}) for part in explain_lines.HEADS]
    said += [explain_lines.why(here(part="sure", spot=spot), FRIDAY, {}) for spot in ("opens", "ends")]
    words = {word.strip(":;,.()").casefold() for text in said for word in text.split()}
    assert len(words) > 40
    assert words.isdisjoint(rating.name.casefold() for rating in Rating)


OURS = """
[set]
id = "our-words"
title = "Our words"
aim = "accuracy"
ages = [6, 9]
[[skill]]
id = "animals"
title = "Animals"
kind = "pairs"
pairs = [["Who barks?", "dog"], ["Who mews?", "cat"]]
"""


def test_what_was_taught_and_never_came_is_named_with_what_brings_it(review: Review, tmp_path: Path) -> None:
    """A set of a parent's own behind others: it was one of "90 more" for six weeks."""
    ours = tmp_path / "ours.toml"
    ours.write_text(OURS, encoding="utf-8")
    assert review("child", "add", "Mira", "--age", "7", *DAY).code == 0
    for one in ("number-bonds-10", "addition-facts-10", "times-2-5-10", str(ours)):
        assert review("set", "add", one, "Mira", "--taught", *DAY).code == 0
    told = " ".join(review("warmup", "--minutes", "2", "--explain", *DAY).out.split())
    assert "Not begun yet, since others come first: “The table of 10”; “Animals”." in told
    assert told.endswith("To have one first this week: review focus SKILL Mira")
    assert "Who barks?" not in told
    assert review("focus", "animals", "Mira", *DAY).code == 0
    told = " ".join(review("warmup", "--minutes", "2", "--explain", *DAY).out.split())
    assert "Next of “Animals”: Who barks?; Who mews?" in told
    assert (
        "others come first: “The table of 10”. To have it first this week: review focus table-of-10 Mira"
        in told
    )
