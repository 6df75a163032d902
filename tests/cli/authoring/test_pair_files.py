"""Lists beside a set: read as spreadsheets save them, mistakes with file and line, nothing else reached."""

import csv
import os
from pathlib import Path

import pytest

from review import catalogue
from tests.cli.authoring.pieces import HEAD, PAIRS, TEMPLATE, WITH_LIST, asked, given, listed, mend
from tests.cli.conftest import Review

LISTS = {
    "commas": "Who barks?,dog\nWho mews?,cat\n",
    "semicolons": "Who barks?;dog\r\nWho mews?;cat\r\n",
    "tabs": "Who barks?\tdog\nWho mews?\tcat",
    "headings and blank rows": "\ufeffPrompt,Answer\n\n  \nWho barks?,dog\n,\nWho mews?,cat\n",
    "quotes": '"Who barks?","dog"\n"Who\nmews?",cat\n',
    "old line ends": "Who barks?,dog\rWho mews?,cat\r",
    "controls": "Who \x1b barks?,d\u200bog\nWho mews?,  cat \n",
}


@pytest.mark.parametrize("name", LISTS)
def test_a_list_is_read_as_spreadsheets_save_it(folder: Path, name: str) -> None:
    found, mistakes = catalogue.check(listed(WITH_LIST, LISTS[name]))
    assert found is not None, mistakes
    expected = (("Who barks?", "dog"), ("Who mews?", "cat"))
    assert found.skills[0].options["pairs"] == expected


def test_whatever_is_saved_comes_back(folder: Path) -> None:
    """Oracle: Python's own writer of CSV, with the signs that need care."""
    pairs = [
        ('A "word", in quotes', "yes; so"),
        ("€ 3,50 and 5 =", "8,50"),
        ("a\tb", "'c'"),
        ("#", "\\"),
        ("x", "é 日"),
    ]
    with open("animals.csv", "w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows(pairs)
    found, mistakes = catalogue.check(listed(WITH_LIST, None))
    assert found is not None, mistakes
    assert found.skills[0].options["pairs"] == tuple((" ".join(a.split()), b) for a, b in pairs)


@pytest.mark.parametrize("command", ["check", "show", "add"])
def test_a_list_where_a_set_belongs_is_told_as_one(family: Review, folder: Path, command: str) -> None:
    Path("animals.csv").write_text(LISTS["commas"], encoding="utf-8")
    told = ("animals.csv is a list, not a skill set.", 'file = "animals.csv"')
    mend(family("set", command, "animals.csv"), *told)


BROKEN: dict[str, tuple[str | bytes | None, list[str]]] = {
    "three cells": ("a,b\nc,d,e\nf,g\n", ["animals.csv:2: 3 cells"]),
    "one cell": ("a,b\nc\n", ["animals.csv:2: 1 cell in"]),
    "an answer that is a command": ("a,b\n\nc,pass\n", ["animals.csv:3: "]),
    "an overlong prompt": (f"a,b\n{'c' * 41},d\n", ["animals.csv:2: a prompt of 41"]),
    "two answers": ("a,b\nx,y\na,c\n", ["animals.csv:3: this prompt stands"]),
    "twice": ("a,b\na,b\n", ["animals.csv:2: "]),
    "an empty answer": ("a,\n", ["animals.csv:1: ", "both, like `days in a week,7`."]),
    "three cells between semicolons": (
        "a;b\nc;d;e\n",
        ["animals.csv:2: 3 cells", 'like days in a week;7; put "..." around a semicolon'],
    ),
    "nothing but three cells between semicolons": (
        "a;b;c\n",
        ["animals.csv:1: 3 cells", "like days in a week;7"],
    ),
    "three cells between tabs": ("a\tb\nc\td\te\n", ["animals.csv:2: 3 cells", "days in a week (tab) 7"]),
    "a semicolon among commas": (
        "a,b\nc;d\ne,f\n",
        ["animals.csv:2: a semicolon parts this row, and a comma the others. Write a comma here too, like "],
    ),
    "a comma among semicolons": ('a;b\nc,d\n"e";f\n', ["animals.csv:2: a comma parts", "in a week;7."]),
    "a tab among commas": ("a,b\nc\td\ne,f\n", ["animals.csv:2: a tab parts", "in a week,7."]),
    "a comma among tabs": ("a\tb\nc,d\ne\tf\n", ["animals.csv:2: a comma parts", "in a week (tab) 7."]),
    "one cell with signs of its own": ("a,b\nc; d; e\nf,g\n", ["animals.csv:2: 1 cell in"]),
    "an empty answer after a semicolon": ("a;\n", ["animals.csv:1: ", "both, like `days in a week;7`."]),
    "several": ("a,pass\nb\nc,stop\n", ["animals.csv:1: ", "animals.csv:2: ", "animals.csv:3: "]),
    "nothing": ("", ["animals.csv", "empty"]),
    "only a heading": ("prompt,answer\n", ["animals.csv", "empty"]),
    "an open quote": ('a,b\n"c,d\n', ["animals.csv:2: this row cannot be read"]),
    "no text": (b"\xff\xfe\x00", ["animals.csv", "UTF-8"]),
    "too large": ("a" * 500_000, ["animals.csv", "too large"]),
    "too many": ("".join(f"a{n},b\n" for n in range(5001)), ["animals.csv:5001: the list goes on"]),
    "not there": (None, ["animals.csv", "no file"]),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_mistake_in_a_list_is_told_with_its_file_and_line(review: Review, folder: Path, name: str) -> None:
    content, words = BROKEN[name]
    mend(review("set", "check", str(listed(WITH_LIST, content))), *words)


def test_mistakes_of_the_set_are_told_too_on_their_own_lines(review: Review, folder: Path) -> None:
    text = WITH_LIST.replace("[7, 9]", "[9, 7]") + TEMPLATE.replace('"a > b"', '"a > 10"')
    mend(review("set", "check", str(listed(text, "a\n"))), "animals.csv:1", "ours.toml:5 set.ages")
    text = WITH_LIST + TEMPLATE.replace('"a > b"', '"a > 10"')
    mend(
        review("set", "check", str(listed(text, "a,pass\n"))), "animals.csv:1", "ours.toml:20 skill[2].where"
    )


@pytest.mark.parametrize(
    "what",
    [
        'file = "../animals.csv"',
        'file = "/etc/passwd"',
        'file = "C:\\\\animals.csv"',
        'file = ".hidden.csv"',
        'file = "animals.exe"',
        'file = "a/b.csv"',
        "file = '..\\animals.csv'",
        'file = "\\u0000.csv"',
        'file = ""',
        f'file = "{"a" * 200}.csv"',
        'file = "\\u001b[2J.csv"',
        "file = 3",
        'file = ["animals.csv"]',
        'file = "animals.csv"\npairs = [["a", "b"]]',
        'file = """\nanimals.csv"""',
    ],
)
def test_a_set_reaches_nothing_but_a_plain_list_beside_it(review: Review, folder: Path, what: str) -> None:
    (folder.parent / "animals.csv").write_text("secret,7\n")
    done = review("set", "check", str(listed(HEAD + PAIRS.format(what=what), "a,b\n")))
    mend(done, "ours.toml")
    assert "secret" not in done.err
    assert "\x1b" not in done.err


def test_no_link_and_no_pipe_is_read(review: Review, folder: Path) -> None:
    (folder.parent / "secret.csv").write_text("secret,7\n")
    (folder / "animals.csv").symlink_to(folder.parent / "secret.csv")
    mend(review("set", "check", str(listed(WITH_LIST, None))), "no plain file")
    (folder / "animals.csv").unlink()
    os.mkfifo(folder / "animals.csv")
    mend(review("set", "check", str(listed(WITH_LIST, None))), "no plain file")


def test_the_book_needs_no_list_beside_it(review: Review, folder: Path) -> None:
    listed(WITH_LIST, LISTS["commas"])
    given(review, "ours.toml")
    (folder / "animals.csv").unlink()
    (folder / "ours.toml").unlink()
    assert asked(review, "2026-01-06") == {"pairs:Who%20barks%3F=dog", "pairs:Who%20mews%3F=cat"}
