"""What a parent says was taught: that it was, that it was not after all, and whether its time counts."""

import pytest

from review.core.model import SkillSet
from tests.cli.conftest import Review
from tests.cli.said import ON, row, says

# --- time that may count, and time that never does ------------------------------------------------------


@pytest.mark.parametrize(
    ("skill", "promised"),
    [("table-of-5", "Answers are asked from memory from now on."), ("odd-even-to-20", "Time does not count")],
)
def test_timing_is_promised_only_where_time_may_count(tables: Review, skill: str, promised: str) -> None:
    says(tables, "set", "add", "odd-even", "Mira", "--taught", *ON)
    assert promised in says(tables, "taught", skill, "Mira", "--timed", *ON)


def test_fluency_is_not_given_to_answers_that_can_be_guessed(tables: Review) -> None:
    told = says(tables, "set", "add", "place-value-to-99", "Mira", "--aim", "fluency", "--taught", *ON)
    assert "knowing and guessing look alike, so here right is enough: Which is greater, to 99." in told
    plain = says(tables, "set", "add", "place-value-to-99", "Mira", "--aim", "familiarity", *ON)
    assert "guessing" not in plain


# --- taught, and not after all --------------------------------------------------------------------------


def test_what_was_taught_already_is_not_told_as_new(tables: Review) -> None:
    new = says(tables, "taught", "table-of-2", "Mira", *ON)
    assert new.startswith("Taught to Mira: The table of 2. Its cards come with the next warm-up")
    again = says(tables, "taught", "table-of-2", "Mira", "--timed", *ON)
    assert again.startswith(
        "Taught to Mira already: The table of 2. Answers are asked from memory from now on."
    )
    assert "review warmup Mira --explain" in again
    some = says(tables, "taught", "times-2-5-10", "Mira", *ON)
    assert "Taught to Mira: The table of 10; The table of 5. Taught already: The table of 2. " in some


def test_taught_is_taken_back_for_one_skill_and_kept_for_the_others(tables: Review) -> None:
    says(tables, "taught", "times-2-5-10", "Mira", "--timed", *ON)
    told = says(tables, "taught", "table-of-5", "--not", "Mira", *ON)
    assert "Not taught to Mira yet: The table of 5." in told
    mira = next(one for one in row(tables, "child", "list") if one["name"] == "Mira")
    assert {"table-of-2", "table-of-10"} <= set(mira["taught"])
    assert "table-of-5" not in mira["taught"]
    assert "table-of-5" in {one["skill"] for one in row(tables, "teach", "Mira", *ON)}
    done = tables("taught", "table-of-5", "--not", "Mira", *ON)
    assert (done.code, "Nobody said that The table of 5 was taught to Mira" in done.err) == (1, True)
    assert tables("taught", "table-of-5", "--not", "--timed", "Mira", *ON).code == 2
    assert says(tables, "verify").startswith("The book is sound.")


def test_no_card_comes_of_what_was_not_taught_after_all(tables: Review) -> None:
    says(tables, "taught", "table-of-2", "Mira", *ON)
    says(tables, "taught", "table-of-2", "--not", "Mira", *ON)
    cards = {one["card"] for one in row(tables, "warmup", "Mira", "--explain", *ON)}
    assert cards
    assert not [card for card in cards if card.startswith("product")]


def test_a_set_that_comes_back_knows_what_was_taught(tables: Review) -> None:
    says(tables, "taught", "table-of-2", "Mira", *ON)
    told = says(tables, "set", "drop", "times-2-5-10", "Mira", *ON)
    assert "To have it back: review set add times-2-5-10 Mira" in told
    told = says(tables, "set", "add", "times-2-5-10", "Mira", *ON)
    assert "Taught already: table-of-2." in told
    assert "no card comes" not in told


def test_of_a_set_that_comes_back_only_the_rest_is_asked(
    tables: Review, monkeypatch: pytest.MonkeyPatch
) -> None:
    says(tables, "taught", "table-of-2", "Mira", *ON)
    asked: list[list[str]] = []

    def asks(found: SkillSet) -> list[str]:
        asked.append([skill.id for skill in found.skills])
        return ["table-of-5"]

    monkeypatch.setattr("review.cli.sets.none_taught", asks)
    for taught in (["table-of-10", "table-of-5"], ["table-of-10"]):
        says(tables, "set", "drop", "times-2-5-10", "Mira", *ON)
        says(tables, "set", "add", "times-2-5-10", "Mira", *ON)
        assert sorted(asked.pop()) == taught
    says(tables, "taught", "table-of-10", "Mira", *ON)
    says(tables, "set", "drop", "times-2-5-10", "Mira", *ON)
    told = says(tables, "set", "add", "times-2-5-10", "Mira", *ON)
    assert asked == []
    assert "Taught already: table-of-2, table-of-10 and table-of-5." in told


def test_where_nobody_can_be_asked_what_is_untaught_is_named(tables: Review) -> None:
    left = "Not taught yet: table-of-2, table-of-10 and table-of-5. When"
    assert left in says(tables, "set", "add", "times-2-5-10", "Mira", *ON)
    says(tables, "taught", "table-of-10", "Mira", *ON)
    told = says(tables, "set", "add", "times-2-5-10", "Mira", *ON)
    assert "Taught already: table-of-10. Not taught yet: table-of-2 and table-of-5. Start" in told
    assert "Not taught" not in says(tables, "set", "add", "times-2-5-10", "Mira", "--taught", *ON)
