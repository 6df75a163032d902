"""Counters: on ten-frames, on place-value mats, in equal rows. Always by fives, never in two even columns."""

from collections.abc import Sequence

from review.core.drawn.grids import COLUMNS, grid, row_lines
from review.core.pictures import Array, Exchange, Mat, TenFrames, mats

COUNTER, OTHER, CROSSED, PLACE = "●", "◆", "×", "○"
FIVE, FRAME = 5, 10
FRAMES_A_ROW = 3  # nine columns each and four between
ROOMY = 3  # columns of a mat that have room for a space between counters


def fives(signs: Sequence[str], gap: str = " ") -> list[str]:
    """Rows of five; an empty one for nothing."""
    return [gap.join(signs[at : at + FIVE]) for at in range(0, len(signs), FIVE)] or [""]


def ten_frames(of: TenFrames) -> tuple[str, ...]:
    """Filled by row, the frames side by side."""
    stay = of.counters + of.others - of.away
    signs = (COUNTER * of.counters + OTHER * of.others)[:stay] + CROSSED * of.away
    signs = signs.ljust(-(-max(len(signs), 1) // FRAME) * FRAME, PLACE)
    frames = [fives(signs[at : at + FRAME]) for at in range(0, len(signs), FRAME)]
    rows = [frames[at : at + FRAMES_A_ROW] for at in range(0, len(frames), FRAMES_A_ROW)]
    found = [line for row in rows for line in ("", *map("    ".join, zip(*row, strict=True)))]
    return tuple(found[1:])


# --- mats ---------------------------------------------------------------------------------------------


def mat(of: Mat) -> tuple[str, ...]:
    return grid(of.places, _rows(of), _widths(of))


def exchange(of: Exchange) -> tuple[str, ...]:
    """The mat before and the mat after, below one head."""
    before, after = mats(of)
    widths = list(map(max, _widths(before), _widths(after)))
    head, rule, *above = grid(of.places, _rows(before), widths)
    below = row_lines(_rows(after)[0], widths)
    return head, rule, *above, "v".center(len(rule)), rule, *below


def _gap(of: Mat) -> str:
    return " " if len(of.places) <= ROOMY else ""


def _widths(of: Mat) -> list[int]:
    five = 2 * FIVE - 1 if _gap(of) else FIVE
    return [max(len(name), five + 4 * (at == of.ringed[0])) for at, name in enumerate(of.places)]


def _rows(of: Mat) -> list[list[list[str]]]:
    """A row of cells for each number; what is ringed and what has come stands in the last."""
    return [[_cell(of, at, count, row is of.rows[-1]) for at, count in enumerate(row)] for row in of.rows]


def _cell(of: Mat, at: int, count: int, last: bool) -> list[str]:
    gap = _gap(of)
    ringed = of.ringed[1] if last and at == of.ringed[0] else 0
    came = of.arrived[1] if last and at == of.arrived[0] else 0
    if not ringed:
        return fives(COUNTER * (count - came) + OTHER * came, gap)
    rest = fives(COUNTER * (count - ringed), gap) if count > ringed else []
    return [*_ring(fives(COUNTER * ringed, gap)), *(f"  {row}" for row in rest)]


def _ring(rows: list[str]) -> list[str]:
    wide = len(rows[0])
    return [f".-{'-' * wide}-.", *(f"| {row:<{wide}} |" for row in rows), f"'-{'-' * wide}-'"]


# --- arrays -------------------------------------------------------------------------------------------


def array(of: Array) -> tuple[str, ...]:
    """A gap where it is split; no spaces where rows are long."""
    roomy = 2 * of.columns + 3 <= COLUMNS
    row = _split(of.columns, of.split, roomy)
    rows = [row] * of.rows + ([_split(of.rest, of.split, roomy)] if of.rest else [])
    return (*rows[: of.split_rows], "", *rows[of.split_rows :]) if of.split_rows else tuple(rows)


def _split(count: int, split: int, roomy: bool) -> str:
    gap = " " if roomy else ""
    halves = [COUNTER * min(count, split), COUNTER * max(0, count - split)] if split else [COUNTER * count]
    return "   ".join(gap.join(half) for half in halves if half)
