"""Sets of a parent's own: begun by questions, checked with a preview."""

import json
import os
import re
import shlex
import sys
from pathlib import Path

import pexpect
import pytest

from review import catalogue
from review.cli.authoring import BODIES, KINDS, Start, set_text
from review.core.card_sets import read_set
from tests.cli.authoring.pieces import HEAD, PAIRS, TEMPLATE, mend
from tests.cli.conftest import Review

TOP = Path(__file__).parents[3]

# --- a new one ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_begun_passes_the_check(review: Review, folder: Path, kind: str) -> None:
    done = review("set", "new", "ours.toml", "--title", "Our things", "--kind", kind, "--ages", "7", "9")
    assert done.code == 0, done.err
    assert "review set check ours.toml" in done.out
    assert review("set", "check", "ours.toml").code == 0
    text = (folder / "ours.toml").read_text(encoding="utf-8")
    assert text.count("#") >= 7
    assert "ages = [7, 9]" in text


@pytest.mark.parametrize(
    "title", ['"', "\\", "é [/] 'x' {a}", "\x1b[31m red \u202e", "Ünser Zeug", "日本", "x" * 300, "#"]
)
@pytest.mark.parametrize("kind", KINDS)
def test_any_title_makes_a_sound_set(title: str, kind: str, review: Review, folder: Path) -> None:
    done = review("set", "new", "--title", title, "--kind", kind)
    assert done.code == 0, done.err
    (path,) = folder.glob("*.toml")
    assert re.fullmatch(r"[a-z0-9-]+\.toml", path.name)
    assert catalogue.check(path)[1] == ()
    assert "\x1b" not in path.read_text(encoding="utf-8") + done.out


def test_a_set_of_one_s_own_never_takes_a_shipped_name() -> None:
    assert Start("Roman early", (6, 8), "pairs").id == "roman-early-ours"
    assert set(BODIES) == set(KINDS)


def test_nothing_is_written_over(review: Review, folder: Path) -> None:
    (folder / "ours.toml").write_text("mine")
    mend(review("set", "new", "ours.toml", "--title", "Ours"), "ours.toml", "another name")
    assert (folder / "ours.toml").read_text() == "mine"


def test_an_editor_is_told_of_every_mistake_with_its_line(review: Review, folder: Path) -> None:
    assert (
        review("set", "new", "ours.toml", "--title", "Ours", "--ages", "6", "8", "--kind", "pairs").code == 0
    )
    sound = review("set", "check", "ours.toml", "--json")
    told = json.loads(sound.out)
    keys = ["set", "mistakes", "cards", "new_a_day", "weeks_to_meet", "remarks"]
    assert (sound.code, list(told)) == (0, keys)
    assert (told["mistakes"], told["remarks"], told["cards"] > 0) == ([], [], True)
    text = Path("ours.toml").read_text(encoding="utf-8")
    Path("ours.toml").write_text(f"{text}colour = 1\nshade = 2\n", encoding="utf-8")
    bad = review("set", "check", "ours.toml", "--json")
    lines = len(text.splitlines())
    told = json.loads(bad.out)
    assert (bad.code, told["set"], told["cards"]) == (1, None, None)
    assert [one["line"] for one in told["mistakes"]] == [lines + 1, lines + 2]
    assert list(told["mistakes"][0]) == ["file", "line", "path", "wrong", "instead"]
    assert "there is no key “colour” here" in bad.err


def test_what_is_hardly_meant_is_told_below_the_preview(review: Review, folder: Path) -> None:
    review("set", "new", "ours.toml", "--title", "Ours", "--ages", "6", "8", "--kind", "pairs")
    text = Path("ours.toml").read_text(encoding="utf-8")
    Path("ours.toml").write_text(text.replace("pairs = [", 'pairs = [["Half of 5:", "2,5"], ', 1), "utf-8")
    told = review("set", "check", "ours.toml").out.splitlines()
    at = told.index("Worth a look:")
    assert "Half of 5: “2,5” is a text. If a number is meant, write 2.5." in " ".join(
        map(str.strip, told[at:])
    )
    assert told[-1] == "Give it: review set add ours.toml CHILD"
    row = json.loads(review("set", "check", "ours.toml", "--json").out)
    assert [list(one) for one in row["remarks"]] == [["skill", "text"]]


def test_what_the_check_lets_pass_can_be_given(review: Review, folder: Path) -> None:
    """A copy of a shipped set keeps its name: told by the check already. The shipped file itself is sound."""
    shipped = TOP / "card_sets" / "times-2-5-10.toml"
    (folder / "mine.toml").write_text(shipped.read_text(encoding="utf-8"), encoding="utf-8")
    told = (
        "mine.toml set.id: the catalogue has a set called times-2-5-10 already. Give yours another `id`.",
    )
    mend(review("set", "check", "mine.toml"), *told)
    review("child", "add", "Mira", "--age", "7")
    mend(review("set", "add", "mine.toml", "Mira"), *told)
    assert review("set", "check", str(shipped)).code == 0


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((), ("not a terminal", "--title")),
        (("ours.txt", "--title", "Ours"), (".toml",)),
        (("gone/ours.toml", "--title", "Ours"), ("gone", "folder")),
        (("--title", " \u200b "), ("title",)),
        (("--title", "Ours", "--ages", "9", "7"), ("6 9",)),
        (("--title", "Ours", "--ages", "1", "99"), ("4 to 14",)),
    ],
)
def test_what_cannot_be_begun(
    review: Review, folder: Path, arguments: tuple[str, ...], words: tuple[str, ...]
) -> None:
    mend(review("set", "new", *arguments), *words)
    assert list(folder.iterdir()) == []


def test_questions_at_a_terminal(folder: Path) -> None:
    environment = {**os.environ, "PYTHONPATH": str(TOP), "REVIEW_BOOK": str(folder / "b"), "COLUMNS": "80"}
    one = pexpect.spawn(
        sys.executable, ["-m", "review", "set", "new"], env=environment, encoding="utf-8", timeout=30
    )
    for question, answer in (
        ("called", ""),
        ("called", "Our farm"),
        ("ages", "99"),
        ("4 to 14", "6 8"),
        ("What is in it", "7"),
        ("1, 2 or 3", "1"),
        ("Question", "Legs of two hens:"),
        ("Answer", "4"),
        ("Question", "Who barks?"),
        ("Answer", "pass"),
        ("something else", None),
        ("Question", "Who barks?"),
        ("Answer", "dog"),
        ("Question", ""),
    ):
        one.expect(question)
        if answer is not None:
            one.sendline(answer)
    one.expect("our-farm.toml")
    one.expect(pexpect.EOF)
    found, mistakes = catalogue.check(folder / "our-farm.toml")
    assert found is not None, mistakes
    assert found.skills[0].options["pairs"] == (("Legs of two hens:", "4"), ("Who barks?", "dog"))
    assert found.ages == (6, 8)


# --- the preview --------------------------------------------------------------------------------------


def previewed(review: Review, text: str, *options: str) -> list[str]:
    Path("ours.toml").write_text(text, encoding="utf-8")
    done = review("set", "check", "ours.toml", *options)
    assert done.code == 0, done.err
    return done.out.splitlines()


def between(told: list[str]) -> list[str]:
    return [line.strip() for line in told if line.startswith("    ")]


def test_ten_problems_with_their_answers(review: Review, folder: Path) -> None:
    told = previewed(review, HEAD + TEMPLATE)
    assert told[0] == "ours.toml can be used: 1 skill, 1 card."
    assert len(set(between(told))) == 10
    for line in [told[1], told[2], *between(told)]:
        numbers = re.search(r"A field (\d) by (\d) has the area \((\d+)\)$", line)
        assert numbers, line
        a, b, area = map(int, numbers.groups())
        assert a * b == area
    assert told == previewed(review, HEAD + TEMPLATE)


def test_facts_stand_there_once(review: Review, folder: Path) -> None:
    pairs = ", ".join(f'["Number {n}:", "{n}"]' for n in range(20))
    told = previewed(review, HEAD + PAIRS.format(what=f"pairs = [{pairs}]"))
    assert told[1:3] == ["  First: Number 0: (0)", "  Last: Number 19: (19)"]
    assert len(set(between(told))) == 10
    assert not {"Number 0: (0)", "Number 19: (19)"} & set(between(told))
    few = previewed(review, HEAD + PAIRS.format(what='pairs = [["a", "b"], ["c", "d"]]'))
    assert between(few) == []


@pytest.mark.parametrize(
    ("cards", "minutes", "weeks"),
    [
        (20, "5", 2),  # 2 new a day at 7: ten days
        (100, "5", 10),  # 50 days
        (100, "1", 16),  # a minute has room for 60 / (8 x 6) = 1.25 new ones: 80 days
    ],
)
def test_how_long_it_takes_is_reckoned_as_it_says(
    review: Review, folder: Path, cards: int, minutes: str, weeks: int
) -> None:
    pairs = ", ".join(f'["Number {n}:", "{n}"]' for n in range(cards))
    told = " ".join(previewed(review, HEAD + PAIRS.format(what=f"pairs = [{pairs}]"), "--minutes", minutes))
    assert f"met in about {weeks} weeks" in re.sub(r"\s+", " ", told)
    assert "Reckoned from 5 days a week, 2 new cards a day at most, and 8 askings of each" in re.sub(
        r"\s+", " ", told
    )


@pytest.mark.parametrize("name", ["k.toml", "./k.toml", "deep/k.toml", "our sums.toml", "k.txt"])
def test_what_to_type_next_names_the_file_as_it_was_given(review: Review, folder: Path, name: str) -> None:
    (folder / "deep").mkdir()
    Path(name).write_text(HEAD + TEMPLATE, encoding="utf-8")
    for given in (name, str(folder / name.removeprefix("./"))):
        done = review("set", "check", given)
        assert done.code == 0, done.err
        told = re.sub(r"\s+", " ", done.out)
        assert f"review set add {shlex.quote(given)} CHILD".replace(" ", "") in told.replace(" ", "")


def test_what_to_type_after_a_set_is_begun(review: Review, folder: Path) -> None:
    done = review("set", "new", "our sums.toml", "--title", "Ours")
    assert "review set check 'our sums.toml'" in done.out


def test_a_file_name_with_escape_sequences_is_shown_clean(review: Review, folder: Path) -> None:
    name = "our\x1b[31m.toml"
    Path(name).write_text(HEAD + TEMPLATE)
    assert "\x1b" not in review("set", "check", name).out
    Path(name).write_text("[set")
    assert "\x1b" not in review("set", "check", name).err


def test_a_begun_set_is_read_as_any_other() -> None:
    for kind in KINDS:
        found, mistakes = read_set(set_text(Start("Ours", (6, 9), kind)), "ours.toml")
        assert found is not None, mistakes
