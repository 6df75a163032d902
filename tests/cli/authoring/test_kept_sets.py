"""A set of a family's own that was given once is kept in the book, and found there by its name."""

import json
from pathlib import Path

import pytest

from review import catalogue, gather
from review.book import store
from review.config import state_folder
from review.core.model import Draft
from review.render import set_lines
from tests.cli.authoring.pieces import HEAD, PAIRS, TEMPLATE, given, mend
from tests.cli.conftest import Review

DOGS = HEAD + PAIRS.format(what='pairs = [["Who barks?", "dog"], ["Who mews?", "cat"]]')
COWS = HEAD + PAIRS.format(what='pairs = [["Who lows?", "cow"]]')


@pytest.fixture
def kept(review: Review, folder: Path) -> Review:
    """Mira has a set of the family's own, and its file is gone. Jonah has none."""
    write(DOGS)
    given(review, "ours.toml")
    review("child", "add", "Jonah", "--age", "9", "--on", "2026-01-05")
    Path("ours.toml").unlink()
    return review


def write(text: str) -> None:
    Path("ours.toml").write_text(text, encoding="utf-8")


def cards(review: Review, name: str) -> int:
    told = review("set", "show", name, "--json")
    assert told.code == 0, told.err
    return int(json.loads(told.out)["cards"])


def test_the_command_that_gives_a_dropped_set_back_does(kept: Review) -> None:
    dropped = kept("set", "drop", "our-words", "Mira", "--on", "2026-01-06").out
    assert "To have it back: review set add our-words Mira\n" in dropped
    back = kept("set", "add", "our-words", "Mira", "--on", "2026-01-06")
    assert (back.code, back.err) == (0, "")
    assert back.out.startswith("Mira has our-words now: 2 cards, 1 skill.\nTaught already: animals.\n")
    assert kept("verify").code == 0


def test_it_is_shown_and_given_to_a_second_child_by_its_name_or_how_it_begins(kept: Review) -> None:
    shown = kept("set", "show", "our-words")
    assert (shown.code, shown.out.splitlines()[-1]) == (0, "Give it: review set add our-words CHILD")
    assert kept("set", "add", "our-w", "Jonah", "--on", "2026-01-05").code == 0
    assert kept("warmup", "Jonah", "--explain", "--on", "2026-01-05").code == 0


def test_a_file_that_is_shown_is_given_as_a_file(review: Review, folder: Path) -> None:
    write(DOGS)
    assert (
        review("set", "show", "ours.toml").out.splitlines()[-1] == "Give it: review set add ours.toml CHILD"
    )


def test_it_is_listed_below_the_shipped_ones(kept: Review) -> None:
    listed = "\nYour own\n  our-words: Our words. Ages 7 to 9, 1 skill.\n"
    assert listed in kept("set", "list").out
    kept("set", "years", "england", "--on", "2026-01-05")
    assert listed in kept("set", "list").out
    rows = json.loads(kept("set", "list", "--json").out)
    assert [row["set"] for row in rows][-1] == "our-words"
    assert len(rows) == len(catalogue.names()) + 1


def test_a_table_lists_it_as_well() -> None:
    own = [catalogue.head_of(catalogue.checked(DOGS, "ours.toml"))]
    assert set_lines.own_cells(own) == [("Your own", "", "", ""), ("our-words", "Our words", "7 to 9", "1")]
    groups = set_lines.by_year(catalogue.heads()[:1], own, "england")
    assert set_lines.year_cells(groups, "england")[-2:] == [
        ("Your own", "", ""),
        ("  our-words", "Our words", "ages 7 to 9"),
    ]
    assert set_lines.own_cells([]) == []


def test_the_newest_text_of_any_child_is_the_one_that_is_found(kept: Review) -> None:
    write(COWS)
    assert kept("set", "add", "ours.toml", "Jonah", "--on", "2026-01-06").code == 0
    Path("ours.toml").unlink()
    assert cards(kept, "our-words") == 1
    assert kept("child", "add", "Nuri", "--age", "8", "--on", "2026-01-06").code == 0
    assert "1 card," in kept("set", "add", "our-words", "Nuri", "--on", "2026-01-06").out


def test_a_child_has_back_what_that_child_had(kept: Review) -> None:
    write(COWS)
    kept("set", "add", "ours.toml", "Jonah", "--on", "2026-01-06")
    kept("set", "drop", "our-words", "Mira", "--on", "2026-01-06")
    assert "2 cards," in kept("set", "add", "our-words", "Mira", "--on", "2026-01-06").out


def test_a_file_of_the_same_name_is_meant_by_its_path(kept: Review) -> None:
    Path("our-words").write_text(COWS, encoding="utf-8")
    assert cards(kept, "our-words") == 2
    assert cards(kept, "./our-words") == 1
    write(COWS)
    assert cards(kept, "ours.toml") == 1


def test_a_whole_name_is_enough_though_shipped_ones_begin_so(kept: Review) -> None:
    write(DOGS.replace("our-words", "times"))
    assert kept("set", "add", "ours.toml", "Jonah", "--on", "2026-01-06").code == 0
    assert cards(kept, "times") == 2
    mend(kept("set", "show", "tim"), "could be", "times-2-5-10", "times.")


def test_a_shipped_set_comes_first(kept: Review, tmp_path: Path) -> None:
    """A later version may ship a name that a family has taken for its own."""
    text = DOGS.replace("our-words", "times-2-5-10")
    with store.open_book(tmp_path / "family.book", state_folder(), write=True) as book:
        mira, _ = gather.family_of(book)
        body: dict[str, object] = {"set": "times-2-5-10", "aim": "", "text": text}
        book.record([Draft(mira.key, "set_add", mira.last_day, 0, 0, "", body)], gather.remember())
    assert cards(kept, "times-2-5-10") == 26
    assert kept("set", "list").out.count("times-2-5-10") == 1
    assert "26 cards" in kept("set", "add", "times-2-5-10", "Jonah", "--on", "2026-01-06").out


def test_what_a_forgotten_child_had_is_gone(kept: Review) -> None:
    assert kept("child", "forget", "Mira", typed="Mira\n").code == 0
    mend(kept("set", "show", "our-words"), "There is no skill set called “our-words”")
    mend(kept("set", "add", "our-words", "Jonah"), "There is no skill set called “our-words”")
    assert "our-words" not in kept("set", "list").out


def test_a_word_mistyped_is_near_a_set_of_ones_own(kept: Review) -> None:
    mend(kept("set", "show", "our-wrods"), "Did you mean our-words?")


def test_slips_are_made_of_it(review: Review, folder: Path) -> None:
    write(HEAD + TEMPLATE + '[[skill]]\nid = "d"\ntitle = "D"\nkind = "double"\nnumbers = [2, 3]\n')
    given(review, "ours.toml")
    assert review("sheet", "--slips", "our-words", "--out", "slips.html").code == 0


def test_without_a_book_there_is_no_such_set(review: Review, folder: Path) -> None:
    mend(review("set", "show", "our-words"), "There is no skill set called “our-words”")
