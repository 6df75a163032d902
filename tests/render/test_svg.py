"""Pictures on a page: well-formed, self-contained, without colours, and with their sentence in words."""

import re
from random import Random
from xml.etree import ElementTree

import pytest

from review.core import skills
from review.core.picture_words import sentence
from review.core.pictures import ClockFace, Lines, Mat, NumberLine, Picture, Rectangle, TenFrames
from review.render.svg import DRAWN, LETTERS, extent, printed, svg
from tests.core.picture_samples import GOLDEN, SAMPLES
from tests.core.test_picture_steps import keys

SVG = "{http://www.w3.org/2000/svg}"
SHAPES = {"svg", "desc", "g", "line", "rect", "circle", "path", "text"}
"""Elements of SVG 2 that draw or hold (W3C, SVG 2, chapters 5, 9 to 11); none that fetches or runs."""
GREYS = {"#000", "#fff", "#aaa", "none"}


def read(picture: Picture) -> ElementTree.Element:
    return ElementTree.fromstring(svg(picture))


@pytest.mark.parametrize("name", SAMPLES)
def test_a_drawing_as_it_is_kept(name: str) -> None:
    assert svg(SAMPLES[name]) + "\n" == (GOLDEN / f"{name}.svg").read_text(encoding="utf-8")


def test_every_noun_is_drawn() -> None:
    assert set(DRAWN) == set(Picture.__args__)


@pytest.mark.parametrize("name", SAMPLES)
def test_a_drawing_is_whole_in_itself(name: str) -> None:
    root = read(SAMPLES[name])
    assert {element.tag for element in root.iter()} <= {SVG + shape for shape in SHAPES}
    assert root.get("role") == "img"
    assert root.get("aria-label") == root.findtext(f"{SVG}desc") == sentence(SAMPLES[name])
    for element in root.iter():
        assert element.get("fill", "none") in GREYS
        assert element.get("stroke", "none") in GREYS
        assert not {"href", "class", "id", "onclick"} & set(element.keys())
    assert "url(" not in svg(SAMPLES[name])


def shift(element: ElementTree.Element) -> tuple[float, float]:
    found = re.fullmatch(r"translate\((\S+) (\S+)\)", element.get("transform", "translate(0 0)"))
    assert found
    return float(found[1]), float(found[2])


def corners(element: ElementTree.Element, x: float = 0, y: float = 0) -> list[tuple[float, float]]:
    """Corners and centres of all that is drawn, where they lie on the page."""
    dx, dy = shift(element)
    x, y = x + dx, y + dy
    pairs = [("x", "y"), ("x1", "y1"), ("x2", "y2"), ("cx", "cy")]
    found = [
        (x + float(element.get(a, "0")), y + float(element.get(b, "0"))) for a, b in pairs if element.get(a)
    ]
    if element.get("width") and element.tag != f"{SVG}svg":
        left, top = found[0]
        found.append((left + float(element.get("width", "0")), top + float(element.get("height", "0"))))
    return found + [corner for child in element for corner in corners(child, x, y)]


@pytest.mark.parametrize("name", SAMPLES)
def test_nothing_lies_outside_its_view(name: str) -> None:
    root = read(SAMPLES[name])
    left, top, wide, high = map(float, root.get("viewBox", "").split())
    for x, y in corners(root):
        assert left <= x <= left + wide
        assert top <= y <= top + high


@pytest.mark.parametrize("name", SAMPLES)
def test_on_paper_it_is_the_same_drawing_in_millimetres(name: str) -> None:
    """Its extent is told in parts of its letters: so wide and so high, it has its own shape."""
    picture = SAMPLES[name]
    wide, high = extent(picture)
    root = ElementTree.fromstring(printed(picture, round(wide * 5, 1), round(high * 5, 1)))
    assert (root.get("width"), root.get("height")) == (
        f"{round(wide * 5, 1):g}mm",
        f"{round(high * 5, 1):g}mm",
    )
    _, _, *view = map(float, root.get("viewBox", "").split())
    assert view == pytest.approx([wide * LETTERS, high * LETTERS], abs=0.06)
    assert float(root.get("font-size", "")) == LETTERS
    assert [ElementTree.tostring(one) for one in root] == [ElementTree.tostring(one) for one in read(picture)]


def test_a_square_is_drawn_square() -> None:
    drawn = read(Rectangle("4 cm", "")).find(f"{SVG}rect")
    assert drawn is not None
    assert drawn.get("width") == drawn.get("height")


def test_counters_are_counted() -> None:
    frames = read(TenFrames(8, 5, 0))
    assert len(frames.findall(f".//{SVG}circle")) == 8
    assert len(frames.findall(f".//{SVG}path")) == 5
    mat = read(Mat(("tens", "ones"), ((4, 7), (2, 5))))
    assert len(mat.findall(f".//{SVG}circle")) == 18
    assert [text.text for text in mat.iter(f"{SVG}text")] == ["tens", "ones"]


def test_names_stand_in_their_order_along_a_line() -> None:
    line = SAMPLES["number-line-with-an-arrow"]
    assert isinstance(line, NumberLine)
    found = [(float(text.get("x", "")), text.text) for text in read(line).iter(f"{SVG}text")]
    assert [text for _, text in sorted(found)] == [mark.name for mark in line.marks]


LETTER_BOX = 9.6, 11.0
"""Of a numeral at 15 px: DejaVu Sans, one of the broadest faces, has numerals .636 wide and .73 high."""


def number_box(text: ElementTree.Element) -> tuple[float, float, float, float]:
    """Left, top, right, bottom."""
    wide, high = LETTER_BOX[0] * len(text.text or "") / 2, LETTER_BOX[1]
    x, y = float(text.get("x", "")), float(text.get("y", ""))
    return x - wide, y - high, x + wide, y


TIMES = [(hour, minute) for hour in range(1, 13) for minute in range(0, 60, 5)]


@pytest.mark.parametrize("marked", [False, True])
def test_no_hand_of_a_clock_and_no_mark_runs_into_a_number(marked: bool) -> None:
    """Else its tip looks out behind the number it points at like a full stop."""
    for hour, minute in [*TIMES, (7, 52), (12, 59), (10, 11), (11, 1)]:
        face = read(ClockFace(hour, minute, marked=marked))
        boxes = [number_box(text) for text in face.iter(f"{SVG}text")]
        assert len(boxes) == 12
        for one in face.iter(f"{SVG}line"):
            (x1, y1), (x2, y2) = corners(one)
            along = [(x1 + (x2 - x1) * n / 50, y1 + (y2 - y1) * n / 50) for n in range(51)]
            assert not [
                1 for x, y in along for left, top, right, bottom in boxes
                if left < x < right and top < y < bottom
            ]  # fmt: skip


def test_the_numbers_of_a_clock_stand_clear_of_its_rim_and_its_ring() -> None:
    face = read(ClockFace(12, 0))
    rim, ring = (
        float(one.get("r", "")) for one in face.findall(f"{SVG}circle") if one.get("fill", "none") == "none"
    )
    for left, top, right, bottom in map(number_box, face.iter(f"{SVG}text")):
        away = [((x - rim) ** 2 + (y - rim) ** 2) ** 0.5 for x in (left, right) for y in (top, bottom)]
        nearest = ((min(max(rim, left), right) - rim) ** 2 + (min(max(rim, top), bottom) - rim) ** 2) ** 0.5
        assert ring < nearest
        assert max(away) < rim


def test_the_long_hand_of_a_clock_reaches_the_marks_and_the_short_one_does_not() -> None:
    """To the minute a face is read by its marks."""
    for hour, minute in TIMES:
        face = read(ClockFace(hour, minute, marked=True))
        *marks, short, long = (
            sorted(((x - 90) ** 2 + (y - 90) ** 2) ** 0.5 for x, y in corners(one))
            for one in face.iter(f"{SVG}line")
        )
        assert len(marks) == 60
        assert max(inner for inner, _ in marks) < long[1] < min(outer for _, outer in marks)
        assert short[1] < 0.75 * long[1]


def test_what_a_parent_wrote_is_only_text() -> None:
    root = read(Lines(('<script>alert("x")</script> & 5 < 7', "\x1b[2J")))
    assert {element.tag for element in root.iter()} <= {SVG + shape for shape in SHAPES}
    assert "<script>" in "".join(root.itertext())


def test_every_picture_of_the_catalogue_is_a_drawing() -> None:
    for key in keys()[::7]:
        problem = skills.problem(key, skills.draw(key, Random(key)))
        for picture in (problem.picture, *(help.picture for help in problem.helps)):
            if picture is not None:
                read(picture)
