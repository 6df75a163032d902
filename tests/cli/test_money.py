"""Whose money and measures the lists show: chosen once, and nothing that a child has goes away."""

import json
from pathlib import Path

from tests.cli.conftest import Review

DAY = ("--on", "2026-01-06")


def listed(family: Review, *more: str) -> set[str]:
    out = family("set", "list", *more).out
    return {line.partition(":")[0].strip() for line in out.splitlines() if ": " in line}


def test_without_a_choice_every_set_is_listed(review: Review) -> None:
    assert "all money and measures" in review("set", "money").out
    told = review("set", "list").out
    assert all(f"coins-{money}:" in told for money in ("pounds", "dollars", "euros"))
    assert "--all" not in told


def test_a_choice_leaves_out_what_is_used_elsewhere(family: Review) -> None:
    every = listed(family)
    assert family("set", "money", "Dollars", *DAY).code == 0
    shown = listed(family)
    assert {"coins-dollars", "customary-us", "number-names-to-999-without-and", "thermometers"} <= shown
    assert not shown & {"coins-pounds", "coins-euros", "imperial-units", "number-names-to-999"}
    hidden = len(every - shown)
    assert f"{hidden} sets for other money and measures: review set list --all" in family("set", "list").out
    assert every <= listed(family, "--all")
    assert family("verify").code == 0


def test_under_school_years_too(family: Review) -> None:
    family("set", "years", "us", *DAY)
    family("set", "money", "dollars", *DAY)
    assert "coins-pounds" not in family("set", "list").out
    assert "coins-pounds" in family("set", "list", "--all").out


def test_what_a_child_has_stays_in_the_list_and_the_rest_can_be_given(family: Review) -> None:
    family("set", "money", "dollars", *DAY)
    assert family("set", "add", "coins-pounds", "Jonah", *DAY).code == 0
    assert "coins-pounds" in listed(family)
    assert "coins-euros" not in listed(family)
    assert family("set", "show", "coins-euros").code == 0


def test_json_lists_all_whatever_is_chosen(family: Review) -> None:
    before = family("set", "list", "--json").out
    family("set", "money", "euros", *DAY)
    assert family("set", "list", "--json").out == before


def test_it_is_kept_beside_the_words_and_told_to_a_child(family: Review) -> None:
    family("words", "--carry", "regroup", *DAY)
    family("set", "money", "euros", *DAY)
    family("words", "--maths", "math", *DAY)
    assert "pay in euros" in family("set", "money").out
    assert "Ten for one: regroup." in family("words").out
    assert "Your family's money: euros." in family("child", "show", "Mira").out
    assert family("child", "add", "Nuri", "--age", "6", *DAY).code == 0
    assert "Your family's money: euros." in family("child", "show", "Nuri").out
    family("set", "money", "all", *DAY)
    assert "coins-pounds" in listed(family)


def test_it_travels_with_an_export(family: Review, tmp_path: Path) -> None:
    family("set", "money", "euros", *DAY)
    assert family("export", str(tmp_path / "all.jsonl")).code == 0
    assert family("--book", str(tmp_path / "other.book"), "import", str(tmp_path / "all.jsonl")).code == 0
    assert "pay in euros" in family("--book", str(tmp_path / "other.book"), "set", "money").out


def test_a_choice_needs_a_child_to_be_kept_with(review: Review) -> None:
    done = review("set", "money", "pounds")
    assert done.code == 1
    assert "no record book" in done.err


def test_json_of_a_child_keeps_its_keys(family: Review) -> None:
    family("set", "money", "euros", *DAY)
    kept = json.loads(family("child", "show", "Mira", "--json").out)
    assert [*kept["words"]] == ["carry", "maths", "decimals", "times", "divide"]


def test_what_is_chosen_is_told_to_another_program(family: Review) -> None:
    """As `words --json` tells its own; these two had no --json at all."""
    day = ("--on", "2026-01-06")
    for words, before, choice in (("money", "all", "pounds"), ("years", "ages", "england")):
        assert json.loads(family("set", words, "--json").out) == {words: before}
        assert json.loads(family("set", words, choice, "--json", *day).out) == {words: choice}
        assert json.loads(family("set", words, "--json").out) == {words: choice}
