"""Charts as SVG, each with what it shows in words and a table under it. Shapes and dashes tell things apart,
never colour alone."""

from collections.abc import Iterable, Sequence
from math import ceil
from typing import NamedTuple

from review.render.page import Html, Table, table, tag, together

WIDE, HIGH = 360, 200
LEFT, RIGHT, TOP, FOOT = 40, 24, 18, 34  # around the plot, for labels of 12 units
INK, BLUE, GRID = "#1a1a1a", "#1f4e79", "#c8c8c8"
MOST_LABELS = 6  # below, before they touch (measured at 12 units a letter)
STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000)
LINES = 4  # across, about so many


class Chart(NamedTuple):
    title: str
    words: str  # what one sees in it
    drawn: Html
    table: Table


class Series(NamedTuple):
    """A line of a chart; dashes tell it from the other."""

    name: str
    values: Sequence[float]
    dashes: str = ""
    name_below: bool = False  # of the lower line, so that two names never meet


class Interval(NamedTuple):
    """A point with the range the truth lies in."""

    across: float
    up: float
    low: float
    high: float


def figure(chart: Chart) -> Html:
    """The picture with its table under it. The words stand for the picture where it is not seen."""
    svg = tag(
        "svg",
        tag("title", chart.words),
        chart.drawn,
        viewBox=f"0 0 {WIDE} {HIGH}",
        role="img",
        aria_label=chart.words,
    )
    return tag(
        "figure",
        tag("figcaption", chart.title),
        svg,
        table(chart.table),
    )


# --- the frame ----------------------------------------------------------------------------------------


class Frame(NamedTuple):
    """From numbers to places: the ends of both scales."""

    left: float
    right: float
    low: float
    high: float

    def x(self, value: float) -> float:
        return LEFT + (value - self.left) / (self.right - self.left) * (WIDE - LEFT - RIGHT)

    def y(self, value: float) -> float:
        return HIGH - FOOT - (value - self.low) / (self.high - self.low) * (HIGH - TOP - FOOT)


def step_for(most: float) -> int:
    return next((step for step in STEPS if step * LINES >= most), STEPS[-1])


def frame_for(count: int, most: float) -> Frame:
    """For so many things side by side, from nothing to the next round number over the most."""
    step = step_for(most)
    return Frame(-0.5, count - 0.5, 0, step * max(1, ceil(most / step)))


def number(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def line(x1: float, y1: float, x2: float, y2: float, ink: str = GRID, dashes: str = "") -> Html:
    return tag(
        "path",
        d=f"M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}",
        stroke=ink,
        fill="none",
        stroke_dasharray=dashes or None,
    )


def label(words: str, x: float, y: float, anchor: str = "middle") -> Html:
    return tag("text", words, x=number(x), y=number(y), text_anchor=anchor)


def across_lines(frame: Frame, steps: Iterable[float], sign: str = "") -> Html:
    return together(
        part
        for value in steps
        for part in (
            line(LEFT, frame.y(value), WIDE - RIGHT, frame.y(value)),
            label(f"{number(value)}{sign}", LEFT - 6, frame.y(value) + 4, "end"),
        )
    )


def count_lines(frame: Frame) -> Html:
    step = step_for(frame.high)
    return across_lines(frame, range(0, round(frame.high) + 1, step))


def labels_below(frame: Frame, names: Sequence[str]) -> Html:
    every = max(1, ceil(len(names) / MOST_LABELS))
    return together(
        label(name, frame.x(n), HIGH - FOOT + 18) for n, name in enumerate(names) if n % every == 0
    )


# --- the charts ---------------------------------------------------------------------------------------


def bars(names: Sequence[str], values: Sequence[float]) -> Html:
    frame = frame_for(len(values), max(values, default=0) or 1)
    width = 0.7 * (frame.x(1) - frame.x(0))
    drawn = (
        tag(
            "rect",
            x=number(frame.x(n) - width / 2),
            y=number(frame.y(value)),
            width=number(width),
            height=number(frame.y(0) - frame.y(value)),
            fill=BLUE,
        )
        for n, value in enumerate(values)
    )
    return together((count_lines(frame), *drawn, labels_below(frame, names)))


def curves(names: Sequence[str], series: Sequence[Series]) -> Html:
    """Lines over the same names, each with a dot at its end and its name beside it."""
    frame = frame_for(len(names), max((max(one.values) for one in series), default=0) or 1)
    return together((count_lines(frame), *(curve(frame, one) for one in series), labels_below(frame, names)))


def curve(frame: Frame, one: Series) -> Html:
    places = [(frame.x(n), frame.y(value)) for n, value in enumerate(one.values)]
    path = "L".join(f"{number(x)} {number(y)}" for x, y in places)
    x, y = places[-1]
    below = one.name_below and y + 16 < HIGH - FOOT  # under the plot are the names of the weeks
    return together(
        (
            tag(
                "path",
                d=f"M{path}",
                stroke=BLUE,
                stroke_width="2",
                fill="none",
                stroke_dasharray=one.dashes or None,
            ),
            tag("circle", cx=number(x), cy=number(y), r="3", fill=BLUE),
            label(one.name, WIDE - RIGHT, y + 16 if below else y - 7, "end"),
        )
    )


def against(points: Sequence[Interval], least: float) -> Html:
    """Points in percent, with their ranges, against the line on which both are the same. Its axes are named:
    both go from the same to the same."""
    frame = Frame(least, 100, least, 100)
    step = 10 if least >= 50 else 20
    steps = range(round(least), 101, step)
    return together(
        (
            across_lines(frame, steps, "%"),
            *(label(f"{value}%", frame.x(value), HIGH - FOOT + 18) for value in steps),
            label("promised", WIDE - RIGHT, HIGH - 2, "end"),
            label("came", LEFT + 6, TOP - 6, "start"),
            line(frame.x(least), frame.y(least), frame.x(100), frame.y(100), INK, "4 3"),
            *(interval(frame, point) for point in points),
        )
    )


def interval(frame: Frame, point: Interval) -> Html:
    x, low, high = frame.x(point.across), frame.y(point.low), frame.y(point.high)
    return together(
        (
            line(x, low, x, high, BLUE),
            line(x - 4, low, x + 4, low, BLUE),
            line(x - 4, high, x + 4, high, BLUE),
            tag("circle", cx=number(x), cy=number(frame.y(point.up)), r="3.5", fill=BLUE),
        )
    )
