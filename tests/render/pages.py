"""Reading a page as a browser would, with the standard library's parser."""

from html.parser import HTMLParser
from typing import NamedTuple

VOID = frozenset({"br", "col", "hr", "meta"})


class Element(NamedTuple):
    name: str
    attributes: dict[str, str]
    text: str


class Reader(HTMLParser):
    """Every element with its own text; AssertionError where one is not closed in its turn."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[tuple[str, dict[str, str], list[str]]] = []
        self.found: list[Element] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.open.append((tag, {name: value or "" for name, value in attrs}, []))
        if tag in VOID:
            self.handle_endtag(tag)

    def handle_endtag(self, tag: str) -> None:
        name, attributes, texts = self.open.pop()
        assert name == tag, f"<{name}> is closed by </{tag}>"
        self.found.append(Element(name, attributes, "".join(texts)))

    def handle_data(self, data: str) -> None:
        if self.open:
            self.open[-1][2].append(data)


def elements(page: str) -> list[Element]:
    reader = Reader()
    reader.feed(page)
    reader.close()
    assert reader.open == []
    return reader.found


def named(page: str, name: str) -> list[Element]:
    return [one for one in elements(page) if one.name == name]
