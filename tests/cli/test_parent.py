"""What a parent says: known already, days off, a focus; and what a week needs: teach, brief."""

from pathlib import Path

import pytest

from review.shell import word
from tests.cli.conftest import Review
from tests.cli.said import DAY, ON, row, says
from tests.cli.test_undo import remembered
from tests.cli.test_week import finish, of, sit

# --- known ----------------------------------------------------------------------------------------------


def test_a_skill_that_is_known_counts_as_taught_and_is_not_asked_as_new(tables: Review) -> None:
    told = says(tables, "known", "table-of-10", "Mira", *ON)
    assert "Marked as taught with it: The table of 10." in told
    asked = of(finish(tables, "2026-01-07"), "problem")
    assert not [one for one in asked if one["first_meeting"] and one["card"].startswith("product")]
    late = row(tables, "overdue", "Mira", "--all", "--on", "2026-02-20")
    assert {one["skill"] for one in late} >= {"table-of-10"}


def test_what_was_answered_says_more_than_a_word(tables: Review) -> None:
    sit(tables, DAY, *['{"answer": "97", "seconds": 4}\n', '{"answer": "2", "seconds": 4}\n'] * 3)
    before = row(tables, "known", "addition-facts-10", "Mira", *ON)
    assert before["left"] + len(before["cards"]) == 26
    assert row(tables, "known", "addition-facts-10", "Mira", *ON)["cards"] == []
    told = says(tables, "known", "addition-facts-10", "Mira", *ON)
    assert "Left as they are, for they were answered or said to be known: 26 cards." in told


@pytest.mark.parametrize(
    "name", ["2x7", "7x2", "2 × 7", "7×2", "product:2x7", "7 * 2", "7 times 2", "7 × 2 =", " 2 · 7 "]
)
def test_a_card_is_named_as_a_parent_types_it_and_taken_back(tables: Review, name: str) -> None:
    told = says(tables, "known", "--card", name, "Mira", *ON)
    assert "2 × 7" in told
    assert "review taught table-of-2 Mira" in told  # it comes only when its skill was taught
    assert "Not known to Mira after all: 2 × 7." in says(
        tables, "known", "--card", name, "--not", "Mira", *ON
    )
    assert tables("known", "--card", name, "--not", "Mira", *ON).code == 1


@pytest.mark.parametrize(
    ("names", "title"),
    [
        (("0 x 5", "5 times 0"), "times 0"),
        (("4 + 3", "4 plus 3 ="), "3 + 4"),
        (("8 - 0", "5 minus 0"), "taking 0 away"),
        (("10 / 2", "10 : 2", "10 divided by 2"), "10 ÷ 2"),
        (("10 = 4 + ?", "10 = □ + 6", "10=4+6"), "10 = 4 + 6"),
        (("double 6", "Double 6 is"), "double 6"),
        (("half of 12", "Half of 12 is"), "half of 12"),
        (("47 + 25", "2-digit + 2-digit, regroup the ones"), "2-digit + 2-digit, regroup the ones"),
    ],
)
def test_a_card_is_named_by_what_is_asked_or_by_its_title(
    tables: Review, names: tuple[str, ...], title: str
) -> None:
    for set_id in ("subtraction-facts-10", "division-2-5-10", "number-bonds-10", "doubles-halves-20"):
        says(tables, "set", "add", set_id, "Mira", *ON)
    says(tables, "set", "add", "mental-sums-to-99", "Mira", *ON)
    for name in names:
        assert f"Known to Mira already: {title}." in says(tables, "known", "--card", name, "Mira", *ON), name


def test_what_is_printed_to_take_it_back_can_be_typed(tables: Review) -> None:
    told = says(tables, "known", "--card", "7 x 2", "Mira", *ON)
    assert told.endswith("review known --card '2 × 7' --not Mira")
    assert "after all" in says(tables, "known", "--card", "2 × 7", "--not", "Mira", *ON)


def test_a_card_that_could_be_several_or_none_is_one_sentence(tables: Review) -> None:
    says(tables, "set", "add", "doubles-halves-20", "Mira", *ON)
    done = tables("known", "--card", "6", "Mira", *ON)
    assert (done.code, done.err.strip()) == (1, "“6” could be double 6 or half of 6. Write which.")
    done = tables("known", "--card", "2x99", "Mira", *ON)
    assert "Write it as it is asked, like 1 + 1, or name a whole skill" in done.err
    done = tables("known", "--card", "7", "x", "2", "Mira", *ON)
    assert (done.code, 'in quotes: --card "7 x 2"' in done.err) == (2, True)


@pytest.mark.parametrize("name", ["2x7", "7 x 2", "product:2x7"])
def test_a_card_where_a_skill_is_meant_is_told_how_to_be_named(tables: Review, name: str) -> None:
    done = tables("known", name, "Mira", *ON)
    assert (done.code, f"One card: review known --card {word(name)} Mira" in done.err) == (1, True)


@pytest.mark.parametrize("name", ["table-of-10", "times-2-5-10"])
def test_a_skill_is_taken_back_as_it_was_said(tables: Review, tmp_path: Path, name: str) -> None:
    before = remembered(tmp_path)
    told = says(tables, "known", name, "Mira", *ON)
    assert told.endswith(f"Not so after all: review known {name} --not Mira")
    assert remembered(tmp_path) != before
    told = says(tables, "known", name, "--not", "Mira", *ON)
    assert told.startswith("Not known to Mira after all: ")
    assert f"Not so either: review taught {name} Mira --not" in told
    assert remembered(tmp_path) == before
    assert tables("known", name, "--not", "Mira", *ON).code == 1
    assert says(tables, "taught", name, "Mira", "--not", *ON)


def test_of_a_set_said_at_once_a_skill_is_taken_back_alone(tables: Review) -> None:
    every = set(row(tables, "known", "times-2-5-10", "Mira", *ON)["cards"])
    gone = row(tables, "known", "table-of-10", "--not", "Mira", *ON)
    assert (gone["known"], gone["taught"]) == (False, [])
    assert every > set(gone["cards"]) >= {"product:3x10"}
    assert set(row(tables, "known", "times-2-5-10", "Mira", *ON)["cards"]) == set(gone["cards"])
    assert says(tables, "verify").startswith("The book is sound.")


def test_of_several_said_at_once_one_is_taken_back_alone(tables: Review) -> None:
    says(tables, "known", "table-of-10", "Mira", *ON)
    says(tables, "known", "--card", "10x3", "--not", "Mira", *ON)
    cards = row(tables, "known", "table-of-10", "Mira", *ON)["cards"]
    assert cards == ["product:3x10"]
    assert says(tables, "verify").startswith("The book is sound.")


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("known", "Mira"), 1, "Mira is a child, and the skill stands before the name"),
        (("known",), 2, "Write a skill"),
        (("known", "a", "b", "c"), 2, "Write a skill"),
        (("known", "--card", "2x7", "a", "b"), 2, "Write a skill"),
        (("known", "table-of-2", "--not", "Mira"), 1, "Nobody said that The table of 2 is known."),
        (("known", "2x7", "--not", "Mira"), 1, "is a card"),
        (("known", "--card", "2x99", "Mira"), 1, "no card"),
        (("known", "--card", "2x7"), 1, "Mira or Jonah"),
    ],
)
def test_what_cannot_be_known(tables: Review, arguments: tuple[str, ...], code: int, said: str) -> None:
    done = tables(*arguments, *ON)
    assert (done.code, done.out) == (code, "")
    assert said in done.err or "Which child" in done.err


# --- days off -------------------------------------------------------------------------------------------


def test_days_off_are_kept_shown_and_taken_back(family: Review) -> None:
    says(family, "away", "--from", "2026-01-10", "--to", "2026-01-18", "Mira", *ON)
    spans = row(family, "away", *ON)
    assert spans[0] == {"child": "Mira", "away": [{"from": "2026-01-10", "to": "2026-01-18"}]}
    assert spans[1]["away"] == []
    assert "Mira: away until 18 January 2026" in says(family, "--on", "2026-01-12")
    assert "Mira: ready" in says(family, "--on", "2026-01-19")
    says(family, "away", "--back", "Mira", "--on", "2026-01-12")
    assert "Mira: ready" in says(family, "--on", "2026-01-12")
    assert family("away", "--back", "Mira", "--on", "2026-01-12").code == 1


def test_a_warm_up_on_a_day_off_is_done_like_any_other(family: Review) -> None:
    says(family, "away", "--from", "2026-01-06", "--to", "2026-01-18", "Mira", *ON)
    finish(family, DAY)
    assert "Mira: done today" in says(family, *ON)


@pytest.mark.parametrize(
    ("options", "code"),
    [
        (("--from", "2026-01-10"), 2),
        (("--to", "2026-01-10"), 2),
        (("--from", "2026-01-10", "--to", "2026-01-09"), 1),
        (("--from", "2026-01-10", "--to", "2027-01-09"), 1),
        (("--from", "2062-01-10", "--to", "2062-01-18"), 1),
        (("--from", "2026-01-10", "--to", "2026-01-11", "--back"), 2),
        (("--from", "10 January", "--to", "2026-01-11"), 2),
    ],
)
def test_days_off_that_cannot_be(family: Review, options: tuple[str, ...], code: int) -> None:
    assert family("away", *options, "Mira", *ON).code == code


# --- focus ----------------------------------------------------------------------------------------------


def test_a_focus_lasts_until_sunday(tables: Review) -> None:
    says(tables, "taught", "times-2-5-10", "Mira", *ON)
    told = says(tables, "focus", "table-of-5", "Mira", *ON)
    assert "until Sunday 11 January 2026: The table of 5 comes first. It stands on: The table of 10." in told
    first = [one["card"] for one in of(sit(tables, DAY), "problem")]
    assert first[0].startswith("product:")
    assert "First this week" in says(tables, "warmup", "Mira", "--explain", *ON)
    assert row(tables, "focus", "--on", "2026-01-11")[0]["skill"] == "table-of-5"
    assert row(tables, "focus", "--on", "2026-01-12")[0]["skill"] is None
    assert "First this week" not in says(tables, "warmup", "Mira", "--explain", "--on", "2026-01-12")


def test_on_a_sunday_it_is_for_the_week_that_comes(tables: Review) -> None:
    told = row(tables, "focus", "table-of-5", "Mira", "--on", "2026-01-11")
    assert told[0]["until"] == "2026-01-18"


def test_it_is_taken_off_again(tables: Review) -> None:
    says(tables, "focus", "table-of-5", "Mira", *ON)
    assert "no focus any more" in says(tables, "focus", "--off", "Mira", *ON)
    assert tables("focus", "--off", "Mira", *ON).code == 1


def test_what_comes_first_for_one_child_or_for_all(tables: Review) -> None:
    says(tables, "focus", "table-of-5", "Mira", *ON)
    assert [one["child"] for one in row(tables, "focus", *ON)] == ["Mira", "Jonah"]
    assert [one["skill"] for one in row(tables, "focus", "mira", *ON)] == ["table-of-5"]
    assert says(tables, "focus", "Jo", *ON) == "Jonah: no focus this week. review focus SKILL Jonah"
    done = tables("focus", "table-of-5", *ON)
    assert (done.code, "Mira or Jonah" in done.err) == (1, True)


def test_with_one_child_a_skill_goes_before_a_name(review: Review) -> None:
    says(review, "child", "add", "Tabby", "--age", "8", *ON)
    says(review, "set", "add", "times-2-5-10", "Tabby", *ON)
    assert "no focus this week" in says(review, "focus", "tabb", *ON)
    assert row(review, "focus", "table-of-2", *ON)[0]["skill"] == "table-of-2"


def test_what_was_not_taught_is_left_out_and_said_so(tables: Review) -> None:
    assert "review taught table-of-10 Mira" in says(tables, "focus", "table-of-5", "Mira", *ON)
    assert row(tables, "focus", *ON)[0]["untaught"] == ["table-of-10", "table-of-5"]


def test_a_focus_is_one_skill(tables: Review) -> None:
    done = tables("focus", "times-2-5-10", "Mira", *ON)
    assert (done.code, "table-of-2" in done.err) == (1, True)


def test_a_dropped_set_takes_its_focus_along(tables: Review) -> None:
    says(tables, "focus", "table-of-5", "Mira", *ON)
    says(tables, "set", "drop", "times-2-5-10", "Mira", *ON)
    assert row(tables, "focus", *ON)[0]["skill"] is None
    assert sit(tables, DAY)


# --- what to teach, and a brief -------------------------------------------------------------------------

LESSON_KEYS = ["child", "skill", "title", "set", "why", "cards", "stands_on", "known", "of", "begin_with"]
BRIEF_KEYS = [
    "child", "age", "minutes", "day", "weeks", "days", "first_tries", "right", "met", "skills", "taught",
    "states", "stuck", "ready", "faded", "at_the_table", "focus", "too_much", "pace",
]  # fmt: skip


def test_the_keys_of_json_are_a_promise(tables: Review) -> None:
    assert {tuple(one) for one in row(tables, "teach", *ON)} == {tuple(LESSON_KEYS)}
    assert {tuple(one) for one in row(tables, "brief", *ON)} == {tuple(BRIEF_KEYS)}


def test_the_teach_list_gives_reasons(tables: Review) -> None:
    told = says(tables, "teach", "Mira", *ON)
    assert "Ready to teach:" in told
    assert "The table of 2. Taught? review taught table-of-2 Mira" in told
    says(tables, "taught", "table-of-10", "Mira", *ON)
    told = says(tables, "teach", "Mira", *ON)
    assert "Wait with these: what they stand on is not known yet: The table of 5." in told


def test_a_brief_has_twelve_lines_that_do_not_wrap(tables: Review) -> None:
    finish(tables, DAY)
    lines = tables("brief", "Mira", *ON).out.splitlines()
    assert len(lines) == 12
    assert max(map(len, lines)) <= 78
    assert "practised on 1 day." in lines[1]


def test_after_six_weeks_off_every_report_tells_when_practice_ended(tables: Review) -> None:
    finish(tables, DAY)
    ended, soon, later = "6 January 2026", ("--on", "2026-01-08"), ("--on", "2026-02-17")
    lines = tables("brief", "Mira", *later).out.splitlines()
    assert lines[1] == f"In 4 weeks: practised on 0 days. The last on {ended}."
    assert max(map(len, lines)) <= 78
    assert f"The last was on {ended}." in says(tables, "progress", "Mira", *later)
    assert f"Last practised on {ended}; all this is" in says(tables, "overdue", "Mira", *later)
    told = " ".join(says(tables, name, "Mira", *soon) for name in ("brief", "progress", "overdue"))
    assert "he last " not in told.replace("in the last 7 days", "")
    assert "Last practised" not in told


def test_a_brief_without_a_name_has_none(tables: Review) -> None:
    finish(tables, DAY)
    assert "Mira" not in tables("brief", "Mira", "--no-name", *ON).out
    assert row(tables, "brief", "Mira", "--no-name", *ON)[0]["child"] is None


def test_a_brief_of_one_week_counts_no_other(tables: Review) -> None:
    """An adviser who is called each week asks for the week, and not for the month again."""
    finish(tables, DAY)
    far, near = ("--on", "2026-01-13"), ("--on", "2026-01-12")
    month, week, last = (
        row(tables, "brief", "Mira", *when)[0]
        for when in (far, (*far, "--weeks", "1"), (*near, "--weeks", "1"))
    )
    told = ("weeks", "days", "first_tries", "met")
    assert [week[key] for key in told] == [1, 0, 0, 0]
    assert [last[key] for key in told[1:]] == [month[key] for key in told[1:]] != [0, 0, 0]
    assert (week["states"], week["stuck"]) == (month["states"], month["stuck"])
    lines = tables("brief", "Mira", "--weeks", "1", *near).out.splitlines()
    assert lines[1].startswith("In 1 week: practised on 1 day.")
    assert lines[5].startswith("Met for the first time in 1 week: ")
    for wrong in ("0", "13", "x"):
        assert tables("brief", "Mira", "--weeks", wrong, *near).code == 2


def test_a_brief_tells_the_pace_that_was_chosen(tables: Review) -> None:
    assert row(tables, "brief", "Mira", *ON)[0]["pace"] is None
    assert "as chosen" not in tables("brief", "Mira", *ON).out
    says(tables, "child", "edit", "Mira", "--pace", "2", *ON)
    assert row(tables, "brief", "Mira", *ON)[0]["pace"] == 2
    lines = tables("brief", "Mira", *ON).out.splitlines()
    assert lines[5].endswith("New cards a day, as chosen: 2.")
    assert (len(lines), max(map(len, lines)) <= 78) == (12, True)


def test_an_empty_book_and_a_child_without_sets(family: Review, review: Review) -> None:
    assert len(family("brief", "Jonah", *ON).out.splitlines()) == 12
    told = says(family, "teach", "Jonah", *ON)
    assert "Jonah: no skill set yet" in told
    assert "review set pick Jonah" in told
    assert "review set list, then review set add SET Jonah" in told
    for command in (("focus", "sums"), ("known", "sums"), ("known", "--card", "2x3")):
        assert "no skill set yet" in family(*command, "Jonah", *ON).err


def test_days_off_that_overlap_are_told_as_one(family: Review) -> None:
    for first, last in (
        ("2026-01-10", "2026-01-14"),
        ("2026-01-12", "2026-01-18"),
        ("2026-01-19", "2026-01-20"),
    ):
        says(family, "away", "--from", first, "--to", last, "Mira", *ON)
    assert row(family, "away", *ON)[0]["away"] == [{"from": "2026-01-10", "to": "2026-01-20"}]


def test_days_off_that_are_over_are_not_told_ahead(family: Review) -> None:
    done = family("away", "--from", "2026-01-01", "--to", "2026-01-02", "Mira", *ON)
    assert (done.code, done.out) == (1, "")
    assert done.err.startswith("2 January 2026 is over.")


def test_where_there_are_more_lessons_it_is_said_how_to_see_them(tables: Review) -> None:
    says(tables, "set", "add", "coins-pounds", "Mira", *ON)
    says(tables, "set", "add", "fractions-parts", "Mira", *ON)
    told = says(tables, "teach", "Mira", *ON)
    assert ": review teach Mira --all" in told
    every = says(tables, "teach", "Mira", "--all", *ON)
    assert "--all" not in every
    assert len(every) > len(told)
