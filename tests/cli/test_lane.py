"""The lane in front of click: what it takes, click reads to exactly the same call; all else is click's."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import click
import pytest
from hypothesis import given
from hypothesis import strategies as st

from review import clock
from review.cli import front_door, lane, sitting, warmup
from review.cli.calls import Call
from review.cli.declared import BOOK, ON, PLAIN, WARMUP, Declared, number
from review.cli.group import root
from review.cli.sitting import Asked
from review.errors import Mendable
from review.render import invoked
from tests.cli.conftest import Review

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
BEHIND = (BOOK, PLAIN, ON, *WARMUP)
LEFT = ("--explain", "--json", "--jsonl")
"""Options of `warmup` that are not for a child's line."""

NAMES = st.sampled_from(("Mira", "mi", "", " ", "warmup", "2", "Zoë", "-", "--", "-3", "—try"))
"""No command among them but this one: click would carry it out."""
NUMBERS = st.sampled_from(
    ("2", "2.5", "2,5", "2,500", "nan", "1e1", "1_0", " 3 ", "six", "", "-3", "inf", "٣")
)
DATES = st.sampled_from(("2026-11-25", "20261125", "2026-W48-3", "2026-13-45", "today", "", "-1"))
VALUES = {"text": NAMES, "number": NUMBERS, "date": DATES}
FOREIGN = st.sampled_from(
    (*LEFT, "--help", "--version", "--min", "--boo", "--plain=1", "--minutes=2", "-h", "--Plain", "--tried")
)


def written(one: Declared) -> st.SearchStrategy[list[str]]:
    """An option as it may be typed, also with a value that is none, or with none at all."""
    words = st.sampled_from(one.spelled.split("/"))
    if not one.takes:
        return words.map(lambda word: [word])
    return st.tuples(words, st.one_of(st.just([]), *[VALUES[one.takes].map(lambda value: [value])] * 5)).map(
        lambda pair: [pair[0], *pair[1]]
    )


def some(options: tuple[Declared, ...], *more: st.SearchStrategy[str]) -> st.SearchStrategy[list[str]]:
    """A few of these, in any order and any number, with other words among them."""
    parts = [*map(written, options), *(words.map(lambda word: [word]) for words in more)]
    return st.lists(st.one_of(parts), max_size=4).map(lambda found: [word for part in found for word in part])


BARE = st.one_of(some((BOOK, PLAIN)), some((BOOK, PLAIN, ON), FOREIGN))
BEHIND_IT = st.one_of(some(BEHIND, NAMES), some(BEHIND, NAMES, FOREIGN, st.text("-=a ★\x00", max_size=3)))
LINES = st.one_of(BARE, *[st.tuples(BARE, BEHIND_IT).map(lambda pair: [*pair[0], "warmup", *pair[1]])] * 4)


@pytest.mark.parametrize(("text", "found"), [("2.5", 2.5), ("2,5", 2.5), (" 12,25 ", 12.25), ("3", 3.0)])
def test_a_number_has_a_point_or_a_comma(text: str, found: float) -> None:
    assert number(text) == found


@pytest.mark.parametrize("text", ["2,500", "1,000,5", "2,", ",5", "five"])
def test_what_may_be_thousands_is_no_number(text: str) -> None:
    with pytest.raises(ValueError, match="could not convert"):
        number(text)


class Made:
    """What a line comes to: the call, how it was asked for, and how commands are printed after it."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.calls: list[str] = []
        monkeypatch.setattr(clock, "now_ms", lambda: 1_800_000_000_000)
        for room in (sitting, warmup):
            monkeypatch.setattr(room, "sit", self.sit)
        monkeypatch.setattr(front_door, "front_door", self.looked)
        monkeypatch.setattr(warmup, "show_reasons", lambda call, child, minutes: self.looked(call))

    def sit(self, call: Call, asked: Asked) -> None:
        self.calls.append(repr((call, asked, invoked.typable("review warmup"))))

    def looked(self, call: Call) -> None:
        self.calls.append(repr((call, invoked.typable("review warmup"))))

    def by_click(self, words: list[str]) -> list[str]:
        with self.hearing(), root.make_context("review", [*words]) as context:
            root.invoke(context)
        return self.calls

    def by_lane(self, line: lane.Line) -> list[str]:
        with self.hearing():
            lane.carried_out("review", line)
        return self.calls

    @contextmanager
    def hearing(self) -> Iterator[None]:
        """Also what a user is told instead: --book without a name."""
        self.calls = []
        try:
            yield
        except Mendable as error:
            self.calls.append(str(error))


@pytest.mark.parametrize("term", ["xterm", "dumb"])
def test_what_the_lane_takes_click_reads_to_the_same_call(term: str) -> None:
    taken = []

    @given(LINES)
    def holds(words: list[str]) -> None:
        line = lane.read(words)
        if line is not None:
            with pytest.MonkeyPatch.context() as monkeypatch:
                monkeypatch.setenv("TERM", term)
                made = Made(monkeypatch)
                assert made.by_lane(line) == made.by_click(words) != []
            taken.append(words)

    holds()
    assert len(taken) > 10


@given(LINES)
def test_what_click_refuses_the_lane_leaves(words: list[str]) -> None:
    with pytest.MonkeyPatch.context() as monkeypatch:
        made = Made(monkeypatch)
        try:
            made.by_click(words)
        except (click.ClickException, click.exceptions.Exit):
            assert lane.read(words) is None


@given(st.lists(st.sampled_from(BEHIND), unique=True), st.booleans(), st.randoms(use_true_random=False))
def test_every_declared_option_is_taken(options: list[Declared], named: bool, random: Any) -> None:
    values = {"text": "some.book", "number": "2", "date": "2026-11-25"}
    words = [
        [random.choice(one.spelled.split("/")), *([values[one.takes]] if one.takes else [])]
        for one in options
    ]
    behind = [*words, *([["Mira"]] if named else [])]
    random.shuffle(behind)
    line = lane.read(["warmup", *(word for part in behind for word in part)])
    assert line is not None
    assert line.behind is not None
    assert set(line.behind) == {one.field for one in options} | ({"child"} if named else set())


def forms() -> list[str]:
    """Every line of the README that begins a warm-up."""
    found = re.findall(r"\breview (?:--book \S+ )?warmup\b(?: --?\w+| [\w./-]+)*", README)
    return sorted(set(found))


@pytest.mark.parametrize("form", forms())
def test_the_readme_s_lines_are_taken_unless_they_are_for_a_parent(form: str) -> None:
    words = form.split()[1:]
    assert (lane.read(words) is None) == bool({*words} & {*LEFT})


def test_the_readme_has_such_lines() -> None:
    assert len(forms()) > 2


@pytest.mark.parametrize(
    "words",
    [
        ["overdue"],
        ["--json"],
        ["--on", "2026-11-25"],
        ["--book"],
        ["--help"],
        ["warmup", "--help"],
        ["--version", "warmup"],
        ["--on", "2026-11-25", "warmup"],
        ["warmup", "Mira", "Jonah"],
        ["warmup", "--", "Mira"],
        ["warmup", "--minutes"],
        ["warmup", "--minutes", "five"],
        ["warmup", "--minutes=5"],
        ["warmup", "--on", "today"],
        ["extra", "warmup"],
        ["--plain", "child", "show", "warmup"],
        ["--book", "warmup", "overdue"],
    ],
    ids=" ".join,
)
def test_all_else_is_left(words: list[str]) -> None:
    assert lane.read(words) is None


def test_the_lane_and_click_play_the_same(family: Review) -> None:
    day = ("--on", "2026-01-06", "--try")
    by_lane = family("warmup", "Mira", *day, typed="?\nstop\n")
    by_click = family("warmup", *day, "--", "Mira", typed="?\nstop\n")
    assert by_lane == by_click
    assert by_lane.out.startswith("Hello, Mira.")


@pytest.mark.parametrize("more", [("--minutes", "99"), ("--on", "1999-01-01"), ("--book", "nowhere")])
def test_an_error_is_told_alike(family: Review, more: tuple[str, ...]) -> None:
    by_lane = family("warmup", "Mira", *more)
    by_click = family("warmup", *more, "--", "Mira")
    assert by_lane == by_click
    assert by_lane.code == 1


@pytest.mark.parametrize("words", [[], ["overdue"], ["warmup"]], ids=["bare", "by click", "by the lane"])
def test_no_name_of_a_book_commands_a_terminal(review: Review, words: list[str]) -> None:
    told = review("--book", "\x1b[1m\x9bnowhere.book", *words)
    assert "nowhere.book" in told.out + told.err
    assert not {"\x1b", "\x9b"} & {*told.out, *told.err}


@pytest.mark.parametrize(
    "words",
    [
        ["--book", "", "warmup", "Mira"],
        ["warmup", "Mira", "--book", ""],
        ["--book="],
        ["overdue", "--book="],
        ["--book", "family.book", "overdue", "--book", ""],
    ],
)
def test_a_book_without_a_name_is_not_the_family_s_own(family: Review, words: list[str]) -> None:
    """As a shell writes it for a variable that is not set."""
    done = family(*words)
    assert (done.code, done.out) == (1, "")
    assert done.err.startswith("--book names no file.")
