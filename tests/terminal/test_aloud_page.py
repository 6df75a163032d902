"""The page of a sitting read aloud, as it fits: a terminal of 24 rows shows all of it."""

from collections.abc import Iterator
from random import Random

import pytest

from review.core import skills
from review.core.model import Problem
from review.core.warmup import Show
from review.terminal import WIDTH, picture_lines
from review.terminal.aloud import View, hanging, next_help, packed_lines, page, step_lines
from tests.core.test_picture_steps import keys, some_of_each

ROWS = 24


def views(shown: Show) -> list[View]:
    """The pages of a showing, with more and more help."""
    return [View(shown, given=shown.problem.helps[:n]) for n in range(len(shown.problem.helps) + 1)]


def assert_fits(view: View) -> None:
    """With the row on which the last line ends, at 40 columns and so at 80."""
    lines, problem = page(view, (), ROWS), view.show.problem
    told = f"{problem.card} {problem.asked} {len(view.given)} {view.answer}"
    assert len(lines) < ROWS, told
    assert max(map(len, lines)) <= WIDTH, told


def test_every_page_fits_a_terminal_of_24_rows() -> None:
    for problem in some_of_each(1):
        for first_meeting in (False, True):
            for view in views(Show(1, problem, first_meeting=first_meeting, dots=(3, 20))):
                assert_fits(view)


def by_every_way(problem: Problem) -> Iterator[Problem]:
    yield problem
    for way in skills.ways(problem):
        yield problem._replace(helps=skills.helps(problem, (way.strategy,)))


def height(problem: Problem) -> tuple[object, ...]:
    """What the rows of its pages follow from."""
    texts = (f"Read out: {problem.say}", problem.say, problem.prompt)
    helps = tuple((len(step_lines(help)), len(packed_lines(help))) for help in problem.helps)
    return len(picture_lines(problem.picture)), *(len(hanging("", text)) for text in texts), helps


def test_every_page_with_a_picture_fits_whatever_is_drawn() -> None:
    """Every card that shows one, every way of help, every step of it, the answer shown or not: 24 and 25 rows
    there were of clocks to the minute, thermometers and large squares."""
    pictured = [key for key in keys() if skills.problem(key, skills.draw(key, Random(key))).picture]
    for key in pictured:
        random = Random(key)
        shown = [skills.problem(key, skills.draw(key, random)) for _ in range(12)]
        for problem in {height(way): way for one in shown for way in by_every_way(one)}.values():
            for view in views(Show(1, problem, first_meeting=True, dots=(3, 20))):
                assert_fits(view)
                assert_fits(view._replace(answer=True))


@pytest.mark.parametrize(
    ("card", "asked"),
    [
        ("bond:17=3+14", "17=_+14"),
        ("compare:7/ones", "4751466?4751468"),
        ("column-sum:4+4/3-within", "6497+1698"),
    ],
)
@pytest.mark.parametrize("rows", [0, 80, 24, 12, 3])
def test_however_short_a_page_has_its_last_help_the_answer_and_the_keys(
    card: str, asked: str, rows: int
) -> None:
    for view in views(Show(1, skills.problem(card, asked), dots=(3, 20))):
        lines = page(view, ("Look once more.",), rows)
        text = "\n".join(lines)
        assert lines[0] == "Look once more."
        assert "\n".join(step_lines(view.given[-1]) if view.given else ()) in text
        assert ("Answer: " in text) == (view.show.problem.picture is None)
        assert all(word in text for word in ("from memory", "worked out", "not yet", "take back", "stop"))
        assert ("?" in lines[-1] + lines[-2]) == (next_help(view) is not None)
        if rows in (0, 80) and view.given:
            assert view.given[0].text in text


def test_a_thermometer_met_first_has_all_of_it_on_the_page() -> None:
    problem = skills.problem("temperature:read-c/0-30-2", "14")
    first, *_, last = views(Show(1, problem, first_meeting=True, dots=(3, 20)))
    lines = page(first, (), ROWS)
    assert lines[:18] == picture_lines(problem.picture)
    assert " ".join(lines[18:-2]) == f"Read out: {problem.say}"
    assert lines[-2:] == [
        "1 from memory  2 worked out  3 not yet", "a answer  ? help  b take back  s stop"
    ]  # fmt: skip
    assert page(last, (), ROWS)[:18] == lines[:18]
