"""The last steps of help, over a sample of every card there is."""

from random import Random

import pytest

from review.core.model import Help, Problem
from review.core.skills import KINDS, draw, problem
from review.core.skills.worked import without_echo, worked
from tests.core.shown import is_worked_out, seen
from tests.core.test_catalogue import all_cards

SHOWN_EACH = 4


@pytest.mark.parametrize(
    ("prompt", "blank", "stays"),
    [
        ("19 + 1 =", "19 + 1 = □", False),
        ("1 more than 19 is", "19 + 1 = □", False),
        ("1,000 less than 5,230 is", "5,230 − 1,000 = □", False),
        ("1 less than 19 is", "19 + 1 = □", True),
        ("1 + 409 =", "409 + 1 = □", False),
        ("1 − 409 =", "409 − 1 = □", True),
        ("3.5 × 10 =", "3.5 × 10 = □", False),
        ("Half of 6 is", "Half of 6 is □.", False),
        ("31 = □ + □", "31 = 30 + □", True),
        ("18 + 5 =", "18 + 2 = 20\n20 + 3 = □", True),
        ("After 16 comes", "16 + 1 = □", True),
    ],
)
def test_a_blank_that_says_what_the_prompt_says_is_left_out(prompt: str, blank: str, stays: bool) -> None:
    helps = (Help("question", "What now?"), Help("blank", blank), Help("steps", "20"))
    assert without_echo(prompt, helps) == (helps if stays else (helps[0], helps[2]))


def test_the_steps_follow_their_blank() -> None:
    blank, steps = worked("2 + 3 = 5", "5 + 1 = 6")
    assert (blank.text, steps.text) == ("2 + 3 = 5\n5 + 1 = □", "2 + 3 = 5\n5 + 1 = 6")
    assert worked("2 + 3 = 5", "5 + 1 = 6", at=0)[0].text == "2 + 3 = □"


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_no_help_of_the_catalogue_says_the_prompt_again(kind: str) -> None:
    for card in (card for card in all_cards() if card.kind == kind):
        random = Random(card.key)
        for _ in range(SHOWN_EACH):
            one = problem(card.key, draw(card.key, random))
            told = f"{one.prompt}: {one.helps}"
            blank = [help for help in one.helps if help.step == "blank"]
            assert not (is_worked_out(one) and blank), told
            assert without_echo(one.prompt, one.helps) == one.helps, told
            assert not said_twice(one), told
            assert len(seen(one)) <= TALLEST, told


TALLEST = 19  # lines of a picture: with its prompt and a line of help it stays on a screen of 24

# What is worked out twice because it is asked twice: 7 + 13 = 7 + 13, and 1 × 1 twice.
TWICE = ("true-false:sides/", "number-property:cube/1..1")


def said_twice(one: Problem) -> bool:
    """Whether a line of the worked steps stands in them again."""
    equations = [line for line in one.helps[-1].text.split("\n") if " = " in line]
    return len({*equations}) < len(equations) and not one.card.startswith(TWICE)
