"""Help for sums, differences, bonds, doubles and halves: the numbers of one fact, as asked -> its hints."""

from review.core.skills.bond_ways import BOND, known_bond
from review.core.skills.doubled_ways import DOUBLE, HALF
from review.core.skills.fact_ways import DIFFERENCE, SUM
from review.core.skills.hints import Hints, added, suiting
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
    build = f"{counters if whole <= COUNTERS else blocks}\nCover {part}. How many are left?"
    if known == 0:
        steps = (f"Nothing and {total} make {total}.", added(0, whole))
        return Hints(f"Nothing and what make {total}?", build, known_bond(whole, 1, 0), steps)
    if known == whole:
        steps = (f"You have all {total}.", "Nothing is missing: 0.")
        return Hints(f"How far from {part} to {total}?", build, known_bond(whole, whole - 1, whole), steps)
    return suiting(BOND, whole, known)[0].hints(build, whole, known)
