"""Sets that change over the years: the memory of every card whose content stands is kept."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from review import gather
from review.core.days import day_of
from review.gather import Outside
from tests.cli.authoring.pieces import HEAD, PAIRS, TEMPLATE, asked, given, mend
from tests.cli.conftest import Done, Review


def remembered(review: Review, tmp_path: Path, day: str) -> dict[str, int]:
    """Card -> the day it was first met, of every card the child has now."""
    outside = Outside(
        tmp_path / "family.book",
        tmp_path / "state",
        0,
        day_of(date.fromisoformat(day)),
    )
    with gather.reading(outside) as book:
        (child,) = gather.family_of(book)
        pupil = gather.pupil(book, child, gather.today(outside, child))
    return {
        card.key: pupil.memory[card.key].met_day if card.key in pupil.memory else 0 for card in pupil.cards
    }


def one_line(text: str) -> str:
    return " ".join(text.split())


OURS = HEAD + PAIRS.format(what='pairs = [["Who barks?", "dog"], ["Who mews?", "cat"]]') + TEMPLATE


def edited(review: Review, text: str, day: str = "2026-01-07") -> Done:
    Path("ours.toml").write_text(text, encoding="utf-8")
    return review("set", "add", "ours.toml", "Mira", "--taught", "--on", day)


EDITS: dict[str, tuple[Callable[[str], str], int, int]] = {  # what is changed; cards kept; cards new
    "nothing": (lambda text: text, 3, 0),
    "titles and spaces": (lambda text: text.replace("Animals", "Beasts").replace("a * b", "a*b"), 3, 0),
    "a skill is renamed": (
        lambda text: text.replace('"animals"', '"beasts"').replace('"areas"', '"fields"'),
        3,
        0,
    ),
    "a skill is lost": (lambda text: text.partition('\n[[skill]]\nid = "areas"')[0], 2, 0),
    "a skill is gained": (
        lambda text: text + '[[skill]]\nid = "d"\ntitle = "D"\nkind = "double"\nnumbers = [2, 3]\n',
        3,
        2,
    ),
    "skills change places": (
        lambda text: HEAD + TEMPLATE + text.removeprefix(HEAD).removesuffix(TEMPLATE),
        3,
        0,
    ),
    "a pair moves to a new skill": (
        lambda text: (
            text.replace(', ["Who mews?", "cat"]', "")
            + PAIRS.format(what='pairs = [["Who mews?", "cat"]]').replace("animals", "cats")
        ),
        3,
        0,
    ),
    "an answer is mended": (lambda text: text.replace('"dog"', '"hound"'), 2, 1),
    "a range is mended": (lambda text: text.replace("a = [2, 9]", "a = [2, 8]"), 2, 1),
    "the aim": (lambda text: text.replace('aim = "accuracy"', 'aim = "fluency"'), 3, 0),
}


@pytest.mark.parametrize("name", EDITS)
def test_an_edited_set_keeps_the_memory_of_what_stands(
    review: Review, folder: Path, tmp_path: Path, name: str
) -> None:
    Path("ours.toml").write_text(OURS, encoding="utf-8")
    given(review, "ours.toml")
    asked(review, "2026-01-06")
    before = remembered(review, tmp_path, "2026-01-06")
    assert len(before) == 3
    assert all(before.values())
    change, kept, new = EDITS[name]
    done = edited(review, change(OURS))
    assert done.code == 0, done.err
    after = remembered(review, tmp_path, "2026-01-07")
    assert sum(before.get(key) == day for key, day in after.items()) == kept
    assert sum(day == 0 for day in after.values()) == new
    assert len(after) == kept + new
    assert review("verify").code == 0


def test_two_sets_with_the_same_fact_share_it(review: Review, folder: Path, tmp_path: Path) -> None:
    Path("ours.toml").write_text(OURS, encoding="utf-8")
    given(review, "ours.toml")
    asked(review, "2026-01-06")
    other = HEAD.replace("our-words", "more-words") + PAIRS.format(
        what='pairs = [["Who barks?", "dog"], ["c", "d"]]'
    )
    Path("more.toml").write_text(other.replace('"animals"', '"again"'), encoding="utf-8")
    assert review("set", "add", "more.toml", "Mira", "--taught", "--on", "2026-01-07").code == 0
    after = remembered(review, tmp_path, "2026-01-07")
    assert len(after) == 4
    assert {key for key, day in after.items() if not day} == {"pairs:c=d"}


def test_a_card_of_two_sets_comes_by_either_word(review: Review, folder: Path) -> None:
    """The second set has nothing that the first has not; it alone is taught."""
    pairs = PAIRS.format(what='pairs = [["Who barks?", "dog"], ["Who mews?", "cat"]]')
    Path("ours.toml").write_text(HEAD + pairs, encoding="utf-8")
    again = HEAD.replace("our-words", "more-words") + pairs.replace('"animals"', '"again"')
    Path("more.toml").write_text(again, encoding="utf-8")
    day = ("--on", "2026-01-06")
    for words in (
        ("child", "add", "Mira", "--age", "8"),
        ("set", "add", "ours.toml", "Mira"),
        ("set", "add", "more.toml", "Mira"),
    ):
        assert review(*words, *day).code == 0
    mend(review("warmup", "Mira", "--jsonl", *day), "marked as taught yet")
    assert review("taught", "again", "Mira", *day).code == 0
    assert asked(review, "2026-01-06") == {"pairs:Who%20barks%3F=dog", "pairs:Who%20mews%3F=cat"}


def test_a_set_that_was_dropped_keeps_its_history_and_resumes(
    review: Review, folder: Path, tmp_path: Path
) -> None:
    Path("ours.toml").write_text(OURS, encoding="utf-8")
    given(review, "ours.toml")
    asked(review, "2026-01-06")
    before = remembered(review, tmp_path, "2026-01-06")
    assert review("set", "drop", "our-words", "Mira", "--on", "2026-01-07").code == 0
    assert remembered(review, tmp_path, "2026-01-07") == {}
    mend(review("warmup", "Mira", "--jsonl", "--on", "2026-01-07"), "no skill set")
    assert review("set", "add", "ours.toml", "Mira", "--on", "2026-01-08").code == 0
    assert remembered(review, tmp_path, "2026-01-08") == before
    assert asked(review, "2026-01-08") <= set(before)
    assert asked(review, "2026-01-09") != set()  # taught once is taught


def test_a_set_that_is_given_again_tells_what_is_gone_and_what_is_to_be_said_again(
    review: Review, folder: Path
) -> None:
    """Nothing is taught by itself: a skill with a new name would stay away without a word."""
    Path("ours.toml").write_text(OURS, encoding="utf-8")
    given(review, "ours.toml")
    assert "No longer" not in review("set", "add", "ours.toml", "Mira", "--on", "2026-01-05").out
    text = OURS.replace('"animals"', '"beasts"').partition('\n[[skill]]\nid = "areas"')[0]
    Path("ours.toml").write_text(text, encoding="utf-8")
    done = review("set", "add", "ours.toml", "Mira", "--on", "2026-01-06")
    assert "No longer in it: animals and areas. What was learned of them is kept." in one_line(done.out)
    assert (
        "beasts has cards of animals, which was taught. If it has only another name: "
        "review taught beasts Mira"
    ) in one_line(done.out)
    assert review("taught", "beasts", "Mira", "--on", "2026-01-06").code == 0
    assert asked(review, "2026-01-06") == {"pairs:Who%20barks%3F=dog", "pairs:Who%20mews%3F=cat"}
    again = review("set", "add", "ours.toml", "Mira", "--on", "2026-01-06").out
    assert "No longer" not in again


def test_a_skill_that_was_said_to_be_taught_at_once_is_not_asked_for_again(
    review: Review, folder: Path
) -> None:
    Path("ours.toml").write_text(OURS, encoding="utf-8")
    given(review, "ours.toml")
    done = edited(review, OURS.replace('"animals"', '"beasts"'))
    assert "No longer in it: animals. What was learned of it is kept." in one_line(done.out)
    assert "another name" not in done.out


def test_an_aim_that_is_not_named_again_is_told_to_be_gone(review: Review, folder: Path) -> None:
    review("child", "add", "Mira", "--age", "8", "--on", "2026-01-05")
    first = ("set", "add", "times-2-5-10", "Mira", "--on", "2026-01-05")
    assert "by your choice" not in review(*first, "--aim", "accuracy").out
    assert "by your choice" not in review(*first, "--aim", "accuracy").out
    told = one_line(review(*first).out)
    assert "Its aim was “right, in one's own time”, by your choice. Now it has its own. As it was:" in told
    assert "review set add times-2-5-10 Mira --aim accuracy" in told


CHANGES: dict[str, tuple[Callable[[str], str], str]] = {  # what is changed; what is told of the cards
    "nothing": (lambda text: text, "It was given before, and nothing in it has changed."),
    "an answer is mended": (
        lambda text: text.replace('"dog"', '"hound"'),
        "Changed, so begun anew: Who barks?",
    ),
    "a pair in the place of another": (
        lambda text: text.replace('"Who mews?", "cat"', '"Who neighs?", "horse"'),
        "New in it: Who neighs? Asked no more: Who mews?",
    ),
    "a skill is gained": (
        lambda text: text + '[[skill]]\nid = "d"\ntitle = "D"\nkind = "double"\nnumbers = [2, 3]\n',
        "New in it: double 2 and double 3.",
    ),
}


@pytest.mark.parametrize("name", CHANGES)
def test_a_set_that_is_given_again_tells_which_cards_came_and_went(
    review: Review, folder: Path, name: str
) -> None:
    """Whoever corrects a set in mid-course sees what the correction is to the child."""
    Path("ours.toml").write_text(OURS, encoding="utf-8")
    given(review, "ours.toml")
    change, told = CHANGES[name]
    out = one_line(edited(review, change(OURS)).out)
    assert told in out
    sorts = ("New in it", "Changed, so", "Asked no more", "nothing in it has changed")
    assert [sort in out for sort in sorts] == [sort in told for sort in sorts]


def test_of_a_skill_that_is_gone_its_cards_are_not_told_once_more(review: Review, folder: Path) -> None:
    Path("ours.toml").write_text(OURS, encoding="utf-8")
    given(review, "ours.toml")
    out = one_line(edited(review, OURS.partition('\n[[skill]]\nid = "areas"')[0]).out)
    assert "No longer in it: areas." in out
    assert "Asked no more" not in out


def test_a_corrected_set_tells_which_other_child_still_has_it_otherwise(review: Review, folder: Path) -> None:
    Path("ours.toml").write_text(OURS, encoding="utf-8")
    given(review, "ours.toml")
    for name in ("Nuri", "Tam"):
        assert review("child", "add", name, "--age", "8", "--on", "2026-01-05").code == 0
    first = review("set", "add", "ours.toml", "Nuri", "--taught", "--on", "2026-01-06")
    assert "otherwise" not in first.out  # the same text, and one child who has not got it
    out = one_line(edited(review, OURS.replace('"dog"', '"hound"')).out)
    assert "Nuri still has it otherwise. To give this one there too: review set add ours.toml Nuri" in out
    later = review("set", "add", "ours.toml", "Nuri", "--taught", "--on", "2026-01-07")
    assert "otherwise" not in later.out


def test_a_shipped_set_that_is_given_again_is_told_as_before(review: Review, folder: Path) -> None:
    review("child", "add", "Mira", "--age", "8", "--on", "2026-01-05")
    first, again = (review("set", "add", "times-2-5-10", "Mira", "--on", "2026-01-05") for _ in range(2))
    assert first.out == again.out
