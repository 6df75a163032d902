"""A family's own words through every front: what a child sees, and that the log is always the same.

GOLDEN=write python -m pytest tests/terminal/test_words_fronts.py    after a screen was meant to change
"""

import re
from itertools import product
from pathlib import Path

import pytest

from review.core.house_words import APART
from review.core.model import CHOICES, STANDARD, Answer, Help, Words
from review.core.warmup import (
    AskAgain,
    AskHelp,
    AskLiked,
    AskRecalled,
    End,
    Heard,
    Note,
    Say,
    Show,
    Sitting,
    Typed,
)
from review.terminal import run
from tests.core.sittings import a_sitting, item
from tests.terminal.seat import golden, rows_of, seat
from tests.terminal.streams import by_aloud_lines, by_json, by_lines

EVERY = [Words(*chosen) for chosen in product(*CHOICES.values())]
ALL_OTHER = Words("carry", "math", "comma", "dot", "colon")
CARDS = (
    "decimal:times/10-1",
    "decimal:order/1-2-2",
    "product:6x7",
    "column-difference:3-3/1",
    "quotient:42/6",
)


def sitting(words: Words = STANDARD, keys: tuple[str, ...] = CARDS) -> Sitting:
    return a_sitting(*(item(key, "due") for key in keys), reserve=())._replace(words=words)


class Child:
    """Types what is shown as the answer, as one types it: the first time something else, then for help."""

    person = False

    def __init__(self, first: str) -> None:
        self.shown: list[Show] = []
        self.told: list[str] = []
        self.next: list[Heard] = [Typed(first), AskHelp()]

    def show(self, show: Show) -> None:
        self.shown.append(show)

    def hear(self) -> Heard:
        right = Typed(self.shown[-1].problem.expected.replace(APART, " "))
        return self.next.pop(0) if self.next else right

    def help(self, help: Help) -> None:
        self.told.append(help.text)

    def say(self, said: Say) -> None:
        self.told += [said.text, said.expected]

    def ask_again(self, again: AskAgain) -> None:
        self.told.append(again.text)

    def ask_recalled(self, asked: AskRecalled) -> None: ...
    def ask_liked(self, asked: AskLiked) -> None: ...
    def note(self, note: Note) -> None: ...
    def end(self, end: End) -> None: ...


def played(words: Words, first: str) -> tuple[Child, list[Answer]]:
    child, kept = Child(first), list[Answer]()
    run(child, sitting(words), (), kept.append, lambda: None)
    return child, kept


@pytest.mark.parametrize("words", EVERY)
def test_the_log_is_the_same_under_every_choice(words: Words) -> None:
    child, kept = played(words, "0,25" if words.decimals == "comma" else "0.25")
    assert kept == played(STANDARD, "0.25")[1]
    assert [row.mark for row in kept].count("right") == len(CARDS)
    assert kept[0].given == "0.25"
    assert len(child.shown) == len(kept)


def test_what_a_child_sees_is_in_the_familys_signs() -> None:
    before, after = played(STANDARD, "0.25")[0], played(ALL_OTHER, "0,25")[0]
    prompts = [show.problem.prompt for show in after.shown]
    assert prompts[0] == before.shown[0].problem.prompt.replace(".", ",").replace("×", "·")
    assert {"6 · 7 =", "7 · 6 ="} & {*prompts}
    assert "42 : 6 =" in prompts
    assert not [
        text for text in (*prompts, *after.told) if "×" in text or "÷" in text or re.search(r"\d\.\d", text)
    ]
    assert [re.sub("[0-9.,;×·÷:]", "", text) for text in after.told] == [
        re.sub("[0-9.,;×·÷:]", "", text) for text in before.told
    ]


def test_a_point_is_read_where_the_comma_is_chosen_and_no_comma_where_it_is_not() -> None:
    """What cannot be read is asked again, in the family's words."""
    one = sitting(ALL_OTHER, ("decimal:times/10-1",))
    first = by_json(sitting=one).of("problem")[0]
    number = float(str(first["prompt"]).partition(" ")[0].replace(",", "."))
    right = f"{number * 10:g}"
    assert [row.mark for row in by_json({"answer": right}, sitting=one).answers] == ["right"]
    again = by_json({"answer": "half a one"}, sitting=one).of("ask_again")
    assert [each["text"] for each in again] == ["Type a number, like 0,5."]
    plain = one._replace(words=STANDARD)
    assert [each["text"] for each in by_json({"answer": "0,5"}, sitting=plain).of("ask_again")] == [
        "Type a number, like 0.5."
    ]


def test_plain_lines_say_it_too() -> None:
    text = by_lines("?\n?\n?\n?\n?\n", sitting=sitting(ALL_OTHER, ("column-difference:3-3/1",))).text
    assert "Too few? Borrow one. It is ten." in text
    assert "Borrow: 1 " in text
    standard = by_lines("?\n?\n?\n?\n?\n", sitting=sitting(STANDARD, ("column-difference:3-3/1",))).text
    assert "Too few? Open one for ten." in standard
    assert "Borrow" not in standard


def test_what_a_parent_reads_out() -> None:
    text = by_aloud_lines("?\n", sitting=sitting(ALL_OTHER, ("decimal:times/10-1",))).text
    assert " comma " in text.partition("Answer")[0]
    assert " point " not in text
    assert "×" not in text


@pytest.mark.parametrize("columns", [80, 40])
def test_a_decimal_with_a_comma_at_a_terminal(tmp_path: Path, columns: int) -> None:
    rows = tmp_path / "rows.jsonl"
    with seat(rows, "sort=comma", columns=columns) as taken:
        taken.prompted().press("0,25")
        taken.see("0,25")
        golden("comma", columns, taken)
        taken.press("\r")
        taken.see("Then press Enter.")
        golden("comma-told", columns, taken)
        taken.press("\x04")
        taken.finish()
    assert rows_of(rows)[0]["given"] == "0.25"
