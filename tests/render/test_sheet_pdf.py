"""The PDF: what is read off it is what the sheet says, page by page."""

import io
import re
from collections.abc import Sequence
from functools import partial
from random import Random
from xml.etree import ElementTree

import pytest
import typst
from pypdf import PageObject, PdfReader

from review import catalogue
from review.core import card_sets, fact_slips, pages
from review.core.boxes import MEETING
from review.core.model import BOX
from review.core.paper import Box, Entries, Row, Sheet, Slips, Square
from review.core.sheets import Made, Part, Task
from review.errors import Mendable
from review.render import sheet_pdf, svg
from tests.render.sheets import NASTY, SMALL, everything, small, week

SIZES = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}  # ISO 216; ANSI/ASME Y14.1 (8.5 × 11 inches)


def squeezed(text: str) -> str:
    return re.sub(r"\s", "", text)


def texts(sheet: Sheet, paper: sheet_pdf.Paper = "a4") -> list[str]:
    """What stands on each page, without its spaces."""
    return [
        squeezed(page.extract_text()) for page in PdfReader(io.BytesIO(sheet_pdf.pdf(sheet, paper))).pages
    ]


@pytest.mark.parametrize("paper", SIZES)
@pytest.mark.parametrize("name", SMALL)
def test_as_many_pages_as_the_sheet_has_in_the_size_of_the_paper(name: str, paper: sheet_pdf.Paper) -> None:
    found = PdfReader(io.BytesIO(sheet_pdf.pdf(small(name), paper)))
    assert len(found.pages) == len(small(name).pages)
    for page in found.pages:
        size = (float(page.mediabox.width) / 72 * 25.4, float(page.mediabox.height) / 72 * 25.4)
        assert size == pytest.approx(SIZES[paper], abs=0.1)


def labels(box: Box) -> list[str]:
    """What stands in its picture."""
    if box.picture is None:
        return []
    drawn = ElementTree.fromstring(svg.printed(box.picture, box.across, box.down))
    return [one.text or "" for one in drawn.iter("{http://www.w3.org/2000/svg}text")]


@pytest.mark.parametrize("large", [False, True])
def test_every_problem_of_the_catalogue_is_read_off_its_page_in_order(large: bool) -> None:
    sheet = everything(large)
    for text, page in zip(texts(sheet), sheet.pages, strict=True):
        at = 0
        for block in page.blocks:
            if isinstance(block, Row):
                for box in block.boxes:
                    for told in (*box.story, *box.columns, *labels(box)):
                        assert squeezed(told) in text, box
                    for part in " ".join(box.lines).split(BOX):
                        found = text.find(squeezed(part), at if len(block.boxes) == 1 else 0)
                        assert found >= 0, box
                        at = max(at, found)
            if isinstance(block, Entries):
                for one in (*block.left, *block.right):
                    assert squeezed(f"{one.number}.{one.answer}") in text


@pytest.fixture
def few_typefaces(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only those that come with the typesetter: Libertinus, New Computer Modern, DejaVu Sans Mono. None has
    Chinese letters or faces (their own lists of what they cover)."""
    monkeypatch.setattr(typst, "compile", partial(typst.compile, ignore_system_fonts=True))


@pytest.mark.usefixtures("few_typefaces")
def test_signs_that_no_typeface_has_are_told_and_no_others() -> None:
    assert sheet_pdf.unshown(week("Zoë 漢 Ωмир 字 🙂 ½ 漢")) == ("漢", "字", "🙂")


@pytest.mark.usefixtures("few_typefaces")
@pytest.mark.parametrize("large", [False, True])
def test_every_sign_of_the_catalogue_can_be_shown_on_every_computer(large: bool) -> None:
    assert sheet_pdf.unshown(everything(large)) == ()
    assert {sheet_pdf.unshown(small(name)) for name in SMALL} == {()}


def test_the_note_of_a_first_meeting_is_broken_where_it_was_reckoned_to_break() -> None:
    """Also where its prompt is beside a picture: two lines in the height of one ran into each other."""
    asked = (("bond:5=4+1", "5=4+_"), ("clock:read/60", "05:00"), ("sum:1+2", "1+2"))
    part = Part(0, tuple(Task(key, told, "intro") for key, told in asked))
    made = pages.sheet(Made(4711, "today", "c", 0, (part,)), "Orla", True, svg.extent)
    boxes = [one for block in made.pages[0].blocks if isinstance(block, Row) for one in block.boxes]
    assert {one.beside for one in boxes} == {False, True}
    read: list[str] = []
    page = PdfReader(io.BytesIO(sheet_pdf.pdf(made, "a4"))).pages[0]
    page.extract_text(visitor_text=lambda text, *rest: read.append(text))
    notes = [line for one in boxes for line in one.note]
    assert [text for text in read if text.strip() in MEETING and len(text) > 5] == notes


def test_squares_and_slips_hold_what_they_should() -> None:
    full = small("products, full")
    (square,) = (block for block in full.pages[0].blocks if isinstance(block, Square))
    (read,) = texts(full)
    assert read.count("144") == 1
    assert all(told in read for line in square.rows for _, told in line)
    slips = small("slips, normal")
    for text, page in zip(texts(slips), slips.pages, strict=True):
        (block,) = page.blocks
        assert isinstance(block, Slips)
        sides = [side for line in block.rows for side in line if side]
        foot = f"Slips 4711{page.side}"
        assert squeezed("".join("".join(side.lines) for side in sides) + foot) == text


def middles(page: PageObject) -> list[tuple[str, float, float]]:
    """Every piece of text of a page, with where it begins, in points from the left and from below."""
    found: list[tuple[str, float, float]] = []

    def visit(text: str, cm: Sequence[float], tm: Sequence[float], *rest: object) -> None:
        if text.strip():
            x = tm[4] * cm[0] + tm[5] * cm[2] + cm[4]
            y = tm[4] * cm[1] + tm[5] * cm[3] + cm[5]
            found.append((text.strip(), x, y))

    page.extract_text(visitor_text=visit)
    return found


@pytest.mark.parametrize("paper", SIZES)
@pytest.mark.parametrize("large", [False, True])
def test_each_answer_lies_behind_its_fact_when_the_paper_is_turned(
    paper: sheet_pdf.Paper, large: bool
) -> None:
    """By where the typesetter has put them: as far from the right edge as the fact is from the left, so long
    as the page is turned over along its long edge."""
    cards = fact_slips.facts(card_sets.cards([catalogue.shipped("times-3-4-8")]))
    problems = fact_slips.problems(cards, Random(1))
    answers = {problem.prompt.removesuffix(" ="): problem.expected for problem in problems}
    made = fact_slips.sheet(problems, "Slips", "Slips 1", large)
    pages = PdfReader(io.BytesIO(sheet_pdf.pdf(made, paper))).pages
    wide = SIZES[paper][0] / 25.4 * 72
    field = made.pages[0].blocks[0].width / 25.4 * 72  # type: ignore[union-attr]
    met = 0
    for front, back in zip(pages[::2], pages[1::2], strict=True):
        behind = middles(back)
        for fact, x, y in middles(front):
            if fact not in answers:
                continue
            near = [text for text, at, high in behind if abs(wide - at - x) < field / 2 and abs(high - y) < 8]
            assert near == [answers[fact]], (fact, near)
            met += 1
    assert met == len(problems)


def test_a_name_is_never_markup() -> None:
    assert squeezed(NASTY) in texts(week(NASTY))[0]


def test_the_same_sheet_gives_the_same_bytes() -> None:
    assert sheet_pdf.pdf(week(), "a4") == sheet_pdf.pdf(week(), "a4")


def test_without_the_typesetter_it_says_what_to_do(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sheet_pdf, "find_spec", lambda name: None)
    with pytest.raises(Mendable, match="pip install"):
        sheet_pdf.pdf(week(), "a4")
