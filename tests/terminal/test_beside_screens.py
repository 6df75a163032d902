"""Screens of sittings beside the warm-up, and of giving up without a word, at both widths.

GOLDEN=write python -m pytest tests/terminal/test_beside_screens.py    after a screen was meant to change
"""

from pathlib import Path

import pytest

from review.core import copying, skills
from tests.terminal.driver import of_sort
from tests.terminal.seat import golden, seat, to_the_miss
from tests.terminal.test_typed import PROBLEMS


@pytest.mark.parametrize("columns", [80, 40])
def test_help_to_the_end_says_how_to_see_it(rows: Path, columns: int) -> None:
    with seat(rows, columns=columns, rows=40) as taken:
        helps = skills.problem("double:2", "2").helps
        taken.at("Double 2 is ")
        for help in helps:
            taken.press("\t")  # Tab is help too
            taken.see(help.text.splitlines()[-1]).at("Double 2 is ")
        taken.press("?")
        taken.see("Type ? once more").at("Double 2 is ")
        golden("spent", columns, taken)
        taken.press("?")
        taken.see("Double 2 is 4.")


def test_what_is_copied_is_told_once_more_and_then_it_goes_on(rows: Path) -> None:
    with seat(rows) as taken:
        to_the_miss(taken)
        taken.press("\r")
        taken.see("Your turn.").at("7 × 6 = ").press("?")
        taken.see("makes 42.").at("7 × 6 = ").press("?")
        taken.at("36 + 15 = ")


@pytest.mark.parametrize("columns", [80, 40])
def test_a_few_more_end_without_being_done_for_today(rows: Path, columns: int) -> None:
    with seat(rows, "sort=extra", columns=columns) as taken:
        for line, text in PROBLEMS:
            taken.at(line).press(f"{text}\r")
        assert taken.finish() == 0
        golden("extra-end", columns, taken)


@pytest.mark.parametrize("columns", [80, 40])
def test_numbers_to_copy(rows: Path, columns: int) -> None:
    greeting = "greet=Hello, Tove.|First some numbers.|Type each one you see."
    sitting = of_sort("copying")
    assert isinstance(sitting, copying.Copying)
    first, second, *_ = (asked for _, asked in copying.numbers(sitting))
    with seat(rows, "sort=copying", greeting, columns=columns) as taken:
        taken.at(f"Type {first}: ")
        golden("copying", columns, taken)
        taken.press("\r")
        taken.see(copying.TYPE_IT).at(f"Type {first}: ").press(f"{first}\r")
        taken.at(f"Type {second}: ").press("\x04")
        assert taken.finish() == 0
        golden("copying-end", columns, taken)
