"""The pages of the desk in a browser: nothing in its console, nothing fetched, no scrolling sideways on a
telephone, and on paper no chart cut in two."""

import io
import re
from collections.abc import Callable, Iterator
from pathlib import Path

from pypdf import PdfReader

from review.app import demo
from review.cli import run
from tests.render.reading import named, read, text

NARROW = 360  # columns of a small telephone in CSS pixels (common practice, no source)
DAY = 739_945
SIZES = ("A4", "letter")  # names of CSS Paged Media
Browsed = Callable[..., str]

WIDTH = "<script>parent.postMessage(document.documentElement.scrollWidth, '*')</script></body>"
FRAME = (
    "<!DOCTYPE html><title>none</title><script>onmessage = said => document.title = 'WIDE ' + said.data"
    "</script><iframe width={} height=800 style='border:0' src='inside.html'></iframe>"
)


def pages(folder: Path) -> Iterator[tuple[str, str]]:
    """What a family that practised a season prints, by name."""
    book = demo.play(folder / "season", DAY)
    for name, words in (("progress", ("progress", "--html")), ("log", ("log", "--out"))):
        target = folder / f"{name}.html"
        assert run(["--book", str(book), *words, str(target), "--force", "--on", "2026-12-01"]) == 0
        yield name, target.read_text(encoding="utf-8")


def troubles(name: str, page: str, folder: Path, browsed: Browsed, console: Browsed) -> Iterator[str]:
    source = folder / f"{name}.html"
    said = [line for line in console(folder, source.as_uri()).splitlines() if "CONSOLE" in line]
    yield from (f"{name}: the console says {line}" for line in said)
    if re.search(r"\b(?:src|href)=|url\(|@import", page):
        yield f"{name}: it asks for something"
    wide = width_at(NARROW, page, folder, browsed)
    if wide > NARROW:
        yield f"{name}: {wide} wide on a screen of {NARROW}"
    for size in SIZES:
        yield from (f"{name} on {size}: {one}" for one in cut(page, size, folder / f"{name}-{size}", browsed))


def width_at(narrow: int, page: str, folder: Path, browsed: Browsed) -> int:
    bare = re.sub(r"<meta http-equiv[^>]*>", "", page)
    (folder / "inside.html").write_text(bare.replace("</body>", WIDTH), encoding="utf-8")
    (folder / "frame.html").write_text(FRAME.format(narrow), encoding="utf-8")
    told = browsed(folder, "--virtual-time-budget=3000", "--dump-dom", (folder / "frame.html").as_uri())
    found = re.search(r"<title>WIDE (\d+)</title>", told)
    return int(found[1]) if found else 10**6


def cut(page: str, size: str, place: Path, browsed: Browsed) -> Iterator[str]:
    """Charts whose caption and whose every label do not stand on one sheet, tables whose name, head and first
    row do not."""
    source, target = place.with_suffix(".html"), place.with_suffix(".pdf")
    source.write_text(page.replace("</style>", f"@page {{ size: {size}; }}</style>", 1), encoding="utf-8")
    browsed(place.parent, "--no-pdf-header-footer", f"--print-to-pdf={target}", source.as_uri())
    sheets = [squeezed(one.extract_text()) for one in PdfReader(io.BytesIO(target.read_bytes())).pages]
    for figure in named(read(page), "figure"):
        caption = text(named(figure, "figcaption")[0])
        labels = [text(node) for node in figure.iter() if str(node.tag).endswith("}text")]
        wanted = [squeezed(one) for one in (caption, *labels)]
        if not any(all(one in sheet for one in wanted) for sheet in sheets):
            yield f"the chart “{caption}” is cut"
    for table in named(read(page), "table"):
        begin = [*named(table, "caption"), *(named(row, "th")[0] for row in named(table, "tr")[1:2])]
        words = [one for node in begin for one in text(node).split()]  # a name may be broken into lines
        if not any(all(one in sheet for one in words) for sheet in sheets):
            yield f"the table “{text(begin[0])}” begins on one sheet and goes on without a row"


def squeezed(words: str) -> str:
    return re.sub(r"\s", "", words)
