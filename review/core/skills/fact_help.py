"""Help for sums, differences, bonds, doubles and halves: the numbers of one fact, as asked -> its hints."""

from collections.abc import Iterable

from review.core.skills.hints import Hints, added, first_that_holds, taken, you_know
from review.core.skills.wording import blocks_for, counted, grouped, lines

# --- sums and doubles ---------------------------------------------------------------------------------


def sum_hints(left: int, right: int) -> Hints:
    small, large = sorted((left, right))
    build = f"Put out {counted(left, 'counter')}.\nThen put out {right} more."
    return Hints(_sum_question(small, large), build, _sum_neighbour(small, large), _sum_steps(small, large))


def _sum_question(small: int, large: int) -> str:
    near_ten = large in (8, 9) and small + large > 10
    return first_that_holds((
        (large % 10 == small % 10 == 0, lambda: "How many tens are there?"),
        (small == large, lambda: "Is this a double you know?"),
        (large % 10 == 0, lambda: "How many tens? How many ones?"),
        (large - small == 1 and small > 2, lambda: "Which double is close?"),
        (near_ten, lambda: f"How far is {large} from 10?"),
        (True, lambda: "Which number will you start from?"),
    ))  # fmt: skip


def _sum_neighbour(small: int, large: int) -> str:
    tens, ones = large - large % 10, large % 10
    middle = (small + large) // 2
    return first_that_holds((
        (small == large == 1, lambda: "Put 1 finger up.\nPut up one more."),
        (large % 10 == small % 10 == 0, lambda: f"{_tens(small)} and {_tens(large)}."),
        (small == large, lambda: you_know(added(small - 1, small - 1), "One more. And one more.")),
        (ones == 0 and small < 10, lambda: f"{_tens(tens)} and {_ones(small)}."),
        (small == 1, lambda: f"Say the number after {large}."),
        (large - small == 1, lambda: you_know(added(small, small), "One more.")),
        (large == 9, lambda: you_know(added(10, small), "9 is one less than 10.")),
        (large == 8 and small > 2, lambda: you_know(added(10, small), "8 is two less than 10.")),
        (large > 10 and ones > 0 and small < 10, lambda: _ones_first(small, ones, tens)),
        (large - small == 2, lambda: you_know(added(middle, middle), f"Move 1 from {large} to {small}.")),
        (large < 10 < small + large, lambda: _over_ten(small, large)),
        (True, lambda: you_know(added(large, small - 1), "One more.")),
    ))  # fmt: skip


def _ones_first(small: int, ones: int, tens: int) -> str:
    return you_know(added(ones, small), f"{_tens(tens)} more.")


def _over_ten(small: int, large: int) -> str:
    return you_know(added(large, 10 - large), f"Then {small + large - 10} more.")


def _tens(number: int) -> str:
    return "1 ten" if number == 10 else f"{number // 10} tens"


def _ones(number: int) -> str:
    return "1 one" if number == 1 else f"{number} ones"


def _sum_steps(small: int, large: int) -> tuple[str, ...]:
    ones, gap = large % 10, -large % 10
    total = small + large
    return first_that_holds((
        (small == large, lambda: double_steps(small)),
        (ones == 0 and small < 10, lambda: (f"{_tens(large)} and {_ones(small)}: {total}.",)),
        (small > 9, lambda: _tens_and_ones(small, large)),
        (large - small == 1 and small > 3, lambda: (added(small, small), added(2 * small, 1))),
        (ones + small <= 10 < large, lambda: (added(ones, small), added(large - ones, ones + small))),
        (ones + small > 10, lambda: (added(large, gap), added(large + gap, small - gap))),
        (True, lambda: _count(large, range(large + 1, total + 1))),
    ))  # fmt: skip


def _tens_and_ones(small: int, large: int) -> tuple[str, ...]:
    tens, ones = small // 10 * 10 + large // 10 * 10, small % 10 + large % 10
    parts = added(small // 10 * 10, large // 10 * 10), added(small % 10, large % 10)
    return (*parts, added(tens, ones)) if ones else (f"{_tens(small)} and {_tens(large)}: {tens}.",)


def double_steps(number: int) -> tuple[str, ...]:
    """Tens and ones doubled apart; from 6 to 9 with five as an anchor; round tens like ones."""
    anchor = 5 if 5 < number < 10 else number - number % 10
    rest = number - anchor
    if anchor and rest:
        return added(anchor, anchor), added(rest, rest), added(2 * anchor, 2 * rest)
    if number > 10 and anchor:
        return added(number // 10, number // 10), added(number, number)
    if anchor:
        return (f"{_tens(number)} and {_tens(number)}: {2 * number}.",)
    return _count(number, range(number + 1, 2 * number + 1))


COUNTERS = 20  # to lay and to see at a glance (our judgement); beyond them tens and ones are laid


def double_hints(number: int) -> Hints:
    counters = f"Make two rows of {counted(number, 'counter')}."
    blocks = f"Build {number} with {blocks_for(number)}.\nBuild it once more."
    return Hints(
        f"What is {number} and {number}?",
        counters if 2 * number <= COUNTERS else blocks,
        _double_neighbour(number),
        double_steps(number),
    )


def _double_neighbour(number: int) -> str:
    tens, ones = number - number % 10, number % 10
    return first_that_holds((
        (number == 1, lambda: "Put 1 finger up.\nPut up one more."),
        (tens == 0, lambda: you_know(added(number - 1, number - 1), "Two more.")),
        (ones == 0, lambda: f"{_tens(tens)} and {_tens(tens)}."),
        (True, lambda: you_know(added(tens, tens), f"Then double {ones}.")),
    ))  # fmt: skip


def half_hints(number: int) -> Hints:
    counters = f"Put out {counted(number, 'counter')}.\nMake two equal rows."
    blocks = [f"Build {number} with {blocks_for(number)}.", "Make two equal parts."]
    if number // 10 % 2 or number > 100:
        blocks.append("Open a ten where you need to.")
    return Hints(
        f"What number doubled makes {number}?",
        counters if number <= COUNTERS else lines(blocks),
        _half_neighbour(number),
        _half_steps(number),
    )


def _half_neighbour(number: int) -> str:
    first, half = _first_to_halve(number), number // 2
    return first_that_holds((
        (number == 2, lambda: "Share 2 between two."),
        (number % 20 == 0, lambda: f"{number} is {_tens(number)}.\nWhat is half of {_tens(number)}?"),
        (number > 20, lambda: f"{number} is {first} and {number - first}.\nTake half of each."),
        (True, lambda: you_know(added(half - 1, half - 1), f"{number} is two more.")),
    ))  # fmt: skip


def _first_to_halve(number: int) -> int:
    """The tens, or an even number of them."""
    return number - (number % 10 or number % 20)


def _half_steps(number: int) -> tuple[str, ...]:
    """Tens and ones halved apart; round tens like ones; few shared out."""
    first, half = _first_to_halve(number), number // 2
    rest = number - first
    if first and rest:
        return _halved(first), _halved(rest), added(first // 2, rest // 2)
    if first:
        return _halved(number // 10), _halved(number)
    return "Share 2 at a time.", f"{', '.join(map(str, range(2, number + 1, 2)))}.", f"Each gets {half}."


def _halved(number: int) -> str:
    """In words: halves come before the sign for division."""
    return f"Half of {number} is {number // 2}."


# --- differences and bonds ----------------------------------------------------------------------------


def difference_hints(whole: int, part: int) -> Hints:
    left = whole - part
    near = f"How far from {part} to {whole}?"
    return Hints(
        near if left <= 3 else f"What goes with {part} to make {whole}?",
        f"Put out {counted(whole, 'counter')}.\nTake {part} away.",
        _difference_neighbour(whole, part),
        _difference_steps(whole, part),
    )


def _difference_neighbour(whole: int, part: int) -> str:
    left = whole - part
    return first_that_holds((
        (part == 1, lambda: f"Say the number before {whole}."),
        (left == 1, lambda: f"Say the number after {part}.\nHow many more is it?"),
        (left == part, lambda: f"Think of doubles.\nWhich double makes {whole}?"),
        (part == 10, lambda: f"{whole} has a ten in it.\nTake the ten away."),
        (left == 10, lambda: f"{whole} is 1 ten and {_ones(part)}.\nTake the ones away."),
        (part > 10, lambda: you_know(taken(whole - 10, part - 10), f"{whole} and {part} have ten more.")),
        (left - part == 1, lambda: you_know(taken(whole - 1, part), "One more.")),
        (part - left == 1, lambda: you_know(taken(whole + 1, part), "One less.")),
        (part == 9 and whole > 10, lambda: you_know(taken(whole, 10), "That is one too many.")),
        (part == 8 and whole > 10, lambda: you_know(taken(whole, 10), "That is two too many.")),
        (part < whole - 10, lambda: you_know(taken(whole - 10, part), "Ten more.")),
        (part < 10 < whole, lambda: you_know(taken(10, part), f"{whole} is {whole - 10} more than 10.")),
        (True, lambda: you_know(taken(whole, part - 1), "Take one more.")),
    ))  # fmt: skip


def _difference_steps(whole: int, part: int) -> tuple[str, ...]:
    left, ones = whole - part, whole % 10
    return first_that_holds((
        (left <= 3, lambda: _count_up(part, whole)),
        (part <= 3 or (whole <= 10 and part <= 5), lambda: _count(whole, range(whole - 1, left - 1, -1))),
        (whole <= 10, lambda: _count_up(part, whole)),
        (part == 10, lambda: (f"Take the ten from {whole}.", taken(whole, 10))),
        (part < whole - 10, lambda: (taken(whole - 10, part), added(10, whole - 10 - part))),
        (part > 10, lambda: (taken(whole, 10), taken(whole - 10, part - 10))),
        (part == ones, lambda: (f"{whole} is 10 and {ones}.", taken(whole, part))),
        (True, lambda: (taken(whole, ones), taken(whole - ones, part - ones))),
    ))  # fmt: skip


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
        (missing == 10 and whole < 20, lambda: f"{whole} is 1 ten and {_ones(known)}.\nCover the ones."),
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
        (missing <= 5, lambda: _count_up(known, whole)),
        (missing == 10 and 3 < known < 10, lambda: (f"{whole} is 10 and {known}.", taken(whole, known))),
        (whole <= 10 or known <= 3, lambda: _count(whole, range(whole - 1, missing - 1, -1))),
        (0 < gap < missing, lambda: _bridge(known, gap, missing - gap)),
        (0 < to_hundred < missing and unit == 10, lambda: _bridge(known, to_hundred, missing - to_hundred)),
        (whole % unit == known % unit == 0, lambda: _by_units(whole, known, unit)),
        (known % 10 == 0, lambda: (f"Take {_tens(known)} from {whole}.", taken(whole, known))),
        (True, lambda: (taken(whole - tens, known - tens), taken(whole, known))),
    ))  # fmt: skip


def _by_units(whole: int, known: int, unit: int) -> tuple[str, ...]:
    """Tens or hundreds counted like ones: 10 − 3 = 7, 100 − 30 = 70."""
    return taken(whole // unit, known // unit), taken(whole, known)


def _bridge(start: int, first: int, then: int) -> tuple[str, ...]:
    """Up to the next ten or hundred, then on; the two jumps together."""
    return added(start, first), added(start + first, then), added(first, then)


def _count(start: int, numbers: Iterable[int]) -> tuple[str, str]:
    return f"Start at {grouped(start)}.", f"{', '.join(map(str, numbers))}."


def _count_up(low: int, high: int) -> tuple[str, ...]:
    """How far apart two numbers are."""
    many = "That is 1 step." if high - low == 1 else f"That is {high - low} steps."
    return (*_count(low, range(low + 1, high + 1)), many)
