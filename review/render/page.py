"""Pages of HTML: markup made from data, every text escaped through one function, one style for screen and
paper. A page stands alone: no script, and nothing is ever fetched."""

import re
from collections.abc import Iterable, Sequence
from html import escape
from typing import NamedTuple

from review.core.text import clean

ATTRIBUTE = re.compile(r"[a-z]+(-[a-z0-9]+)*|viewBox")
EMPTY = frozenset({"br", "col", "hr", "meta"})  # elements without an end (HTML standard, void elements)

# Text #1a1a1a and blue #1f4e79 on white have contrasts of 17 and 8.6 to 1; WCAG 2.2 asks for 4.5 (1.4.3).
STYLES = """
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { font: 1rem/1.5 system-ui, sans-serif; color: #1a1a1a; background: #fff; max-width: 56rem;
  margin: 0 auto; padding: 1rem; overflow-wrap: break-word; }
h1, h2, h3, figcaption, caption { line-height: 1.25; text-align: left; }
h1 { font-size: 1.5rem; } h2 { font-size: 1.3rem; } h3, figcaption, caption { font-size: 1.05rem; }
figcaption, caption { font-weight: 600; padding-bottom: .4rem; }
figure { margin: 1.5rem 0; }
svg { display: block; width: 100%; max-width: 36rem; height: auto; }
svg text { font: 12px system-ui, sans-serif; fill: #1a1a1a; }
table { border-collapse: collapse; width: 100%; margin: 1rem 0; }
figure table { max-width: 36rem; }
th, td { text-align: left; vertical-align: top; padding: .25rem .75rem .25rem 0;
  border-bottom: 1px solid #767676; }
thead th { border-bottom-width: 2px; }
tbody th { font-weight: normal; }
figure tbody th { white-space: nowrap; }
.note { font-size: .9rem; }
@media screen and (max-width: 40rem) {
  .stack, .stack caption, .stack tbody, .stack tr, .stack th, .stack td { display: block; border: 0;
    padding: 0; }
  .stack thead { display: none; }
  .stack tr { border-bottom: 1px solid #767676; padding: .5rem 0; }
  .stack tbody th { font-weight: 600; }
  .stack td[data-label]:not(:empty)::before { content: attr(data-label) ": "; font-weight: 600; }
}
@media print, (min-width: 52rem) {
  figure { display: grid; grid-template-columns: 1fr 1fr; column-gap: 2rem; align-items: start; }
  figcaption { grid-column: 1 / 3; }
  figure table { margin: 0; }
}
@media print {
  body { max-width: none; padding: 0; font-size: 10pt; line-height: 1.35; }
  figure, tr, .whole { break-inside: avoid; }
  h1, h2, h3, caption, figcaption, thead { break-after: avoid; }
  tbody tr:first-child { break-before: avoid; }
  section + section { break-before: page; }
  th, td { padding-top: .1rem; padding-bottom: .1rem; }
}
@page { margin: 15mm; }
"""


class Html(str):
    """Markup that may stand in a page as it is. A text of the family becomes it through `text` alone."""

    __slots__ = ()


Inside = str | Html | None


def text(value: str) -> Html:
    """A text of the family, cleaned and escaped; markup is left as it is."""
    return value if isinstance(value, Html) else Html(escape(clean(value)))


def tag(name: str, /, *inside: Inside, **attributes: str | None) -> Html:
    """An element. A trailing underscore is left off an attribute's name, others become hyphens; an attribute
    or a part that is None is left out."""
    named = ((key.rstrip("_").replace("_", "-"), value) for key, value in attributes.items())
    told = "".join(f' {checked(key)}="{text(value)}"' for key, value in named if value is not None)
    if name in EMPTY:
        return Html(f"<{name}{told}>")
    return Html(f"<{name}{told}>{together(inside)}</{name}>")


def checked(name: str) -> str:
    """Attribute names are ours; a slip of ours ends here and not in a page."""
    if not ATTRIBUTE.fullmatch(name):
        raise ValueError(f"not an attribute: {name!r}")
    return name


def together(parts: Iterable[Inside]) -> Html:
    return Html("".join(text(part) for part in parts if part is not None))


class Table(NamedTuple):
    """Cells of a table; the first of each row names the row."""

    caption: str
    heads: Sequence[str]
    rows: Sequence[Sequence[str]]
    stacks: bool = False  # on a narrow screen each cell gets a line of its own


def table(made: Table) -> Html:
    head = tag("tr", *(tag("th", name, scope="col") for name in made.heads))
    rows = (
        tag(
            "tr",
            tag("th", row[0], scope="row"),
            *(tag("td", cell, data_label=label) for label, cell in zip(made.heads[1:], row[1:], strict=True)),
        )
        for row in made.rows
    )
    return tag(
        "table",
        tag("caption", made.caption) if made.caption else None,
        tag("thead", head),
        tag("tbody", *rows),
        class_="stack" if made.stacks else None,
    )


def listed(lines: Iterable[str]) -> Html | None:
    """A list, or nothing where there is nothing to list."""
    items = [tag("li", line) for line in lines]
    return tag("ul", *items) if items else None


def page(title: str, *body: Inside) -> str:
    """A whole page. The policy in its head forbids a browser to fetch or run anything."""
    policy = "default-src 'none'; style-src 'unsafe-inline'"
    head = together(
        (
            tag("meta", charset="utf-8"),
            tag("meta", http_equiv="Content-Security-Policy", content=policy),
            tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
            tag("title", title),
            tag("style", Html(STYLES)),
        )
    )
    made = tag("html", tag("head", head), tag("body", tag("main", *body)), lang="en")
    return f"<!DOCTYPE html>\n{made}\n"
