"""The first run: a few keys to a child's first warm-up, with nothing kept before all is asked."""

import io
import json
import sys
from pathlib import Path

import pytest

from review import catalogue
from review.app import sittings
from review.cli.set_up import FEW, STRANDS, asked_home, asked_picks, behind, nearest, offered, picked_sets
from review.cli.sets import asked_taught
from review.core.homes import HOMES, Home
from review.core.school_years import COUNTRIES, ages_in, is_over, years
from tests.cli.conftest import Review

KEYS = 10  # besides the name, to the first problem (our judgement)
ENGLAND, _, STATES, EUROS, ELSEWHERE = HOMES


def says(typed: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO(typed))


@pytest.fixture
def first(review: Review, monkeypatch: pytest.MonkeyPatch) -> Review:
    """Bare `review` where it takes what is typed for a terminal's; the sitting itself is left out."""
    from review.cli import front_door

    monkeypatch.setenv("LC_ALL", "en_GB.UTF-8")
    monkeypatch.setattr(front_door, "is_terminal", lambda: True)
    monkeypatch.setattr(sittings, "warmup", lambda outside, name, *rest: print(f"BEGINS {name}"))
    return review


def test_a_name_an_age_and_two_enters_lead_to_the_first_warm_up(first: Review) -> None:
    typed = "7\n\n\n"
    done = first(typed=f"Mira\n{typed}")
    assert (done.code, done.err) == (0, "")
    assert len(typed) < KEYS
    assert "BEGINS Mira" in done.out
    assert "1  Adding and taking away: Addition facts to 10\n" in done.out
    assert "2  Multiplying and dividing: nothing yet\n" in done.out
    kept = json.loads(first("child", "show", "Mira", "--json").out)
    assert kept["sets"][:2] == ["Addition facts to 10", "Dots at a glance, to 10"]
    assert len(kept["taught"]) > len(kept["sets"])
    assert "years of England" in first("set", "years").out
    assert "pay in pounds" in first("set", "money").out


@pytest.mark.parametrize(("home", "subject"), [("1", "maths"), ("3", "math"), ("4", "maths")])
def test_the_subject_is_called_as_it_is_where_one_lives(first: Review, home: str, subject: str) -> None:
    first(typed=f"Mira\n7\n{home}\n\n")
    assert f"The subject: {subject}." in first("words").out


def test_a_number_changes_its_part_and_enter_leaves_it_out(first: Review) -> None:
    done = first(typed="Mira\n7\n\n1 2\n\n1\n\n")
    assert "1  Adding and taking away: nothing yet\n" in done.out
    assert "2  Multiplying and dividing: Tables of 2, 5 and 10\n" in done.out
    kept = json.loads(first("child", "show", "Mira", "--json").out)
    assert kept["sets"][:2] == ["Tables of 2, 5 and 10", "Dots at a glance, to 10"]
    assert len(kept["sets"]) == 4


def test_a_part_takes_several_sets(first: Review) -> None:
    done = first(typed="Mira\n9\n\n2\n1, 2\n\n")
    assert "2  Multiplying and dividing: Tables of 2, 5 and 10; Tables of 3, 4 and 8\n" in done.out
    kept = json.loads(first("child", "show", "Mira", "--json").out)["sets"]
    assert {"Tables of 2, 5 and 10", "Tables of 3, 4 and 8"} <= {*kept}


def test_who_stops_on_the_way_is_asked_again(first: Review, tmp_path: Path) -> None:
    done = first(typed="Mira\n7\n")
    assert (done.code, done.err) == (130, "Stopped. Nothing is kept yet. To begin again: review\n")
    done = first("--book", "other.book", typed="Mira\n7\n")
    assert done.err.endswith("To begin again: review --book other.book\n")
    assert not (tmp_path / "family.book").exists()


@pytest.mark.parametrize(
    "typed",
    [
        "Mria\nback\nMira\n7\n\n\n",
        "Mira\n6\n Back \n7\n\n\n",
        "Mria\n6\nBACK\nback\nMira\n7\n\n\n",
        "Mira\n7\n3\nback\n1\n\n",
        "Mira\n7\n\n1\nback\n\n",
    ],
)
def test_back_leads_to_the_question_before(first: Review, typed: str) -> None:
    """At the name, the age, where one lives, the list, and a part of it, which stays as it was."""
    done = first(typed=typed)
    assert done.code == 0
    assert "type back." in done.out
    assert "BEGINS Mira" in done.out
    assert first("child", "list").out.startswith("Mira: 7 years old")
    kept = json.loads(first("child", "show", "Mira", "--json").out)["sets"]
    assert kept[:2] == ["Addition facts to 10", "Dots at a glance, to 10"]
    assert "pay in pounds" in first("set", "money").out


def test_where_nothing_was_asked_before_the_same_is_asked_again(first: Review) -> None:
    assert "BEGINS Back" in first(typed="Back\n7\n\n\n").out
    first("child", "add", "Nuri", "--age", "8")
    done = first("set", "pick", "Nuri", typed="back\n\n")
    assert done.out.count("What has been taught already?") == 2
    assert "Start: review warmup Nuri" in done.out


def test_with_nothing_taught_the_child_is_kept_and_the_next_step_told(first: Review) -> None:
    done = first(typed="Mira\n6\n\n1 3 6 8\n\n\n\n\n\n")
    assert done.code == 0
    assert "BEGINS" not in done.out
    assert "Give one: review set add SET Mira" in done.out
    assert "Mira: no skill set yet" in first("overdue").out


def test_a_mistake_is_asked_again_with_nothing_kept(first: Review) -> None:
    done = first(typed="Mira\n77\nMira\n7\n9\n1\nx\n\n")
    assert "Write the age in whole years" in done.out
    assert "Type one number from 1 to 5" in done.out
    assert "Type numbers from 1 to 8" in done.out
    assert "BEGINS Mira" in done.out


def test_another_child_gets_the_same_list_without_what_is_there(first: Review) -> None:
    first(typed="Mira\n7\n\n\n")
    assert first("child", "add", "Nuri", "--age", "8").code == 0
    done = first("set", "pick", "Nuri", typed="\n")
    assert (done.code, done.err) == (0, "")
    assert "2  Multiplying and dividing: Tables of 2, 5 and 10\n" in done.out  # by the years of England
    assert "Start: review warmup Nuri" in done.out
    assert len(json.loads(first("child", "show", "Nuri", "--json").out)["sets"]) > 3
    again = first("set", "pick", "Nuri", typed="\n").out
    assert "Tables of 2, 5 and 10" not in again
    assert "which child" in first("set", "pick", typed="\n").err.casefold()


def test_nothing_is_given_where_nothing_is_typed(first: Review) -> None:
    first(typed="Mira\n7\n\n\n")
    first("child", "add", "Nuri", "--age", "8")
    done = first("set", "pick", "Nuri")
    assert (done.code, "nothing was given" in done.err) == (1, True)
    assert json.loads(first("child", "show", "Nuri", "--json").out)["sets"] == []


# --- where you live ------------------------------------------------------------------------------------


def test_where_one_lives_is_asked_once_and_the_computer_suggests_it(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    says("\n", monkeypatch)
    assert asked_home(STATES) == STATES
    assert "Enter for 3" in capsys.readouterr().out
    says("6\n1 2\n4\n", monkeypatch)
    assert asked_home(STATES) == EUROS
    assert capsys.readouterr().out.count("Type one number from 1 to 5") == 2


@pytest.mark.parametrize("age", [4, 5])
@pytest.mark.parametrize("place", range(1, len(HOMES) + 1))
def test_a_child_younger_than_the_sets_begin_gets_what_comes_first(
    first: Review, age: int, place: int
) -> None:
    done = first(typed=f"Uma\n{age}\n{place}\n\n")
    assert "The sets begin at 6, with these:\n  1  Adding and taking away: " in done.out
    assert "BEGINS Uma" in done.out
    kept = json.loads(first("child", "show", "Uma", "--json").out)
    assert kept["sets"] == ["Number bonds to 10", "Dots at a glance, to 10"]


def test_who_has_every_set_of_the_list_is_told_so(first: Review) -> None:
    first("child", "add", "Uma", "--age", "4")
    every = {found.id for one in STRANDS for found in offered(one.kinds, 6, always=one.ladder)}
    for name in every:
        first("set", "add", name, "Uma")
    done = first("set", "pick", "Uma", typed="\n")
    assert done.out == "Uma has every set of this list. All sets: review set list\n"


# --- what is offered -----------------------------------------------------------------------------------


def test_every_rung_is_a_set_of_its_strand_easier_ones_first() -> None:
    for strand in STRANDS:
        rungs = [catalogue.shipped(name) for name in strand.ladder]
        assert all(found.skills[0].kind in strand.kinds for found in rungs)
        assert [found.ages for found in rungs] == sorted(found.ages for found in rungs)


@pytest.mark.parametrize("home", HOMES)
@pytest.mark.parametrize("age", range(4, 15))
def test_only_what_is_past_is_behind(age: int, home: object) -> None:
    assert isinstance(home, type(ENGLAND))
    for strand in STRANDS:
        found = behind(strand, offered(strand.kinds, age, home.years, strand.ladder), age, home)
        assert all(is_over(one.standards, one.ages, home.years, max(age, 7)) for one in found)


@pytest.mark.parametrize("home", HOMES)
def test_under_seven_only_what_every_country_teaches_first_is_behind(
    home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A child who has just turned six has had the year before school, and in some countries no school yet."""
    for age in (4, 5, 6):
        says("\n", monkeypatch)
        picks = asked_picks(age, home)
        assert {found.id for sets in picks.values() for found in sets} == {"number-bonds-10", "dots-to-10"}


@pytest.mark.parametrize("home", HOMES)
def test_an_older_child_has_no_less_behind_in_any_part(home: Home, monkeypatch: pytest.MonkeyPatch) -> None:
    rungs = {one.title: ("", *one.ladder) for one in STRANDS}
    highest = dict.fromkeys(rungs, 0)
    for age in range(4, 15):
        says("\n", monkeypatch)
        for title, found in asked_picks(age, home).items():
            rung = rungs[title].index(found[0].id if found else "")
            assert rung >= highest[title], (age, title)
            highest[title] = rung


@pytest.mark.parametrize("home", [home for home in HOMES if home.years == "ages"])
@pytest.mark.parametrize("age", range(7, 12))
def test_by_ages_nothing_is_likely_that_no_country_has_behind_it(
    age: int, home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    says("\n", monkeypatch)
    for found in (one for sets in asked_picks(age, home).values() for one in sets):
        spans = [years(found.standards, country) for country in COUNTRIES]
        ends = [ages_in(span, country).last for span, country in zip(spans, COUNTRIES, strict=False) if span]
        assert not ends or min(ends) < age, found


def test_the_next_rung_comes_with_the_years_of_the_country() -> None:
    """The tables of 2, 5 and 10 stand in year 2 of England (6 to 7) and in grade 3 of the US (8 to 9)."""
    tables = STRANDS[1]

    def at(age: int, home: object) -> str:
        assert isinstance(home, type(ENGLAND))
        found = behind(tables, offered(tables.kinds, age, home.years), age, home)
        return found[-1].id if found else ""

    assert [at(age, ENGLAND) for age in (7, 8, 9, 10)] == ["", "times-2-5-10", "times-3-4-8", "times-6-7-9"]
    assert [at(age, STATES) for age in (8, 9, 10)] == ["", "", "times-6-7-9"]
    assert [at(age, ELSEWHERE) for age in (7, 8, 9)] == ["", "times-2-5-10", "times-3-4-8"]


def test_of_other_money_nothing_is_offered_before_more_is_asked_for(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    sets = offered(STRANDS[5].kinds, 7)
    says("\n", monkeypatch)
    picked_sets("Money", sets, 7, ENGLAND)
    told = capsys.readouterr().out
    assert "pence" in told
    assert "cents" not in told
    says("more\n\n", monkeypatch)
    picked_sets("Money", sets, 7, ENGLAND)
    assert {"cents", "euro"} <= {*capsys.readouterr().out.replace(":", " ").split()}


def test_parts_of_which_a_child_has_every_set_are_not_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    had = frozenset(found.id for found in offered(STRANDS[0].kinds, 7))
    says("\n", monkeypatch)
    assert STRANDS[0].title not in asked_picks(7, ENGLAND, had)
    says("\n", monkeypatch)
    assert [*asked_picks(7, ENGLAND)] == [strand.title for strand in STRANDS]


def test_below_what_a_child_has_nothing_is_suggested(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    adding, tables = (strand.title for strand in STRANDS[:2])
    says("\n", monkeypatch)
    picks = asked_picks(9, ENGLAND, frozenset({"addition-facts-20", "times-2-5-10"}))
    assert not picks[adding]
    assert picks[tables] == [catalogue.shipped("times-3-4-8")]
    assert f"{adding}: nothing more" in capsys.readouterr().out


@pytest.mark.parametrize("age", [10, 11, 14])
def test_the_end_of_a_ladder_is_likely_for_every_older_child(
    age: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    says("\n", monkeypatch)
    picks = asked_picks(age, ENGLAND)
    assert len(picks) == len(STRANDS)
    assert [found.id for found in picks[STRANDS[0].title]] == ["addition-facts-20"]


def test_a_long_list_begins_with_what_is_made_for_that_age_and_the_rest_is_a_word_away(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    sets = offered(frozenset({"sum", "difference", "bond", "double", "half"}), 7)
    near = nearest(sets, 7)
    assert len(near) == FEW < len(sets) - 1
    assert max(abs(sum(one.ages) - 14) for one in near) <= min(
        abs(sum(one.ages) - 14) for one in sets if one not in near
    )
    monkeypatch.setattr(sys, "stdin", io.StringIO("2 1\n13\nmore\n13\n"))
    assert picked_sets("Adding", sets, 7) == [near[0], near[1]]
    assert picked_sets("Adding", sets, 7) == [sets[12]]
    told = capsys.readouterr().out
    assert "Type numbers from 1 to 5, like 1 2, “more”, or only Enter." in told
    assert told.count(sets[12].title) == 1 + 2 * (sets[12] in near)


def test_of_one_set_only_its_number_is_asked_for(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (one, *_) = offered(frozenset({"product"}), 7)
    monkeypatch.setattr(sys, "stdin", io.StringIO("2\n1\n"))
    assert picked_sets("Tables", [one], 7) == [one]
    assert "Type 1, or only Enter.\n" in capsys.readouterr().out
    monkeypatch.setattr(sys, "stdin", io.StringIO("2\n1\n"))
    assert asked_taught(one._replace(skills=one.skills[:1])) == [one.skills[0].id]
    assert "Type 1, or all, or only Enter.\n" in capsys.readouterr().out


def test_a_short_list_is_shown_whole(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    sets = offered(frozenset({"product", "quotient"}), 7)
    monkeypatch.setattr(sys, "stdin", io.StringIO("more\n\n"))
    assert nearest(sets, 7) == sets
    assert picked_sets("Tables", sets, 7) == []
    assert "more" not in capsys.readouterr().out


def test_the_same_sets_are_offered_in_the_order_of_the_years() -> None:
    kinds = frozenset({"product", "quotient"})
    by_age, by_year = offered(kinds, 9), offered(kinds, 9, "us")
    assert {found.id for found in by_age} == {found.id for found in by_year}
    assert [found.ages for found in by_age] == sorted(found.ages for found in by_age)
    assert by_age != by_year
