"""A page of HTML as a tree, read after the WHATWG standard; what the standard calls a parse error fails."""

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from tinyhtml5.parser import HTMLParser


def read(page: str) -> Element:
    parser = HTMLParser(namespace_html_elements=False)
    root: Element = parser.parse(page)
    assert not parser.errors, parser.errors[:3]
    return root


def named(root: Element, tag: str) -> list[Element]:
    """Also those of SVG, which have a namespace of their own."""
    return [node for node in root.iter() if str(node.tag).rpartition("}")[2] == tag]


def of_class(root: Element, *names: str) -> list[Element]:
    """Elements that have one of the classes."""
    return [node for node in root.iter() if set(names) & set(node.attrib.get("class", "").split())]


def text(node: Element) -> str:
    """What is read in it, with single spaces."""
    return " ".join(" ".join(node.itertext()).split())


def texts(nodes: list[Element]) -> list[str]:
    return [text(node) for node in nodes]


def attributes(root: Element) -> Iterator[str]:
    for node in root.iter():
        yield from node.attrib
