"""What a validator asks of a page beyond what a parser sees, as a list of sentences; [] for a sound page.

From the HTML Standard (WHATWG: 3.2.6.1 ids, 4.2.2 title, 4.9.10 scope) and WCAG 2.2 (1.1.1 text for pictures,
1.3.1 headings and table headers, 3.1.1 language); their numbers from memory.
"""

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise
from xml.etree.ElementTree import Element

REFERENCES = ("aria-labelledby", "aria-describedby", "aria-controls", "for", "headers")
SCOPES = ("row", "col", "rowgroup", "colgroup")


def faults(root: Element) -> list[str]:
    return [*of_the_whole(root), *of_names(root), *of_headings(root), *of_pictures(root), *of_tables(root)]


def tags(root: Element, *names: str) -> list[Element]:
    return [node for node in root.iter() if str(node.tag).rpartition("}")[2] in names]


def of_the_whole(root: Element) -> Iterator[str]:
    if not root.attrib.get("lang"):
        yield "the page names no language"
    titles = [
        " ".join("".join(node.itertext()).split())
        for head in tags(root, "head")
        for node in tags(head, "title")
    ]
    if len(titles) != 1 or not titles[0]:
        yield f"a page has one title, not {titles}"


def of_names(root: Element) -> Iterator[str]:
    ids = Counter(node.attrib["id"] for node in root.iter() if "id" in node.attrib)
    yield from (f"the id {name!r} stands {count} times" for name, count in ids.items() if count > 1)
    for node in root.iter():
        wanted = [name for key in REFERENCES for name in node.attrib.get(key, "").split()]
        yield from (
            f"<{node.tag}> points to {name!r}, which is not there" for name in wanted if name not in ids
        )


def of_headings(root: Element) -> Iterator[str]:
    levels = [int(str(node.tag)[1]) for node in tags(root, "h1", "h2", "h3", "h4", "h5", "h6")]
    yield from (f"<h{b}> follows <h{a}>" for a, b in pairwise([0, *levels]) if b > a + 1)
    yield from (
        "a heading is empty" for node in tags(root, "h1", "h2", "h3") if not "".join(node.itertext()).strip()
    )


def of_pictures(root: Element) -> Iterator[str]:
    hidden = {
        id(node) for one in root.iter() if one.attrib.get("aria-hidden") == "true" for node in one.iter()
    }
    for node in tags(root, "svg", "img"):
        if id(node) not in hidden and not (node.attrib.get("aria-label") or node.attrib.get("alt")):
            yield f"a picture <{node.tag}> says nothing to one who cannot see it"


def of_tables(root: Element) -> Iterator[str]:
    for table in tags(root, "table"):
        if table.attrib.get("role") == "presentation":
            continue
        if not tags(table, "th"):
            yield "a table has no headers"
        yield from (
            "a <th> has no scope" for node in tags(table, "th") if node.attrib.get("scope") not in SCOPES
        )
