"""The page of HTML: valid, self-contained, and with everything the sheet has on it.

Validity is checked by a reader of HTML after the WHATWG standard, which reports its parse errors.
"""

import re

import pytest
from justhtml import JustHTML

from review.core.paper import HOLE, Box, Entries, Row, Sheet
from review.render import sheet_page
from tests.core.shown import NEVER
from tests.render.sheets import NASTY, everything, small_ones, week

SHEETS = dict(small_ones())
WORDS_TO_A_CHILD = re.compile(r"\b(years?|age|grade|level|score|points|minutes left|timer)\b", re.I)


def read(page: str) -> JustHTML:
    """Refuses whatever the standard calls a parse error."""
    return JustHTML(page, strict=True, sanitize=False)


def texts(found: JustHTML, selector: str) -> list[str]:
    return [" ".join(node.to_text().split()) for node in found.query(selector)]


@pytest.mark.parametrize("name", SHEETS)
def test_it_is_valid_html(name: str) -> None:
    found = read(sheet_page.html(SHEETS[name]))
    assert len(found.query("section.page")) == len(SHEETS[name].pages)
    assert texts(found, "title") == [SHEETS[name].name]


@pytest.mark.parametrize("name", SHEETS)
def test_it_fetches_nothing_and_runs_nothing(name: str) -> None:
    found = read(sheet_page.html(SHEETS[name]))
    for tag in ("script", "link", "img", "iframe", "object", "form", "base", "a"):
        assert not found.query(tag), tag
    page = sheet_page.html(SHEETS[name])
    assert "url(" not in page
    assert "@import" not in page
    assert not re.search(r"https?://(?!www\.w3\.org/2000/svg)", page)
    assert not [node for node in found.query("*") for word in node.attrs if word.startswith("on")]
    assert "default-src 'none'" in page


def boxes(sheet: Sheet) -> list[Box]:
    return [
        one for page in sheet.pages for block in page.blocks if isinstance(block, Row) for one in block.boxes
    ]


@pytest.mark.parametrize("large", [False, True])
def test_every_problem_of_the_catalogue_stands_on_it_with_its_picture_and_its_answer(large: bool) -> None:
    sheet = everything(large)
    found = read(sheet_page.html(sheet))
    shown, wanted = found.query(".box"), boxes(sheet)
    assert len(shown) == len(wanted) > 250
    for node, box in zip(shown, wanted, strict=True):
        text = " ".join(node.to_text().split())
        assert text.startswith(f"{box.number}. ")
        for part in " ".join(box.lines).split(HOLE):
            assert " ".join(part.split()) in text
        assert len(node.query(".hole")) == " ".join(box.lines).count(HOLE)
        assert len(node.query(".room")) == (box.room > 0)
        assert len(node.query("pre")) == bool(box.picture)
        for picture in node.query("pre"):
            assert picture.attrs["aria-label"] == " ".join(box.said.split())
            assert picture.to_text().split() == "\n".join(box.picture).split()
    keys = [
        one
        for page in sheet.pages
        for row in page.blocks
        if isinstance(row, Entries)
        for one in (*row.left, *row.right)
    ]
    assert list(texts(found, ".entry b")) == [" ".join(one.answer.split()) for one in keys]


def test_a_name_is_never_markup() -> None:
    found = read(sheet_page.html(week(NASTY)))
    assert NASTY in " ".join(texts(found, ".top p"))
    assert not found.query(".top b")


def test_what_a_child_reads_is_for_a_child() -> None:
    """Pages before the key: no verdict, no clock, no age; sentences of at most seven words."""
    for large in (False, True):
        found = read(sheet_page.html(week(large=large)))
        for page in found.query("section.page:not(.key)"):
            said = [" ".join(node.to_text().split()) for node in page.query(".start p, .note, h1")]
            assert said
            for text in said:
                assert not NEVER.search(text)
                assert not WORDS_TO_A_CHILD.search(text)
                for sentence in re.split(r"(?<=[.?!]) ", text):
                    assert len(sentence.split()) < 8, sentence
        foot = texts(found, "section.page:not(.key) .foot")
        assert all(text.startswith("Sheet 4711") for text in foot)
        assert all("from memory" in text and "not yet" in text for text in foot)


def test_every_strip_says_whose_it_is_once_it_is_cut_off() -> None:
    found = read(sheet_page.html(week()))
    assert texts(found, ".start .tag") == [f"Sheet 4711 day {n}" for n in range(1, 6)]


def test_the_key_tells_the_grown_up_what_to_do() -> None:
    key = texts(read(sheet_page.html(week())), "section.key")[0]
    for words in (
        "tick, from memory",
        "dot, worked out",
        "ring, not yet",
        "review enter 4711",
        "--number 4711",
    ):
        assert words in key


def test_colour_is_never_a_sign() -> None:
    """Black on white in print; the one grey is around pages on a screen."""
    page = sheet_page.html(week())
    colours = set(re.findall(r"#[0-9a-f]{3,6}\b|rgb\([^)]*\)|\b(?:red|green|blue|gr[ae]y)\b", page))
    assert colours == {"#ddd"}
