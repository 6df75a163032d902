"""A sheet as one page of HTML: self-contained, no script, nothing fetched, black on white, ready to print."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from html import escape

from review.core.boxes import BAR, TOLD, line_heights
from review.core.model import BOX
from review.core.paper import (
    LARGE,
    NORMAL,
    NOTE,
    ROOM_SHARE,
    Box,
    Cut,
    Drawing,
    Entries,
    Entry,
    Head,
    Page,
    Row,
    Sheet,
    Side,
    Size,
    Slips,
    Square,
    Squares,
    Start,
    Words,
)
from review.core.text import clean
from review.render import svg
from review.render.blank_drawings import FAMILY
from review.render.blank_drawings import svg as blank_svg

CSS = """
@page { margin: 14mm; }
* { box-sizing: border-box; }
:root { color-scheme: only light; }
html { color: black; background: white; font-family: FAMILY; }
body { margin: 0; }
.page { width: 178mm; height: 246mm; margin: 0 auto; display: flex; flex-direction: column;
  break-after: page; overflow: clip; }
.page:last-child { break-after: auto; }
.blocks { display: flex; flex-wrap: wrap; column-gap: 6mm; align-content: flex-start; flex: 1; }
svg { display: block; }
.blocks > * { flex: none; overflow: clip; }
.wide { width: 178mm; }
.foot { height: 9mm; padding-top: 4mm; display: flex; justify-content: space-between; font-size: 3.4mm;
  white-space: pre; }
h1, h2, p, pre, ol, table { margin: 0; font-weight: normal; }
.top { display: flex; flex-wrap: wrap; align-content: space-between; column-gap: 6mm;
  padding-bottom: 1.5mm; }
.top h1 { width: 100%; line-height: 1.2; white-space: nowrap; }
.top p { display: flex; align-items: flex-end; white-space: nowrap; }
.rule { display: inline-block; border-bottom: 0.3mm solid black; flex: 1; margin-left: 2mm; height: 6mm; }
.start { display: flex; align-items: center; column-gap: 6mm; }
.start > * { flex: none; white-space: nowrap; }
.start > p { display: flex; align-items: flex-end; }
.dot { display: inline-block; width: 3.4mm; height: 3.4mm; border: 0.3mm solid black; border-radius: 50%;
  margin-right: 1mm; }
.dot:nth-child(5n) { margin-right: 3.5mm; }
.tag { margin-left: auto; font-size: 3.4mm; text-align: right; }
.row { display: flex; column-gap: 6mm; }
.box { width: 86mm; display: flex; }
.box.whole { width: 178mm; }
.number { flex: none; }
.line { display: flex; align-items: center; white-space: pre; }
.room, .hole { display: inline-block; border: 0.4mm solid black; border-radius: 1mm; flex: none; }
.hole { vertical-align: middle; margin: 0 0.5mm; }
.note { white-space: nowrap; }
.shown { padding: 2mm 0 3mm; white-space: pre; }
pre { font-family: "DejaVu Sans Mono", "Liberation Mono", Consolas, Menlo, monospace; }
.pair { display: flex; column-gap: 6mm; align-items: center; }
.asked { padding-top: 2mm; }
.squares { margin-top: 1mm; overflow: visible; }
.cut { border-bottom: 0.3mm dashed black; margin-bottom: 4mm; }
.words { font-size: 4.2mm; line-height: 5.8mm; white-space: nowrap; display: flex;
  flex-direction: column; justify-content: flex-end; }
.words p:first-child { font-weight: bold; }
.entries { display: flex; column-gap: 6mm; font-size: 4.2mm; line-height: 5.8mm; }
.entry { width: 86mm; display: flex; white-space: nowrap; }
.entry .number { width: 11mm; }
.square { padding-top: 2mm; }
table { border-collapse: collapse; table-layout: fixed; }
td, th { border: 0.3mm solid black; text-align: center; vertical-align: middle; padding: 0;
  font-weight: normal; }
th { border-width: 0.6mm; font-weight: bold; }
td.rest { border-color: black; border-style: dotted; }
td.open { border-style: dotted; }
.fill { width: 80%; height: 80%; vertical-align: middle; }
.slips { display: grid; }
.slip { border: 0.25mm dashed black; display: flex; flex-direction: column; justify-content: center;
  text-align: center; line-height: 1.25; white-space: nowrap; margin: 0 -0.125mm -0.125mm 0; }
.none { border-color: white; }
@media screen { html { background: #ddd; } .page { background: white; margin: 8mm auto; padding: 0;
  outline: 8mm solid white; } }
""".replace("FAMILY", FAMILY)

ON_SCREEN = 740  # pixels: as wide as a page with its edge (194 mm), so that a telephone shows all of it
IN_CELL = 0.46  # of its side: letters in a cell of a square of facts
SIGN = 0.75  # of a square: letters in it

POLICY = "default-src 'none'; style-src 'unsafe-inline'"


def html(sheet: Sheet) -> str:
    """The whole document."""
    size = LARGE if sheet.large else NORMAL
    pages = "\n".join(page(one, n, sheet, size) for n, one in enumerate(sheet.pages, 1))
    return (
        "<!DOCTYPE html>\n"
        '<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">\n'
        f'<meta name="viewport" content="width={ON_SCREEN}">\n'
        f"<title>{text(sheet.name)}</title>\n<style>{CSS}</style>\n</head>\n"
        f"<body>\n{pages}\n</body>\n</html>\n"
    )


def text(words: str) -> str:
    return escape(clean(words))


def spaced(words: str) -> str:
    """With its spaces: they hold columns together, and numbers apart."""
    return " ".join(map(text, words.split(" ")))


def page(one: Page, n: int, sheet: Sheet, size: Size) -> str:
    inside = "\n".join(BLOCKS[type(block)](block, size) for block in one.blocks)
    marks = "" if one.key or one.side else sheet.marks
    said = (sheet.foot, marks, one.side or f"page {n} of {len(sheet.pages)}")
    foot = div("foot", many(f"<span>{text(words)}</span>" for words in said))
    kind = " key" if one.key else ""
    return f'<section class="page{kind}">\n<div class="blocks">\n{inside}\n</div>\n{foot}</section>'


def mm(**measures: float) -> str:
    """A style of lengths: mm(width=3) is `style="width:3mm"`."""
    told = ";".join(f"{name.replace('_', '-')}:{length:g}mm" for name, length in measures.items())
    return f'style="{told}"' if told else ""


def div(kind: str, inside: str, **measures: float) -> str:
    return f'<div class="{kind}" {mm(**measures)}>{inside}</div>'


def span(kind: str, **measures: float) -> str:
    """An empty one, that is drawn by its style."""
    return f'<span class="{kind}" {mm(**measures)}></span>'


def many(inside: Iterable[str]) -> str:
    return "".join(inside)


# --- what a child writes on ---------------------------------------------------------------------------


def head(block: Head, size: Size) -> str:
    letters = size.text * 0.8
    named = f"<span {mm(font_size=block.named)}>&nbsp;{text(block.name)}</span>"
    name = named if block.name else span("rule")
    day = f"<p {mm(width=80, font_size=letters)}>Day{span('rule')}</p>" if block.dated else ""
    title = f"<h1 {mm(font_size=block.letters)}>{text(block.title)}</h1>"
    whose = f"<p {mm(width=90, font_size=letters)}>Name{name}</p>" if block.signed else ""
    return div("top wide", title + whose + day, height=block.height)


def start(block: Start, size: Size) -> str:
    letters = size.text * 0.8
    day = f"<p {mm(width=50, font_size=letters)}>Day{span('rule')}</p>" if block.dated else ""
    dots = f"<p>{span('dot') * block.dots}</p>"
    words = many(f"<p {mm(font_size=block.letters)}>{text(words)}</p>" for words in block.words)
    said, tag = f"<div>{words}</div>", f'<span class="tag">{"<br>".join(map(text, block.tag))}</span>'
    lines = [day + said + dots + tag] if block.lines == 1 else [day + tag, said + dots]
    high = block.height / block.lines
    return div("wide", many(div("start", line, height=high) for line in lines), height=block.height)


def row(block: Row, size: Size) -> str:
    return div("row wide", many(box(one, size) for one in block.boxes), height=block.height)


def box(one: Box, size: Size) -> str:
    """The number stands beside the first line of what there is."""
    shown = bool(one.story or one.columns or one.picture)
    first = first_line(one, size)
    lowered = size.text * len(one.note) + 2 * shown
    number = div("line", f"{one.number}.", height=first, margin_top=lowered)
    asked = above(one, size) + (div("asked", prompt(one, size)) if one.beside else prompt(one, size))
    inside = note(one, size) + (div("pair", asked) if one.beside else asked) + squares(one, size)
    named = div("number", number, width=size.number, font_size=size.text * NOTE)
    return div(f"box{' whole' if one.wide else ''}", f"{named}<div>{inside}</div>")


def first_line(one: Box, size: Size) -> float:
    """Its height."""
    if one.story:
        return size.text * TOLD
    return max(one.letters * BAR, size.text) if one.columns or one.picture else line_heights(one, size)[0]


def note(one: Box, size: Size) -> str:
    shape = mm(height=len(one.note) * size.text, font_size=size.text * NOTE, line_height=size.text)
    return f'<p class="note" {shape}>{"<br>".join(map(text, one.note))}</p>' if one.note else ""


def above(one: Box, size: Size) -> str:
    """A story, a timetable or a picture, above the prompt."""
    if one.picture:
        return div("shown", svg.printed(one.picture, one.across, one.down))
    told = "\n".join(map(spaced, one.columns or one.story))
    if one.columns:
        return f'<pre class="shown" {mm(font_size=one.letters, line_height=one.letters * BAR)}>{told}</pre>'
    return div("shown", told, font_size=size.text, line_height=size.text * TOLD) if told else ""


def prompt(one: Box, size: Size) -> str:
    high = size.line * ROOM_SHARE
    room = span("room", width=one.room, height=high) if one.room else ""
    lines = [text(line).replace(BOX, span("hole", width=one.hole, height=high)) for line in one.lines]
    highs = line_heights(one, size)
    if room and one.below:
        lines, highs = [*lines, room], (*highs, size.line)
    elif room:
        lines[-1] += span("before", width=3) + room
    return many(
        div("line", line, height=high, font_size=size.text) for line, high in zip(lines, highs, strict=True)
    )


def squares(one: Box, size: Size) -> str:
    """Squared paper to work on; what is written on it stands in the prompt too."""
    if one.squares is None:
        return ""
    across, rows, _, _ = one.squares
    side = size.square
    width, height = across * side, rows * side
    lines = [f"M{n * side:g} 0V{height:g}" for n in range(across + 1)]
    lines += [f"M0 {n * side:g}H{width:g}" for n in range(rows + 1)]
    paths = f'<path d="{"".join(lines)}" fill="none" stroke="black" stroke-width="0.15"/>'
    view = f'width="{width:g}mm" height="{height:g}mm" viewBox="0 0 {width:g} {height:g}"'
    return f'<svg class="squares" {view} aria-hidden="true">{paths}{written(one.squares, side)}</svg>'


def written(on: Squares, side: float) -> str:
    letters = side * SIGN
    rules = (
        f'<path d="M{start * side:g} {row * side:g}H{end * side:g}" stroke="black" stroke-width="0.6"/>'
        for row, start, end in on.rules
    )
    signs = (
        f'<text x="{(column + 0.5) * side:g}" y="{(row + 0.5) * side + letters * 0.36:g}" '
        f'font-size="{letters:g}" text-anchor="middle">{text(sign)}</text>'
        for row, column, sign in on.signs
    )
    return many((*rules, *signs))


def cut(block: Cut, size: Size) -> str:
    return div("wide", div("cut", "", height=block.height / 2), height=block.height)


# --- what the grown-up reads --------------------------------------------------------------------------


def words(block: Words, size: Size) -> str:
    return div("words wide", many(f"<p>{text(line)}</p>" for line in block.lines), height=block.height)


def entries(block: Entries, size: Size) -> str:
    return div("entries wide", many(map(entry, (*block.left, *block.right))), height=block.height)


def entry(one: Entry) -> str:
    lines = "<br>".join(" &ensp;".join(parts) for parts in map(entry_line, one.lines))
    return f'<div class="entry"><span class="number">{one.number}.</span><div>{lines}</div></div>'


def entry_line(line: tuple[str, str]) -> list[str]:
    answer, prompt = map(text, line)
    return [*([f"<b>{answer}</b>"] if answer else []), *([prompt] if prompt else [])]


# --- squares, slips, blanks ---------------------------------------------------------------------------


def square(block: Square, size: Size) -> str:
    shape = mm(width=block.side, height=block.side)
    lines = many(square_row(line, "row" if n else "col", shape) for n, line in enumerate(block.rows))
    table = f"<table {mm(font_size=block.side * IN_CELL)}>{lines}</table>"
    return div("wide square", table, height=block.height)


def square_row(line: Sequence[tuple[str, str]], names: str, shape: str) -> str:
    """`names`: what the names in it stand above or before."""
    return f"<tr>{many(square_cell(*cell, names, shape) for cell in line)}</tr>"


def square_cell(sort: str, told: str, names: str, shape: str) -> str:
    tag, scope = ("th", f' scope="{names}"') if sort == "name" else ("td", "")
    inside = {"rest": "·", "open": '<span class="room fill"></span>'}.get(sort, text(told))
    return f'<{tag}{scope} class="{sort}" {shape}>{inside}</{tag}>'


def slips(block: Slips, size: Size) -> str:
    sides = many(slip(side, block) for line in block.rows for side in line)
    columns = f"grid-template-columns:repeat({len(block.rows[0])},{block.width:g}mm)"
    return f'<div class="slips wide" style="height:{block.height:g}mm;{columns}">{sides}</div>'


def slip(side: Side | None, block: Slips) -> str:
    if side is None:
        return div("slip none", "", width=block.width, height=block.each)
    lines = f"<span {mm(font_size=side.letters)}>{'<br>'.join(map(text, side.lines))}</span>"
    return div("slip", lines, width=block.width, height=block.each)


def drawing(block: Drawing, size: Size) -> str:
    return div("drawing", blank_svg(block), width=block.width, height=block.height)


BLOCKS: Mapping[type, Callable[..., str]] = {
    Head: head, Start: start, Row: row, Cut: cut, Words: words, Entries: entries, Square: square,
    Slips: slips, Drawing: drawing,
}  # fmt: skip
