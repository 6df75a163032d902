"""Pages: nothing of the family's becomes markup, nothing is fetched, and everything can be read."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.text import clean
from review.render import charts, page
from review.render.page import Html, Table, table, tag
from tests.render.pages import elements, named

HOSTILE = [
    "<script>alert(1)</script>", "</style><b>", "a & b", '" onload="x', "'><img src=x>", "&lt;", "\x1b[31m",
    "]]>", "<!--", "\u202eabc",
]  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_a_name_stays_a_text_wherever_it_stands(name: str) -> None:
    made = page.page(
        name,
        tag("h1", name, title=name),
        table(Table(name, ("a", name), [(name, name)])),
        charts.figure(charts.Chart(name, name, charts.label(name, 1, 2), Table("", ("a",), []))),
    )
    found = elements(made)
    shown = {"title", "h1", "caption", "th", "td", "figcaption", "text"}
    assert {one.name for one in found} <= shown | {
        "html", "head", "body", "main", "meta", "style", "table", "thead", "tbody", "tr", "figure", "svg",
    }  # fmt: skip
    assert sum(one.text == clean(name) for one in found) >= 8
    assert all(set(one.attributes) <= {"title"} for one in found if one.name == "h1")


@given(st.text())
def test_any_text_comes_back_as_it_was_cleaned(value: str) -> None:
    (one,) = elements(tag("p", value, title=value))
    assert (one.text, one.attributes["title"]) == (clean(value), clean(value))


def test_markup_is_not_escaped_twice() -> None:
    assert tag("p", tag("b", "1 < 2")) == "<p><b>1 &lt; 2</b></p>"
    assert isinstance(tag("p"), Html)


def test_an_attribute_of_a_strange_name_is_a_slip_of_ours() -> None:
    with pytest.raises(ValueError, match="not an attribute"):
        tag("p", **{'x" onload': "1"})


def test_a_page_fetches_and_runs_nothing() -> None:
    made = page.page("A page", tag("p", "words"))
    assert not re.search(r"<script|<link|<img|<iframe|src=|href=|url\(|@import|javascript:", made)
    (policy,) = (one for one in named(made, "meta") if "http-equiv" in one.attributes)
    assert policy.attributes["content"].startswith("default-src 'none'")
    assert "//" not in made


# Contrast as WCAG 2.2 defines it (relative luminance, 1.4.3: at least 4.5 to 1 for text); formula from the
# standard, from memory.
def luminance(colour: str) -> float:
    parts = (int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize(
    "colour", sorted({*re.findall("#[0-9a-f]{6}", page.STYLES), charts.INK, charts.BLUE})
)
def test_every_ink_has_contrast_enough_on_white(colour: str) -> None:
    assert 1.05 / (luminance(colour) + 0.05) >= 4.5


# --- charts ---


def places(drawn: str, name: str) -> list[float]:
    return [float(value) for value in re.findall(rf'{name}="(-?[0-9.]+)"', drawn)]


@given(st.lists(st.integers(0, 5000), min_size=1, max_size=300))
def test_a_chart_stays_inside_its_frame(values: list[int]) -> None:
    names = [f"{n} Nov" for n in range(len(values))]
    met = charts.Series("met", values, "5 3")
    for drawn in (charts.bars(names, values), charts.curves(names, [met, met._replace(name_below=True)])):
        assert all(0 <= x <= charts.WIDE for x in places(drawn, "x") + places(drawn, "cx"))
        assert all(0 <= y <= charts.HIGH for y in places(drawn, "y") + places(drawn, "cy"))
        assert len(re.findall("Nov", drawn)) <= charts.MOST_LABELS


@given(st.floats(0, 100), st.floats(0, 100))
def test_a_point_stands_where_both_scales_say(across: float, up: float) -> None:
    drawn = charts.against([charts.Interval(across, up, 0, 100)], 0)
    frame = charts.Frame(0, 100, 0, 100)
    assert places(drawn, "cx") == [pytest.approx(frame.x(across), abs=0.06)]
    assert places(drawn, "cy") == [pytest.approx(frame.y(up), abs=0.06)]
    assert frame.y(100) < frame.y(0)


def test_a_figure_has_words_and_a_table() -> None:
    made = charts.figure(
        charts.Chart(
            "Minutes",
            "Between 3 and 5.",
            charts.bars(["a"], [3]),
            Table("", ("week", "minutes"), [("a", "3")]),
        )
    )
    (svg,) = named(made, "svg")
    assert (svg.attributes["role"], svg.attributes["aria-label"]) == ("img", "Between 3 and 5.")
    assert [one.text for one in named(made, "td")] == ["3"]
    assert all(one.attributes["scope"] in ("row", "col") for one in named(made, "th"))
