"""A sheet as a PDF, with the extra `pdf`; the one room that imports the typesetter.

The typesetter is given a program of ours and the sheet as JSON, so that nothing in a name or a problem is
ever read as markup. It draws the blocks with the measures they have.
"""

import json
from collections.abc import Callable, Mapping
from importlib.resources import files
from importlib.util import find_spec
from typing import Any, Literal

from review.core.boxes import line_heights
from review.core.paper import (
    GAP,
    HALF,
    LARGE,
    NORMAL,
    ROOM_SHARE,
    WIDTH,
    Block,
    Box,
    Drawing,
    Page,
    Row,
    Sheet,
    Size,
)
from review.core.picture_words import sentence
from review.core.text import clean
from review.errors import Mendable
from review.render import svg
from review.render.blank_drawings import svg as blank_svg

Paper = Literal["a4", "letter"]
PAPERS: Mapping[Paper, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
FONTS = ("DejaVu Sans", "Noto Sans", "Liberation Sans", "Arial", "Helvetica")
"""Plain ones without strokes at the ends, as first readers are set in; the one that comes with the typesetter
where a computer has none of them."""
OWN_FONT = "Libertinus Serif"
MISSING = (
    "A PDF needs one package more: pip install typst. "
    "Without it, choose a name that ends in .html and print that page."
)


def check() -> None:
    """Whether a PDF can be made here; Mendable where not."""
    if find_spec("typst") is None:
        raise Mendable(MISSING)


def pdf(sheet: Sheet, paper: Paper) -> bytes:
    return typeset(sheet, paper, "pdf", 72.0)[0]


def typeset(sheet: Sheet, paper: Paper, format: Literal["pdf", "png"], dots: float) -> list[bytes]:
    check()
    import typst

    fonts = typefaces()
    told: Any
    told, _ = typst.compile_with_warnings(
        files("review.render").joinpath("sheet.typ").read_bytes(),
        sys_inputs={"sheet": json.dumps(table(sheet, paper, fonts), ensure_ascii=False)},
        format=format,
        ppi=dots,
    )
    return told if isinstance(told, list) else [told]


def typefaces() -> list[str]:
    """Those that are asked for, in this order; where none of them has a sign, any other that does."""
    import typst

    known = set(typst.Fonts().families())
    return [font for font in FONTS if font in known] + [OWN_FONT]


# --- what cannot be shown -----------------------------------------------------------------------------

NO_SIGN = "\U0010ffff"
"""A code point that is no sign and never will be (The Unicode Standard, 23.7): no typeface has it, and what
stands in its place is what stands in the place of any sign that is not there."""
EACH_ALONE = b"""
#let told = json(bytes(sys.inputs.told))
#set page(width: 40pt, height: 40pt, margin: 0pt)
#set text(font: told.fonts)
#for sign in told.signs { page(sign) }
"""


def unshown(sheet: Sheet) -> tuple[str, ...]:
    """The signs of a sheet that no typeface of this computer has: an empty box is printed for each."""
    import typst

    fonts = typefaces()
    every = json.dumps(table(sheet, "a4", fonts), ensure_ascii=False)
    signs = [*dict.fromkeys(sign for sign in every if not sign.isascii())]
    told = json.dumps({"fonts": fonts, "signs": [NO_SIGN, *signs, NO_SIGN]}, ensure_ascii=False)
    box, *drawn, _ = typst.compile(EACH_ALONE, sys_inputs={"told": told}, format="svg")
    return tuple(sign for sign, one in zip(signs, drawn, strict=True) if one == box)


# --- as JSON ------------------------------------------------------------------------------------------


def table(sheet: Sheet, paper: Paper, fonts: list[str]) -> dict[str, Any]:
    size = LARGE if sheet.large else NORMAL
    return {
        "name": clean(sheet.name),
        "foot": clean(sheet.foot),
        "marks": sheet.marks,
        "paper": PAPERS[paper],
        "fonts": fonts,
        "size": size._asdict() | {"room": size.line * ROOM_SHARE},
        "pages": [page_table(page, size) for page in sheet.pages],
    }


def page_table(page: Page, size: Size) -> dict[str, Any]:
    return {
        "key": page.key,
        "side": page.side,
        "blocks": [block_table(block, size) for block in page.blocks],
    }


def block_table(block: Block, size: Size) -> dict[str, Any]:
    """Its fields by name; a list or a table where they are nouns themselves."""
    own: Callable[[Any, Size], dict[str, Any]] = OWN.get(type(block), lambda block, size: {})
    return {"sort": type(block).__name__} | plain(block) | own(block, size)


def plain(noun: Any) -> dict[str, Any]:
    return {name: value(one) for name, one in noun._asdict().items()}


def value(one: Any) -> Any:
    if isinstance(one, tuple):
        return plain(one) if hasattr(one, "_asdict") else [value(inner) for inner in one]
    return one


def row_table(row: Row, size: Size) -> dict[str, Any]:
    return {"boxes": [box_table(box, size) for box in row.boxes]}


def box_table(box: Box, size: Size) -> dict[str, Any]:
    drawn = svg.printed(box.picture, box.across, box.down) if box.picture else ""
    said = sentence(box.picture) if box.picture else ""
    highs = line_heights(box, size)
    return plain(box) | {"width": inside(box, size), "highs": highs, "picture": drawn, "said": said}


def inside(box: Box, size: Size) -> float:
    """The width beside the number, and beside the picture where the prompt stands there."""
    return (WIDTH if box.wide else HALF) - size.number - box.beside * (box.across + GAP)


def drawing_table(drawing: Drawing, size: Size) -> dict[str, Any]:
    return {"svg": blank_svg(drawing)}


OWN: Mapping[type, Callable[[Any, Size], dict[str, Any]]] = {Row: row_table, Drawing: drawing_table}
