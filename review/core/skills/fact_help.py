"""Help for sums, differences, bonds, doubles and halves: the numbers of one fact, as asked -> its hints."""

from collections.abc import Iterable

from review.core.skills.hints import Hints, added, first_that_holds, taken, you_know
from review.core.skills.wording import counted, grouped

# --- sums and doubles ---------------------------------------------------------------------------------


def sum_hints(left: int, right: int) -> Hints:
    small, large = sorted((left, right))
    build = f"Put out {counted(left, 'counter')}.\nThen put out {right} more."
    return Hints(_sum_question(small, large), build, _sum_neighbour(small, large), _sum_steps(small, large))


def _sum_question(small: int, large: int) -> str:
    near_ten = large in (8, 9) and small + large > 10
    return first_that_holds((
        (small == large, lambda: "Is this a double you know?"),
        (large - small == 1 and small > 2, lambda: "Which double is close?"),
        (large % 10 == 0, lambda: "How many tens? How many ones?"),
        (near_ten, lambda: f"How far is {large} from 10?"),
        (True, lambda: "Which number will you start from?"),
    ))  # fmt: skip


def _sum_neighbour(small: int, large: int) -> str:
    tens, ones = large - large % 10, large % 10
    middle = (small + large) // 2
    return first_that_holds((
        (small == large == 1, lambda: "Put 1 finger up.\nPut up one more."),
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
    """Tens and ones doubled apart; from 6 to 9 with five as an anchor."""
    anchor = 5 if 5 < number < 10 else number - number % 10
    rest = number - anchor
    if anchor and rest:
        return added(anchor, anchor), added(rest, rest), added(2 * anchor, 2 * rest)
    if anchor:
        return (f"{_tens(number)} and {_tens(number)}: {2 * number}.",)
    return _count(number, range(number + 1, 2 * number + 1))


def double_hints(number: int) -> Hints:
    neighbour = you_know(added(number - 1, number - 1), "Two more.")
    return Hints(
        f"What is {number} and {number}?",
        f"Make two rows of {counted(number, 'counter')}.",
        neighbour if number > 1 else "Put 1 finger up.\nPut up one more.",
        double_steps(number),
    )


def half_hints(number: int) -> Hints:
    half = number // 2
    neighbour = you_know(added(half - 1, half - 1), f"{number} is two more.")
    return Hints(
        f"What number doubled makes {number}?",
        f"Put out {counted(number, 'counter')}.\nMake two equal rows.",
        neighbour if number > 2 else "Share 2 between two.",
        _half_steps(number),
    )


def _half_steps(number: int) -> tuple[str, ...]:
    """Tens and ones halved apart, or an even number of tens and the rest."""
    first = number - (number % 10 or number % 20)
    rest, half = number - first, number // 2
    if first and rest:
        return _halved(first), _halved(rest), added(first // 2, rest // 2)
    return added(half, half), _halved(number)


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
        (left == 1, lambda: f"Which number comes after {part}?"),
        (left == part, lambda: f"Think of doubles.\nWhich double makes {whole}?"),
        (left - part == 1, lambda: you_know(taken(whole - 1, part), "One more.")),
        (part - left == 1, lambda: you_know(taken(whole + 1, part), "One less.")),
        (part == 9 and whole > 10, lambda: you_know(taken(whole, 10), "That is one too many.")),
        (part == 8 and whole > 10, lambda: you_know(taken(whole, 10), "That is two too many.")),
        (part == 10, lambda: f"{whole} has a ten in it.\nTake the ten away."),
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


COUNTED = 50  # counters a table top takes (our judgement); beyond them tens and hundreds are laid


def bond_hints(whole: int, known: int) -> Hints:
    """Of whole = known + □."""
    total, part = grouped(whole), grouped(known)
    counters, blocks = f"Put out {counted(whole, 'counter')}.", f"Build {total} with {_blocks(whole)}."
    return Hints(
        f"How far from {part} to {total}?" if known else f"Nothing and what make {total}?",
        f"{counters if whole <= COUNTED else blocks}\nCover {part}. How many are left?",
        _bond_neighbour(whole, known),
        _bond_steps(whole, known),
    )


def _blocks(whole: int) -> str:
    return "hundreds" if whole % 100 == 0 and whole > 100 else "tens"


def _bond_neighbour(whole: int, known: int) -> str:
    """The bond one step away, or the bond of ten that it grew from."""
    step = next(unit for unit in (100, 10, 1) if unit < whole and known % unit == whole % unit == 0)
    if 10 < whole <= 20 and whole % 10 == 0 and known % 10 > 0:
        return you_know(f"10 = {known % 10} + {10 - known % 10}", "Ten more.")
    if known < step:
        return you_know(_bond(whole, step), f"{known} is {step} less.")
    near = known - step
    return you_know(_bond(whole, near), f"{known} is {step} more than {near}.")


def _bond(whole: int, part: int) -> str:
    return f"{grouped(whole)} = {grouped(part)} + {grouped(whole - part)}"


def _bond_steps(whole: int, known: int) -> tuple[str, ...]:
    missing, gap = whole - known, -known % 10
    unit = 100 if whole % 100 == known % 100 == 0 else 10
    return first_that_holds((
        (missing == 0, lambda: (f"{grouped(known)} is all of it already.", taken(whole, known))),
        (known == 0, lambda: (f"Nothing and {grouped(whole)} make {grouped(whole)}.", added(0, whole))),
        (missing <= 5, lambda: _count_up(known, whole)),
        (whole <= 10, lambda: _count(whole, range(whole - 1, missing - 1, -1))),
        (0 < gap < missing, lambda: _bridge(known, gap, missing - gap)),
        (whole % unit == known % unit == 0 and whole >= 100, lambda: _by_units(whole, known, unit)),
        (True, lambda: (f"Think: {whole} take away {known}.", taken(whole, known))),
    ))  # fmt: skip


def _by_units(whole: int, known: int, unit: int) -> tuple[str, ...]:
    """Tens or hundreds counted like ones: 10 − 3 = 7, 100 − 30 = 70."""
    return taken(whole // unit, known // unit), taken(whole, known)


def _bridge(start: int, first: int, then: int) -> tuple[str, ...]:
    """Up to the next ten, then on; the two jumps together."""
    return added(start, first), added(start + first, then), added(first, then)


def _count(start: int, numbers: Iterable[int]) -> tuple[str, str]:
    return f"Start at {start}.", f"{', '.join(map(str, numbers))}."


def _count_up(low: int, high: int) -> tuple[str, ...]:
    """How far apart two numbers are."""
    many = "That is 1 step." if high - low == 1 else f"That is {high - low} steps."
    return (*_count(low, range(low + 1, high + 1)), many)
