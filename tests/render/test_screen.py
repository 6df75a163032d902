"""Lines as they are printed: wrapped, or as they are where there is nothing to wrap."""

import re
from io import StringIO
from textwrap import wrap

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.render import invoked, screen
from review.render.screen import wrapped
from review.shell import quoted


def plainly(line: str, columns: int) -> list[str]:
    """Always by the library."""
    indent = " " * (len(line) - len(line.lstrip(" ")) + 2)
    return wrap(line, columns, subsequent_indent=indent, break_on_hyphens=False) or [""]


@given(st.text(st.sampled_from("ab -\t\n\u00a0\u2003×é"), max_size=40), st.sampled_from([20, 36, 80]))
def test_a_short_line_is_what_wrapping_makes_of_it(line: str, columns: int) -> None:
    assert wrapped(line, columns) == plainly(line, columns)


@given(
    st.lists(st.sampled_from(["a", "one", "seven-teen", "×", "", "e" * 21]), max_size=30), st.integers(0, 9)
)
def test_words_are_filled_as_the_library_fills_them(words: list[str], indent: int) -> None:
    line = " " * indent + " ".join(words)
    assert wrapped(line, 24) == plainly(line, 24)


def test_a_line_stands_as_it_is_or_hangs() -> None:
    assert wrapped("  Nothing is overdue.", 40) == ["  Nothing is overdue."]
    assert wrapped("  one two three four five", 20) == ["  one two three four", "    five"]
    assert wrapped("", 40) == [""]


SUMS = ("2 × 6", "47 + 25 = 72", "6 = 2 + □", "42 ÷ 6", "6 · 7", "£2.35 + £1", "(3 + 4) × 2 = 14", "5 < 6")


@given(st.lists(st.sampled_from([*SUMS, "and", "partner", "of", "7 − 1;"]), min_size=1, max_size=20))
def test_no_line_ends_within_a_sum(words: list[str]) -> None:
    """Whatever stands around them, and no other sign stands for their spaces."""
    line = ", ".join(words)
    lines = wrapped(line, 24)
    assert " ".join(part.strip() for part in lines) == line
    assert max(map(len, lines)) <= 24
    for part in lines:
        assert not re.search(r"[×÷·+−=<]$|^ *[×÷·+−=<]", part)


MEASURES = (
    "3 m 5 cm = 305 cm", "12 min + 7 min", "4 cups = 32 fluid ounces", "35c + 45c = 80 c", "2.5 kg − 500 g",
    "7\u00a0561 − 428", "58 + 97 ≈ 160", "VII = 7", "□ years □ months = 19 months", "24 °C − 30 °C",
)  # fmt: skip


@given(st.lists(st.sampled_from([*MEASURES, *SUMS, "and", "partner"]), min_size=1, max_size=20))
def test_no_line_ends_within_a_sum_with_units(words: list[str]) -> None:
    line = " and ".join(words)
    lines = wrapped(line, 36)
    assert " ".join(part.strip() for part in lines) == line
    assert max(map(len, lines)) <= 36
    assert all(any(one in part for part in lines) for one in words)


def test_one_sum_without_room_leaves_the_others_whole() -> None:
    line = "3 m 5 cm = 305 cm; 100 + 200 + 300 + 400 + 500; 12 min + 7 min"
    assert wrapped(line, 24) == ["3 m 5 cm = 305 cm; 100 +", "  200 + 300 + 400 + 500;", "  12 min + 7 min"]


def test_a_sum_that_has_no_room_is_broken_between_its_words() -> None:
    assert wrapped("It is 100 + 200 + 300 + 400.", 20) == ["It is 100 + 200 +", "  300 + 400."]
    assert wrapped("a card = the sum of what is there", 20) == ["a card = the sum of", "  what is there"]


LONG = "/home/kitchen/" + 9 * "a-long-name-" + ".book"
SPACED = "'/home/our kitchen/" + 9 * "a long name " + ".book'"


@pytest.mark.parametrize("columns", [40, 80])
@pytest.mark.parametrize("program", ["review", "python -m review", "/opt/our tools/review"])
@pytest.mark.parametrize("book", [LONG, SPACED.strip("'"), LONG[1:]])
def test_a_command_with_a_path_that_has_no_room_can_be_copied(
    book: str, program: str, columns: int, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """It was broken within the path, and what was copied named another file."""
    monkeypatch.setenv("COLUMNS", str(columns))
    monkeypatch.setattr(invoked, "_program", program)
    monkeypatch.setattr(invoked, "_book", f" --book {quoted(book)}")
    screen.echo(["  The rest of it is likely known too. To count it as known: review known 7x8 Mira"])
    screen.echo(["review overdue --all"])
    said = capsys.readouterr().out
    assert f"\n    {program} --book {quoted(book)} known 7x8 Mira\n" in said
    assert said.endswith(f"\n{program} --book {quoted(book)} overdue --all\n")
    assert all(len(line) <= columns for line in said.splitlines() if program not in line)


def test_a_long_name_in_a_command_is_broken_as_any_word(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    screen.echo(["Next: review set pick " + 40 * "N"])
    assert max(map(len, capsys.readouterr().out.splitlines())) == 40


def test_a_command_that_has_room_is_broken_between_its_words(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    screen.echo(["Every card that has faded: review overdue Mira --all"])
    assert capsys.readouterr().out == "Every card that has faded: review\n  overdue Mira --all\n"


class Terminal(StringIO):
    encoding = "utf-8"

    def isatty(self) -> bool:
        return True


def test_a_mistake_is_told_in_lines_at_a_terminal_and_in_one_in_a_log(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    path = "/home/kitchen/" + 9 * "a-long-name-" + ".book"
    told = f"There is no record book at {path}; check the name, or begin one."
    monkeypatch.setenv("COLUMNS", "40")
    monkeypatch.setattr("sys.stderr", Terminal())
    lines = screen.on_errors(told).split("\n")
    assert lines == ["There is no record book at", f"  {path};", "  check the name, or begin one."]
    monkeypatch.setattr("sys.stderr", StringIO())
    assert screen.on_errors(told) == told
