"""Whose school years the family reads: chosen once, kept with every child, seen by no child."""

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Review
from tests.cli.test_start_up import whole

DAY = ("--on", "2026-01-06")


def choose(family: Review, country: str) -> None:
    assert family("set", "years", country, *DAY).code == 0


def test_without_a_choice_sets_go_by_ages(review: Review) -> None:
    told = review("set", "years")
    assert (told.code, told.err) == (0, "")
    assert "by the ages they are for" in told.out
    assert "review set years england or us" in told.out
    assert "addition-facts-10: Addition facts to 10. Ages 6 to 7, 5 skills." in review("set", "list").out


def test_a_choice_needs_a_child_to_be_kept_with(review: Review, tmp_path: Path) -> None:
    done = review("set", "years", "england")
    assert done.code == 1
    assert "no record book" in done.err
    assert not (tmp_path / "family.book").exists()


def test_another_country_is_refused_in_a_sentence(family: Review) -> None:
    done = family("set", "years", "atlantis")
    assert done.code == 2
    assert "'england', 'us', 'ages'" in done.err


@pytest.mark.parametrize(
    ("country", "begins", "shown"),
    [
        ("england", "Year 1, ages 5 to 6\n", "Year 2, ages 6 to 7. 26 cards."),
        ("US", "Kindergarten, ages 5 to 6\n", "Grade 3, ages 8 to 9. 26 cards."),
    ],
)
def test_a_choice_orders_the_list_and_labels_a_set(
    family: Review, country: str, begins: str, shown: str
) -> None:
    choose(family, country)
    listed = family("set", "list").out
    assert listed.startswith(begins)
    assert shown in family("set", "show", "times-2-5-10").out
    by_ages = {row["set"] for row in json.loads(family("set", "list", "--json").out)}
    below = [line.strip().partition(":")[0] for line in listed.splitlines() if line.startswith("  ")]
    assert by_ages <= {*below}
    choose(family, "ages")
    assert "Ages 6 to 8. 26 cards." in family("set", "show", "times-2-5-10").out


def test_json_tells_the_years_of_both_countries_whatever_is_chosen(family: Review) -> None:
    before = family("set", "list", "--json").out
    choose(family, "us")
    assert family("set", "list", "--json").out == before
    years = {row["set"]: row["years"] for row in json.loads(before)}
    assert years["addition-facts-10"] == {"england": [1, 1], "us": [0, 1]}
    assert years["roman-to-100"] == {"england": [4, 4], "us": None}
    assert json.loads(family("set", "show", "roman-to-100", "--json").out)["years"] == years["roman-to-100"]


def test_a_child_who_comes_later_reads_what_the_family_chose(family: Review) -> None:
    """Kept with every child: each takes it along where the others are forgotten."""
    from review import config, gather
    from review.app import profiles

    choose(family, "england")
    assert family("child", "add", "Nuri", "--age", "6", *DAY).code == 0
    outside = gather.Outside(config.book_path(None), config.state_folder(), 0)
    assert [child.years for child in profiles.list_children(outside)] == ["england"] * 3
    assert family("verify").code == 0


def test_the_list_is_there_beside_a_book_in_trouble(review: Review, tmp_path: Path) -> None:
    (tmp_path / "family.book").write_text("no book of ours")
    done = review("set", "list")
    assert (done.code, done.err) == (0, "")
    assert review("set", "years", "us").code == 3


def test_a_child_sees_nothing_of_it(family: Review) -> None:
    at = ("warmup", "Mira", *DAY, "--try")
    before = family(*at, typed="1\n" * 60).out
    choose(family, "us")
    assert family(*at, typed="1\n" * 60).out == before
    assert before


def test_looking_at_the_list_imports_no_kind(family: Review) -> None:
    choose(family, "england")
    found = whole(["set", "list"])
    assert not {"rich", "tomllib", "fsrs"} & found
    ours = {name for name in found if name.startswith("review.core.skills")}
    no_kinds = {f"review.core.skills.{name}" for name in ("kinds", "strategies", "picture_rooms")}
    assert ours <= {"review.core.skills", *no_kinds}
