"""Help for sums, differences, bonds, doubles and halves: the numbers of one fact, as asked -> its hints."""

from review.core.skills.doubled_ways import DOUBLE, HALF
from review.core.skills.fact_ways import DIFFERENCE, SUM
from review.core.skills.hints import (
    Hints,
    added,
    count,
    count_up,
    first_that_holds,
    in_ones,
    in_tens,
    suiting,
    taken,
    you_know,
)
from review.core.skills.wording import blocks_for, counted, grouped, lines

# --- sums, differences, doubles, halves ---------------------------------------------------------------

COUNTERS = 20  # to lay and to see at a glance (our judgement); beyond them tens and ones are laid


def sum_hints(left: int, right: int) -> Hints:
    build = f"Put out {counted(left, 'counter')}.\nThen put out {right} more."
    small, large = sorted((left, right))
    return suiting(SUM, small, large)[0].hints(build, small, large)


def double_hints(number: int) -> Hints:
    counters = f"Make two rows of {counted(number, 'counter')}."
    blocks = f"Build {number} with {blocks_for(number)}.\nBuild it once more."
    build = counters if 2 * number <= COUNTERS else blocks
    return suiting(DOUBLE, number)[0].hints(build, number)


def half_hints(number: int) -> Hints:
    counters = f"Put out {counted(number, 'counter')}.\nMake two equal rows."
    blocks = [f"Build {number} with {blocks_for(number)}.", "Make two equal parts."]
    if number // 10 % 2 or number > 100:
        blocks.append("Open a ten where you need to.")
    build = counters if number <= COUNTERS else lines(blocks)
    return suiting(HALF, number)[0].hints(build, number)


def difference_hints(whole: int, part: int) -> Hints:
    build = f"Put out {counted(whole, 'counter')}.\nTake {part} away."
    return suiting(DIFFERENCE, whole, part)[0].hints(build, whole, part)


# --- bonds --------------------------------------------------------------------------------------------


def bond_hints(whole: int, known: int) -> Hints:
    """Of whole = known + □."""
    total, part = grouped(whole), grouped(known)
    counters = f"Put out {counted(whole, 'counter')}."
    blocks = f"Build {total} with {blocks_for(whole, known)}."
    return Hints(
        f"How far from {part} to {total}?" if known else f"Nothing and what make {total}?",
        f"{counters if whole <= COUNTERS else blocks}\nCover {part}. How many are left?",
        _bond_neighbour(whole, known),
        _bond_steps(whole, known),
    )


def _bond_neighbour(whole: int, known: int) -> str:
    """A double, the bond of ten it grew from, the bond of the tens in it, or the bond one step away."""
    missing = whole - known
    unit = next(unit for unit in (100, 10, 1) if unit < whole and known % unit == whole % unit == 0)
    tens = known - known % (10 * unit)
    return first_that_holds((
        (known == unit == 1, lambda: f"Say the number before {grouped(whole)}."),
        (missing == unit == 1, lambda: f"Say the number after {grouped(known)}.\nHow many more is it?"),
        (unit > 1 and whole == 10 * unit, lambda: _in_units(known, unit)),
        (known == missing, lambda: f"Think of doubles.\nWhich double makes {whole}?"),
        (whole <= 10 and abs(known - missing) == 1, lambda: _near_double(whole, known)),
        (known == 0 or missing == 0, lambda: _from_near(whole, unit if known == 0 else known - unit, known)),
        (known == unit, lambda: f"Count back one {UNITS[unit]} from {grouped(whole)}."),
        (missing == 10 and whole < 20, lambda: f"{whole} is 1 ten and {in_ones(known)}.\nCover the ones."),
        (known < 10 * unit < whole, lambda: _grown(whole, known, 10 * unit)),
        (10 * unit <= tens < known and whole >= 20, lambda: _from_near(whole, tens, known)),
        (10 * unit <= tens, lambda: _ten_in_both(whole, known)),
        (True, lambda: _from_near(whole, _nearest(whole, known, unit), known)),
    ))  # fmt: skip


UNITS = {1: "one", 10: "ten", 100: "hundred"}


def _in_units(known: int, unit: int) -> str:
    """100 = 30 + □ from 10 = 3 + 7."""
    return you_know(_bond(10, known // unit), f"Now in {UNITS[unit]}s.")


def _near_double(whole: int, known: int) -> str:
    """9 = 4 + □ from 8 = 4 + 4."""
    return you_know(_bond(2 * known, known), f"{whole} is 1 {'more' if whole > 2 * known else 'less'}.")


def _grown(whole: int, known: int, ten: int) -> str:
    """From the bond of ten or a hundred: 13 = 9 + □ from 10 = 9 + 1."""
    more = whole - ten
    return you_know(_bond(ten, known), f"{grouped(whole)} is {grouped(more)} more than {ten}.")


def _ten_in_both(whole: int, known: int) -> str:
    """13 = 11 + □ from 3 = 1 + 2."""
    if known == 10:
        return f"Take the ten from {whole}."
    return you_know(_bond(whole - 10, known - 10), f"{whole} and {known} have ten more.")


def _nearest(whole: int, known: int, unit: int) -> int:
    """The part whose bond is best known: a double one step off, five, or the part before."""
    half = whole // 2
    if whole % 2 == 0 and abs(known - half) == unit:
        return half
    return 5 if unit == 1 and 5 < known < whole <= 10 else known - unit


def _from_near(whole: int, near: int, known: int) -> str:
    """One part changes, the other one changes the other way."""
    step = grouped(abs(known - near))
    more, less = ("more", "less") if known > near else ("less", "more")
    first = f"{grouped(known)} is {step} {more} than {grouped(near)}."
    return you_know(_bond(whole, near), first, f"The other part is {step} {less}.")


def _bond(whole: int, part: int) -> str:
    return f"{grouped(whole)} = {grouped(part)} + {grouped(whole - part)}"


def _bond_steps(whole: int, known: int) -> tuple[str, ...]:
    missing, gap, to_hundred = whole - known, -known % 10, -known % 100
    tens = known - known % 10
    unit = 100 if whole % 100 == known % 100 == 0 else 10
    return first_that_holds((
        (missing == 0, lambda: (f"You have all {grouped(known)}.", "Nothing is missing: 0.")),
        (known == 0, lambda: (f"Nothing and {grouped(whole)} make {grouped(whole)}.", added(0, whole))),
        (missing <= 5, lambda: count_up(known, whole)),
        (missing == 10 and 3 < known < 10, lambda: (f"{whole} is 10 and {known}.", taken(whole, known))),
        (whole <= 10 or known <= 3, lambda: count(whole, range(whole - 1, missing - 1, -1))),
        (0 < gap < missing, lambda: _bridge(known, gap, missing - gap)),
        (0 < to_hundred < missing and unit == 10, lambda: _bridge(known, to_hundred, missing - to_hundred)),
        (whole % unit == known % unit == 0, lambda: _by_units(whole, known, unit)),
        (known % 10 == 0, lambda: (f"Take {in_tens(known)} from {whole}.", taken(whole, known))),
        (True, lambda: (taken(whole - tens, known - tens), taken(whole, known))),
    ))  # fmt: skip


def _by_units(whole: int, known: int, unit: int) -> tuple[str, ...]:
    """Tens or hundreds counted like ones: 10 − 3 = 7, 100 − 30 = 70."""
    return taken(whole // unit, known // unit), taken(whole, known)


def _bridge(start: int, first: int, then: int) -> tuple[str, ...]:
    """Up to the next ten or hundred, then on; the two jumps together."""
    return added(start, first), added(start + first, then), added(first, then)
