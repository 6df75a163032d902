"""`review child edit`: what is kept of a child, changed from a day on."""

import json

import pytest

from tests.cli.conftest import Review


@pytest.fixture
def mira(review: Review) -> Review:
    assert review("child", "add", "Mira", "--age", "8", "--on", "2026-01-05").code == 0
    return review


def kept(review: Review) -> dict[str, object]:
    (row,) = json.loads(review("child", "list", "--json").out)
    return dict(row)


def test_only_what_is_given_changes(mira: Review) -> None:
    before = kept(mira)
    done = mira("child", "edit", "mira", "--minutes", "8", "--pace", "2", "--on", "2026-01-06")
    assert (done.code, done.err) == (0, "")
    assert done.out.startswith("Mira: 8 years old, 8 minutes a day, 2 new cards a day; time counts")
    after = kept(mira)
    assert (after["minutes"], after["pace"]) == (8, 2)
    assert after == {**before, "minutes": 8, "pace": 2}


@pytest.mark.parametrize(
    ("day", "age"), [("2020-01-06", 6), ("2020-12-31", 6), ("2021-01-07", 7), ("2024-02-01", 10)]
)
def test_an_age_goes_on_from_its_day_wherever_it_is_told(review: Review, day: str, age: int) -> None:
    assert review("child", "add", "Nuri", "--age", "6", "--on", "2020-01-06").code == 0
    on = ("--on", day)
    (row,) = json.loads(review("child", "list", "--json", *on).out)
    assert row["age"] == json.loads(review("child", "show", "--json", *on).out)["age"] == age
    assert review("child", "edit", "Nuri", "--minutes", "6", *on).out.startswith(f"Nuri: {age} years old")
    assert review("child", "edit", "Nuri", "--age", "5", *on).out.startswith("Nuri: 5 years old")


def test_the_pace_decides_how_many_new_cards_come(mira: Review) -> None:
    """Ten answers that are not known: as many are begun as the parent says, or as is usual at the age."""
    mira("set", "add", "addition-facts-10", "Mira", "--taught", "--on", "2026-01-05")
    mira("child", "edit", "Mira", "--pace", "1", "--on", "2026-01-05")
    asked = mira("warmup", "--explain", "--on", "2026-01-05").out
    assert "at most 1 that proves unknown is begun" in " ".join(asked.split())


def test_time_can_be_turned_off_and_on(mira: Review) -> None:
    off = mira("child", "edit", "Mira", "--untimed", "--on", "2026-01-06")
    assert "time is never judged by" in " ".join(off.out.split())
    on = mira("child", "edit", "Mira", "--timed", "--on", "2026-01-06")
    assert "time counts for skills you name" in " ".join(on.out.split())


@pytest.mark.parametrize("typed", ["Europe/London", "europe/london", "EUROPE/LONDON"])
def test_a_zone_is_kept_as_every_computer_knows_it(review: Review, mira: Review, typed: str) -> None:
    """Where a file's capitals make no difference, as on Windows and macOS, Python takes each of these."""
    assert mira("child", "edit", "Mira", "--zone", typed, "--on", "2026-01-06").code == 0
    assert kept(mira)["zone"] == "Europe/London"
    assert review("child", "add", "Ida", "--age", "8", "--zone", typed, "--on", "2026-01-06").code == 0
    assert [row["zone"] for row in json.loads(review("child", "list", "--json").out)] == ["Europe/London"] * 2


def test_a_way_is_liked_wherever_it_is_one_and_taken_back(mira: Review) -> None:
    done = mira("child", "edit", "Mira", "--likes", "bridging", "--on", "2026-01-06")
    assert "help goes by this: to the next ten first" in " ".join(done.out.split())
    kinds = ("sum", "bond", "difference", "mental-sum", "mental-difference")
    assert kept(mira)["likes"] == dict.fromkeys(kinds, "bridging")
    mira("child", "edit", "Mira", "--likes", "near-doubles", "--on", "2026-01-07")
    assert kept(mira)["likes"] == {
        **dict.fromkeys(("mental-sum", "mental-difference"), "bridging"),
        **dict.fromkeys(("sum", "bond", "difference", "double"), "near-doubles"),
    }
    back = mira("child", "edit", "Mira", "--likes", "none", "--on", "2026-01-08")
    assert back.code == 0
    assert "help goes by" not in back.out
    assert kept(mira)["likes"] == {}


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("Mira", "--likes", "brigding"), "no way of working out called “brigding”. Did you mean bridging?"),
        (("Mira", "--likes", "x"), "Write one of these: bridging, by-units, "),
        (("Mir", "--pace", "2"), "Write the whole name. There is Mira in the book."),
        (("Mira",), "Say what to change, like --minutes 8 or --pace 2."),
        (("Mira", "--pace", "21"), "Write the new cards a day, from 0 (by age) to 20: --pace 2"),
        (("Mira", "--age", "3"), "Write the age in whole years, from 4 to 14: --age 7"),
        (("Mira", "--minutes", "31"), "Write the minutes a day, from 1 to 30"),
        (("Mira", "--zone", "Mars/Base"), "Mars/Base"),
    ],
)
def test_what_cannot_be_is_told_in_a_sentence(mira: Review, arguments: tuple[str, ...], words: str) -> None:
    before = kept(mira)
    done = mira("child", "edit", *arguments, "--on", "2026-01-06")
    assert (done.code, done.out) == (1, "")
    assert words in " ".join(done.err.split())
    assert kept(mira) == before
