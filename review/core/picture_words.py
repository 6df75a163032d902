"""Pictures in one sentence that says what is seen and no more: for screen readers, and beside every picture
that is printed in plain lines. What is asked is a box there too; what can be counted is not counted for one.
"""

from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import Any

from review.core.model import BOX
from review.core.pictures import (
    Area,
    Array,
    Bar,
    Bars,
    Box,
    ClockFace,
    Coins,
    Exchange,
    Jump,
    Lines,
    Mark,
    Mat,
    NumberLine,
    Picture,
    Rectangle,
    Strip,
    Strips,
    Table,
    TenFrames,
    Thermometer,
)
from review.core.text import in_words, plural

FEW_NAMES = 6  # on a number line; of more the two ends are said (our judgement)


def sentence(picture: Picture) -> str:
    return SAID[type(picture)](picture).replace(BOX, "an empty box")


# --- counters -----------------------------------------------------------------------------------------


def _ten_frames(of: TenFrames) -> str:
    frames = "A ten-frame" if of.counters + of.others <= 10 else "Ten-frames"
    if of.others:
        return f"{frames} with {plural(of.counters, 'counter')}, then {of.others} of a second kind."
    if of.away:
        gone = of.away if of.away > 1 else "one"
        return f"{frames} with {plural(of.counters, 'counter')}, the last {gone} crossed out."
    rows = range(0, max(of.counters, 10) + 9, 5)[: 2 * -(-max(of.counters, 1) // 10)]
    return f"{frames}, row by row: {', '.join(_row(of.counters - at) for at in rows)}."


def _row(left: int) -> str:
    """Of five places: by those that are empty, so that counting is left to the child."""
    return "empty" if left <= 0 else "full" if left >= 5 else f"{plural(5 - left, 'place')} empty"


def _amounts(places: Sequence[str], counters: Sequence[int]) -> str:
    """ "4 tens and 7 ones"; a place without counters is said too."""
    return in_words([_of_place(count, place) for place, count in zip(places, counters, strict=True)])


def _of_place(count: int, place: str) -> str:
    return f"{count} {place.removesuffix('s') if count == 1 else place}"


def _mat(of: Mat) -> str:
    rows = "; then ".join(_amounts(of.places, row) for row in of.rows)
    column, ringed = of.ringed
    to, came = of.arrived
    ring = f"; {_of_place(ringed, of.places[column])} with a ring" if ringed else ""
    new = f"; {_of_place(came, of.places[to])} {'has' if came == 1 else 'have'} come" if came else ""
    return f"A place-value mat: {rows}{ring}{new}."


def _exchange(of: Exchange) -> str:
    gone, came = (1, 10) if of.opened else (10, 1)
    to = of.places[of.column + 1 if of.opened else of.column - 1]
    change = f"{_of_place(gone, of.places[of.column])} with a ring become {_of_place(came, to)}"
    change = change.replace("become", "becomes") if of.opened else change
    return f"A place-value mat: {_amounts(of.places, of.counters)}; {change}."


def _array(of: Array) -> str:
    total = of.rows * of.columns + of.rest
    if of.asked == "rows":
        rest = ", the last row not full" if of.rest else ""
        return f"{plural(total, 'counter')} in equal rows of {of.columns}{rest}."
    if of.asked == "columns":
        rows = "one row" if of.rows == 1 else plural(of.rows, "equal row")
        return f"{plural(total, 'counter')} in {rows}."
    columns = f", each as {of.split} and {of.columns - of.split}" if of.split else ""
    rows = f"; the first {plural(of.split_rows, 'row')} apart" if of.split_rows else ""
    rest = f"; {of.rest} more in a last row" if of.rest else ""
    return f"{plural(of.rows, 'row')} of {plural(of.columns, 'counter')}{columns}{rows}{rest}."


# --- lines and lengths --------------------------------------------------------------------------------


def _number_line(of: NumberLine) -> str:
    named = [mark for mark in of.marks if mark.name]
    names = in_words([mark.name for mark in named])
    many = len(named) > FEW_NAMES
    ends = f"from {named[0].name} to {named[-1].name}" if many else f"with {names}"
    steps = "" if of.jumps else _steps(of.marks)  # along jumps they are what is counted
    return "; ".join([f"A number line {ends}{steps}", *_jumps(of), *_arrow(of)]) + "."


def _steps(marks: Sequence[Mark]) -> str:
    gaps = {b.at - a.at for a, b in pairwise(marks)}
    unnamed = any(not mark.name for mark in marks)
    return f", {plural(len(marks) - 1, 'equal step')} from end to end" if len(gaps) == 1 and unnamed else ""


def _jumps(of: NumberLine) -> list[str]:
    """One by one; many alike in one word."""
    labels = {jump.label for jump in of.jumps}
    if len(of.jumps) > 2 and len(labels) == 1:
        each = labels.pop()
        back = " back" if of.jumps[0].start > of.jumps[0].end else ""
        return [f"jumps{back}, one after the other" + (f", each {each}" if each else "")]
    names = {mark.at: mark.name for mark in of.marks}
    return [_jump(jump, names) for jump in of.jumps]


def _jump(of: Jump, names: Mapping[int, str]) -> str:
    start, end = names.get(of.start, ""), names.get(of.end, "")
    way = "" if of.start < of.end else " back"
    label = f" of {of.label}" if of.label else ""
    return f"a jump{way}{label}{f' from {start}' if start else ''}{f' to {end}' if end else ''}"


def _arrow(of: NumberLine) -> list[str]:
    """At which mark, or between which; from the last name before it."""
    if of.arrow is None:
        return []
    below = [mark for mark in of.marks if mark.at <= of.arrow]
    after = next((mark for mark in of.marks if mark.at > of.arrow), below[-1])
    if below[-1].at == of.arrow:
        return [f"an arrow at {_place(below)}"]
    upper = after.name or _place([*below, after])
    return [f"an arrow between {_place(below)} and {upper}"]


def _place(marks: Sequence[Mark]) -> str:
    """The last of these marks: its name, or how far it is from the last that has one."""
    far = next(at for at, mark in enumerate(reversed(marks)) if mark.name or at == len(marks) - 1)
    name = marks[-1 - far].name or "the end"
    return f"{plural(far, 'step')} after {name}" if far else name


REST = "the rest"  # a part without a label


def _bar(of: Bar) -> str:
    labels = {part.label for part in of.parts}
    whole = f"A bar for {of.whole}" if of.whole else "A bar"
    if len(of.parts) > 2 and len({*of.parts}) == 1:
        each = f", each {labels.pop()}" if labels != {""} else ""
        return f"{whole} in {plural(len(of.parts), 'equal part')}{each}."
    if len({part.size for part in of.parts}) == 1 and "" in labels:
        marked = [part.label for part in of.parts if part.label]
        return f"{whole} in {plural(len(of.parts), 'equal part')}, {len(marked)} of them with {marked[0]}."
    named = in_words([part.label or REST for part in of.parts])
    return f"{whole} in {plural(len(of.parts), 'part')}: {named}."


def _bars(of: Bars) -> str:
    long, short = (part.label for part in of.bars)
    return f"Two bars, {long} and {short}; between their ends {of.apart}."


def _strips(of: Strips) -> str:
    if len(of.strips) == 1:
        (strip,) = of.strips
        label = f", {strip.label}" if strip.label else ""
        return f"A strip{label}, of {plural(strip.parts, 'equal part')}, {strip.shaded} shaded."
    return f"Strips of one length: {'; '.join(map(_strip, of.strips))}."


def _strip(of: Strip) -> str:
    return f"{f'{of.label}: ' if of.label else ''}{plural(of.parts, 'part')}, {of.shaded} shaded"


# --- shapes, tables and the rest ----------------------------------------------------------------------


def _area(of: Area) -> str:
    across, down = (in_words([*map(of.name, some)]) for some in (of.across, of.down))
    return f"A rectangle in parts: {across} across, {down} down, a box in each part."


def _table(of: Table) -> str:
    rows = (
        ", ".join(f"{head} {cell}" for head, cell in zip(of.heads, row, strict=True) if cell)
        for row in of.rows
    )
    return f"A table: {'; '.join(rows)}."


def _clock_face(of: ClockFace) -> str:
    hour, after = of.hour % 12 or 12, of.hour % 12 + 1
    number, marks = divmod(of.minute, 5)
    short = f"between {hour} and {after}" if of.minute else f"at {hour}"
    past = f"{plural(marks, 'small mark')} after {number or 12}" if marks else f"at {number or 12}"
    return f"A clock with the short hand {short} and the long hand {past}."


def _coins(of: Coins) -> str:
    kinds = {note for _, note in of.coins}
    notes = "bills" if any("$" in name for name, _ in of.coins) else "notes"  # as the sets call them
    head = f"Coins and {notes}" if len(kinds) == 2 else notes.capitalize() if kinds == {True} else "Coins"
    return f"{head}: {in_words([name for name, _ in of.coins])}."


def _thermometer(of: Thermometer) -> str:
    start = max((of.at - 1) // of.named * of.named, of.low)
    marks = (of.at - start) // of.step
    each = "degree" if of.step == 1 else f"{of.step} degrees"
    full = f"{plural(marks, 'mark')} above {start}" if marks else str(start)
    return (
        f"A thermometer with a mark every {each}, numbers every {of.named}, full to {full} °{of.scale}."
    ).replace("-", "−")


def _rectangle(of: Rectangle) -> str:
    sides = in_words([side for side in (of.above, of.beside) if side])
    inside = f", inside it {of.inside}" if of.inside else ""
    shape = "rectangle" if of.beside else "square"
    return f"A {shape} with sides of {sides}{inside}."


def _box(of: Box) -> str:
    return f"A box, {of.long} long, {of.deep} deep and {of.high} high."


def _lines(of: Lines) -> str:
    """The text itself, without the lines drawn in it."""
    return " ".join(line.strip() for line in of.lines if line.strip(" -"))


SAID: Mapping[type, Callable[[Any], str]] = {
    TenFrames: _ten_frames,
    Mat: _mat,
    Exchange: _exchange,
    Array: _array,
    NumberLine: _number_line,
    Bar: _bar,
    Bars: _bars,
    ClockFace: _clock_face,
    Coins: _coins,
    Strips: _strips,
    Area: _area,
    Table: _table,
    Thermometer: _thermometer,
    Rectangle: _rectangle,
    Box: _box,
    Lines: _lines,
}
