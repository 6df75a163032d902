"""The page of HTML: valid, self-contained, and with everything the sheet has on it."""

import re

import pytest

from review.core import blanks
from review.core.model import BOX
from review.core.paper import WIDTH, Box, Drawing, Entries, Row, Sheet, width_of
from review.core.picture_words import sentence
from review.render import sheet_page
from review.render.blank_drawings import svg
from tests.core.shown import NEVER
from tests.render.reading import attributes, named, of_class, read, text, texts
from tests.render.sheets import NASTY, SMALL, everything, small, week

WORDS_TO_A_CHILD = re.compile(r"\b(years?|age|grade|level|score|points|minutes left|timer)\b", re.I)


@pytest.mark.parametrize("name", SMALL)
def test_it_is_valid_html(name: str) -> None:
    found = read(sheet_page.html(small(name)))
    assert len(of_class(found, "page")) == len(small(name).pages)
    assert texts(named(found, "title")) == [small(name).name]
    assert found.attrib["lang"] == "en"


@pytest.mark.parametrize("name", SMALL)
def test_it_fetches_nothing_and_runs_nothing(name: str) -> None:
    page = sheet_page.html(small(name))
    found = read(page)
    for tag in ("script", "link", "img", "iframe", "object", "embed", "form", "base", "a", "image"):
        assert not named(found, tag), tag
    assert "url(" not in page
    assert "@import" not in page
    assert not re.search(r"https?://(?!www\.w3\.org/2000/svg)", page)
    assert not [word for word in attributes(found) if word.startswith("on") or word in ("src", "href")]
    assert "default-src 'none'" in page


def test_a_telephone_shows_the_whole_width_of_a_page() -> None:
    """A CSS pixel is 1/96 of an inch (CSS Values 4, 6.2): it is laid out at its width, and shrunk."""
    (seen,) = [one for one in named(read(sheet_page.html(week())), "meta") if one.get("name") == "viewport"]
    wide = int(seen.attrib["content"].removeprefix("width="))
    assert (WIDTH + 2 * 8) / 25.4 * 96 <= wide < 800


def boxes(sheet: Sheet) -> list[Box]:
    return [
        one for page in sheet.pages for block in page.blocks if isinstance(block, Row) for one in block.boxes
    ]


@pytest.mark.parametrize("large", [False, True])
def test_every_problem_of_the_catalogue_stands_on_it_with_its_picture_and_its_answer(large: bool) -> None:
    sheet = everything(large)
    found = read(sheet_page.html(sheet))
    shown, wanted = of_class(found, "box"), boxes(sheet)
    assert len(shown) == len(wanted) > 250
    for node, box in zip(shown, wanted, strict=True):
        told = text(node)
        assert told.startswith(f"{box.number}. ")
        for part in " ".join(box.lines).split(BOX):
            assert " ".join(part.split()) in told
        assert len(of_class(node, "hole")) == " ".join(box.lines).count(BOX)
        assert len(of_class(node, "room")) == (box.room > 0)
        above = ["".join(one.itertext()) for one in of_class(node, "shown") if box.picture is None]
        assert above == (["\n".join(box.columns or box.story)] if box.columns or box.story else [])
        said = [one.attrib["aria-label"] for one in named(node, "svg") if one.attrib.get("role") == "img"]
        assert said == ([sentence(box.picture)] if box.picture else [])
        on_squares = [text(one) for one in named(node, "svg") if one.attrib.get("aria-hidden")]
        signs = " ".join(sign for _, _, sign in box.squares.signs) if box.squares else ""
        assert " ".join(on_squares) == signs
    keys = [
        one
        for page in sheet.pages
        for row in page.blocks
        if isinstance(row, Entries)
        for one in (*row.left, *row.right)
    ]
    answers = [" ".join(texts(named(node, "b"))) for node in of_class(found, "entry")]
    assert answers == [" ".join(one.answer.split()) for one in keys]


@pytest.mark.parametrize("large", [False, True])
def test_a_number_stands_on_the_line_of_its_prompt(large: bool) -> None:
    """Both have their middle in the middle of a line: so the two lines are as high as each other."""
    sheet, below = everything(large), 0
    for node, box in zip(of_class(read(sheet_page.html(sheet)), "box"), boxes(sheet), strict=True):
        if not (box.picture or box.columns or box.story):
            number, first, *_ = of_class(node, "line")
            high = re.compile(r"height:[\d.]+mm")
            assert high.findall(number.attrib["style"]) == high.findall(first.attrib["style"]), box
            below += box.below
    assert below


def test_a_name_is_never_markup() -> None:
    found = read(sheet_page.html(week(NASTY)))
    (top,) = of_class(found, "top")
    assert NASTY in text(top).replace("\xa0", " ")
    assert not named(top, "b")


def test_what_a_child_reads_is_for_a_child() -> None:
    """Pages before the key: no verdict, no clock, no age; sentences of at most seven words."""
    for large in (False, True):
        found = read(sheet_page.html(week(large=large)))
        pages = [page for page in of_class(found, "page") if page.attrib["class"] == "page"]
        assert pages
        for n, page in enumerate(pages):
            said = texts([*named(page, "h1"), *named(page, "p")])
            assert said or n, "only a page that goes on may have problems and nothing else"
            for words in said:
                assert not NEVER.search(words)
                assert not WORDS_TO_A_CHILD.search(words)
                for told in re.split(r"(?<=[.?!]) ", words):
                    assert len(told.split()) < 8, told
            (foot,) = of_class(page, "foot")
            assert text(foot).startswith("Sheet 4711")
            assert "✓ from memory • worked out ○ not yet" in text(foot)


def test_a_first_meeting_says_so() -> None:
    assert set(texts(of_class(read(sheet_page.html(week())), "note"))) == {"Do you know this one yet?"}


def test_every_strip_says_whose_it_is_once_it_is_cut_off() -> None:
    found = read(sheet_page.html(week()))
    assert texts(of_class(found, "tag")) == [f"Sheet 4711 day {n}" for n in range(1, 6)]


def test_the_key_tells_the_grown_up_what_to_do() -> None:
    key = text(of_class(read(sheet_page.html(week())), "key")[0])
    for words in (
        "tick, from memory",
        "dot, worked out",
        "ring, not yet",
        "review enter 4711",
        "--number 4711",
    ):
        assert words in key


def test_colour_is_never_a_sign() -> None:
    """Black on white in print, greys where a part is shaded; each shaded part has its edge."""
    page = sheet_page.html(everything())
    given = re.findall(r"\b(?:fill|stroke|color|background)[:=]\s*\"?([^;\"}]+)[;\"}]", page)
    coded = re.findall(r"#[0-9a-f]{3,6}\b|rgb\([^)]*\)", page)
    assert set(coded) == {"#ddd", "#000", "#aaa"}
    assert {one.split()[-1] for one in given} <= {"none", "black", "white", *coded}


@pytest.mark.parametrize("sort", [*blanks.BLANKS])
@pytest.mark.parametrize("large", [False, True])
def test_every_name_on_a_blank_page_is_printed_whole(sort: blanks.Sort, large: bool) -> None:
    """The hundred at the end of a line lost its last edge in large print."""
    for block in blanks.sheet(sort, 3, large).pages[0].blocks:
        assert isinstance(block, Drawing)
        named = re.findall(r'<text x="([\d.]+)" y="[\d.]+" font-size="([\d.]+)"[^>]*>([^<]+)<', svg(block))
        for x, letters, name in named:
            half = width_of(name) * float(letters) / 2
            assert half <= float(x) <= block.width - half, (name, x)
