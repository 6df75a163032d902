"""Each sheet keeps the rules of a page, and each rule finds what breaks it."""

from collections.abc import Callable
from functools import partial

import pytest

from review.core.paper import Sheet
from review.render import sheet_page
from tests.render.page_rules import faults
from tests.render.reading import read
from tests.render.sheets import SMALL, everything

SOUND = '<!DOCTYPE html><html lang="en"><head><title>T</title></head><body><h1 id="a">A</h1>{}</body></html>'
BROKEN = {
    '<p id="a">x</p>': "stands 2 times",
    '<p aria-labelledby="b">x</p>': "not there",
    "<h3>C</h3>": "follows",
    "<svg></svg>": "says nothing",
    "<table><tbody><tr><td>1</td></tr></tbody></table>": "no headers",
    "<table><tbody><tr><th>1</th></tr></tbody></table>": "no scope",
}


@pytest.mark.parametrize("inside", BROKEN)
def test_each_rule_finds_what_breaks_it(inside: str) -> None:
    assert faults(read(SOUND.format(""))) == []
    (found,) = faults(read(SOUND.format(inside)))
    assert BROKEN[inside] in found


def test_a_page_without_language_or_title() -> None:
    page = SOUND.format("").replace(' lang="en"', "").replace("<title>T</title>", "")
    assert len(faults(read(page))) == 2


SHEETS: dict[str, Callable[[], Sheet]] = {
    **SMALL,
    "everything": everything,
    "everything, large": partial(everything, True),
}


@pytest.mark.parametrize("name", SHEETS)
def test_every_sheet_keeps_them(name: str) -> None:
    assert faults(read(sheet_page.html(SHEETS[name]()))) == []
