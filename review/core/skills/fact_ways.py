"""Ways of working out a sum or a difference, the most helpful first: which numbers they suit, what they say.

A sum's numbers are (smaller, greater), a difference's (whole, part taken). Where one strategy stands twice,
the first that suits counts.
"""

from review.core.model import BOX
from review.core.skills.hints import (
    Idea,
    added,
    count,
    count_up,
    double_is,
    in_ones,
    in_tens,
    taken,
    you_know,
)

# --- sums ---------------------------------------------------------------------------------------------

ONE_BY_ONE = 3  # so many are counted on or back; our judgement, as common practice has it
STEPS_TO_TEN = 5  # the same within ten, where nothing shorter offers; our judgement


def doubled(number: int) -> tuple[str, ...]:
    """Tens and ones doubled apart; from 6 to 9 with five as an anchor; round tens like ones."""
    anchor = 5 if 5 < number < 10 else number - number % 10
    rest = number - anchor
    if anchor and rest:
        return added(anchor, anchor), added(rest, rest), added(2 * anchor, 2 * rest)
    if number > 10 and anchor:
        return added(number // 10, number // 10), added(number, number)
    if anchor:
        return (f"{in_tens(number)} and {in_tens(number)}: {2 * number}.",)
    return count(number, range(number + 1, 2 * number + 1))


def _double_neighbour(small: int, large: int) -> str:
    if small == 1:
        return "Put 1 finger up.\nPut up one more."
    return you_know(added(small - 1, small - 1), "One more. And one more.")


def _whole_tens(small: int, large: int) -> bool:
    """Ones to be put to whole tens: 10 + 7; or ten and ten."""
    return large % 10 == 0 and (small < 10 or small == large)


def _whole_tens_neighbour(small: int, large: int) -> str:
    return f"{in_tens(large)} and {in_tens(small) if small >= 10 else in_ones(small)}."


def _whole_tens_steps(small: int, large: int) -> tuple[str, ...]:
    return (_whole_tens_neighbour(small, large)[:-1] + f": {small + large}.",)


def _passes_ten(small: int, large: int) -> bool:
    return large % 10 > 0 and large % 10 + small % 10 > 10 and small < 10


def _to_ten(small: int, large: int) -> tuple[str, ...]:
    gap = -large % 10
    return added(large, gap), added(large + gap, small - gap)


def _to_ten_neighbour(small: int, large: int) -> str:
    gap = -large % 10
    return you_know(added(large, gap), f"Then {small - gap} more.")


def _ones_first(small: int, large: int) -> tuple[str, ...]:
    sum_of_ones = large % 10 + small
    return added(large % 10, small), added(large - large % 10, sum_of_ones)


def _apart(small: int, large: int) -> tuple[str, ...]:
    """Two numbers past ten: their tens, their ones, both."""
    extra = small % 10 + large % 10
    in_ones = (added(large % 10, small % 10),) if small % 10 and large % 10 else ()
    return (added(10, 10), *in_ones, added(20, extra))


def _fives(small: int, large: int) -> tuple[str, ...]:
    rest = small - 5 + large - 5
    both = (added(large - 5, small - 5),) if small > 5 else ()
    return (added(5, 5), *both, added(10, rest))


def _near_ten(small: int, large: int) -> bool:
    """A number that lacks 1 or 2 to the next ten, which the other passes."""
    return large % 10 in (8, 9) and small > 2 and _passes_ten(small, large)


SUM: tuple[Idea, ...] = (
    Idea(
        "tens-and-ones", _whole_tens,
        lambda small, large: "How many tens? How many ones?" if small < 10 else "How many tens are there?",
        _whole_tens_neighbour, _whole_tens_steps,
    ),
    Idea(
        "doubles", lambda small, large: small == large,
        lambda small, large: "Is this a double you know?", _double_neighbour,
        lambda small, large: doubled(small),
    ),
    Idea(
        "counting-on", lambda small, large: small == 1,
        lambda small, large: "Which number will you start from?",
        lambda small, large: f"Say the number after {large}.",
        lambda small, large: count(large, [large + 1]),
    ),
    Idea(
        "near-doubles", lambda small, large: large - small == 1 < small and large % 10 > 0,
        lambda small, large: "Which double is close?",
        lambda small, large: you_know(added(small, small), "One more."),
        lambda small, large: (added(small, small), added(2 * small, 1)),
    ),
    Idea(
        "make-ten", lambda small, large: large < 10 < small + large,
        lambda small, large: f"How far is {large} from 10?", _to_ten_neighbour, _to_ten,
    ),
    Idea(
        "bridging", lambda small, large: large > 10 and _passes_ten(small, large),
        lambda small, large: f"How far is {large} from {large + -large % 10}?", _to_ten_neighbour, _to_ten,
    ),
    Idea(
        "tens-and-ones", lambda small, large: small < 10 < large and 0 < large % 10 <= 10 - small,
        lambda small, large: "What do the ones make?",
        lambda small, large: you_know(added(large % 10, small), f"{in_tens(large - large % 10)} more."),
        _ones_first,
    ),
    Idea(
        "partitioning", lambda small, large: small >= 10 and small + large > 20,
        lambda small, large: "How many tens? How many ones?",
        lambda small, large: you_know(added(10, 10), f"Then {small + large - 20} more."), _apart,
    ),
    Idea(
        "counting-on", lambda small, large: small <= ONE_BY_ONE,
        lambda small, large: "Which number will you start from?",
        lambda small, large: you_know(added(large, small - 1), "One more."),
        lambda small, large: count(large, range(large + 1, small + large + 1)),
    ),
    Idea(
        "near-doubles", lambda small, large: large - small == 2 < small and large % 10 > 0,
        lambda small, large: "Which double is close?",
        lambda small, large: you_know(added(small, small), "Two more."),
        lambda small, large: (added(small, small), added(2 * small, 2)),
    ),
    Idea(
        "rounding", _near_ten,
        lambda small, large: f"What would {large + -large % 10} and {small} make?",
        lambda small, large: you_know(
            added(large + -large % 10, small),
            f"{large} is {'one' if large % 10 == 9 else 'two'} less than {large + -large % 10}.",
        ),
        lambda small, large: (
            added(large + -large % 10, small), taken(large + -large % 10 + small, -large % 10),
        ),
    ),
    Idea(
        "five-as-anchor", lambda small, large: small >= 5 and 5 < large < 10,
        lambda small, large: "Is there a five in each?",
        lambda small, large: you_know(added(5, 5), f"Then {small + large - 10} more."), _fives,
    ),
)  # fmt: skip


# --- differences --------------------------------------------------------------------------------------


def _far(part: int, whole: int) -> str:
    return f"How far from {part} to {whole}?"


def _one_left(whole: int, part: int) -> str:
    if whole - part == 1:
        return f"Say the number after {part}.\nHow many more is it?"
    return f"Say {part}.\nCount on to {whole}."


def _through_ten(whole: int, part: int) -> tuple[str, ...]:
    """Up to ten, then on; the two jumps together."""
    return added(part, 10 - part), added(10, whole - 10), added(10 - part, whole - 10)


def _one_more_taken(whole: int, part: int) -> str:
    """9 − 4 from 9 − 3; 9 − 5 not from 9 − 4, which is the same fact."""
    if whole - part == part - 1:
        return _near_double(whole, part)
    return you_know(taken(whole, part - 1), "Take one more.")


def _bites(whole: int, part: int) -> tuple[str, ...]:
    """Down to ten or twenty, then on."""
    first = whole % 10
    return taken(whole, first), taken(whole - first, part - first)


def _tens_are_left(whole: int, part: int) -> bool:
    """22 − 12: what is left is what is taken first, and 22 − 10 the same fact."""
    return whole - part == part - part % 10


def _tens_taken(whole: int, part: int) -> str:
    tens, ones = part - part % 10, part % 10
    if _tens_are_left(whole, part):
        return f"Take {in_tens(tens)} from {whole}.\nThen take {ones} more."
    return you_know(taken(whole, tens), f"Take {ones} more.")


def _short(whole: int, part: int) -> bool:
    """Ones are taken of which the whole, past ten, has too few."""
    return whole % 10 < part < 10 < whole


DIFFERENCE: tuple[Idea, ...] = (
    Idea(
        "counting-back", lambda whole, part: part == 1,
        lambda whole, part: f"Which number comes before {whole}?",
        lambda whole, part: f"Say the number before {whole}.",
        lambda whole, part: count(whole, [whole - 1]),
    ),
    Idea(
        "counting-up", lambda whole, part: whole - part <= ONE_BY_ONE,
        lambda whole, part: _far(part, whole), _one_left,
        lambda whole, part: count_up(part, whole),
    ),
    Idea(
        "tens-and-ones", lambda whole, part: whole > 10 and part in (10, 20, whole % 10),
        lambda whole, part: "How many tens? How many ones?",
        lambda whole, part: f"{whole} is {part} and more.\nTake the {part} away.",
        lambda whole, part: (f"{whole} is {part} and {whole - part}.", taken(whole, part)),
        lambda whole, part: (f"{whole} is {part} and {BOX}.",),
    ),
    Idea(
        "doubles", lambda whole, part: whole == 2 * part,
        lambda whole, part: f"What double makes {whole}?",
        lambda whole, part: f"Think of doubles.\nWhich double makes {whole}?",
        lambda whole, part: (double_is(part), taken(whole, part)),
    ),
    Idea(
        "tens-and-ones", lambda whole, part: whole > 10 and part < whole % 10,
        lambda whole, part: "What is left of the ones?",
        lambda whole, part: you_know(taken(whole % 10, part), f"{in_tens(whole - whole % 10)} more."),
        lambda whole, part: (taken(whole % 10, part), added(whole - whole % 10, whole % 10 - part)),
    ),
    Idea(
        "taking-off", lambda whole, part: part > 10 and part % 10 > 0,
        lambda whole, part: f"What is left without {'a ten' if part < 20 else 'two tens'}?",
        _tens_taken,
        lambda whole, part: (
            taken(whole, part - part % 10), taken(whole - part + part % 10, part % 10),
        ),
        lambda whole, part: (
            (f"{whole} − {part - part % 10} = {BOX}",) if _tens_are_left(whole, part) else ()
        ),
    ),
    Idea(
        "counting-back", lambda whole, part: part <= ONE_BY_ONE,
        lambda whole, part: "Which number will you start from?", _one_more_taken,
        lambda whole, part: count(whole, range(whole - 1, whole - part - 1, -1)),
    ),
    Idea(
        "near-doubles", lambda whole, part: abs(whole - 2 * part) == 1 < part and whole <= 10,
        lambda whole, part: "Which double is close?",
        lambda whole, part: _near_double(whole, part),
        lambda whole, part: _by_near_double(whole, part),
    ),
    Idea(
        "counting-back", lambda whole, part: part <= STEPS_TO_TEN and whole <= 10,
        lambda whole, part: "Which number will you start from?", _one_more_taken,
        lambda whole, part: count(whole, range(whole - 1, whole - part - 1, -1)),
    ),
    Idea(
        "counting-up", lambda whole, part: whole - part <= STEPS_TO_TEN and whole <= 10,
        lambda whole, part: _far(part, whole), _one_left,
        lambda whole, part: count_up(part, whole),
    ),
    Idea(
        "rounding", lambda whole, part: part in (8, 9) and _short(whole, part),
        lambda whole, part: "What is left if you take 10?",
        lambda whole, part: you_know(
            taken(whole, 10), f"That is {'one' if part == 9 else 'two'} too many."
        ),
        lambda whole, part: (taken(whole, 10), added(whole - 10, 10 - part)),
    ),
    Idea(
        "bridging", lambda whole, part: _short(whole, part) and whole % 10 > 0,
        lambda whole, part: f"How far down to {whole - whole % 10}?",
        lambda whole, part: you_know(taken(whole, whole % 10), f"Take {part - whole % 10} more."), _bites,
    ),
    Idea(
        "opening", _short,
        lambda whole, part: "What is left of one ten?",
        lambda whole, part: you_know(taken(10, part), f"{whole} is {whole - 10} more than 10."),
        lambda whole, part: (taken(10, part), added(10 - part, whole - 10)),
    ),
    Idea(
        "counting-up", lambda whole, part: part < 10 < whole <= 20 and whole - part != 10,
        lambda whole, part: _far(part, whole),
        lambda whole, part: f"From {part} to 10 is {10 - part}.\nThen on to {whole}.", _through_ten,
    ),
    Idea(
        "near-doubles", lambda whole, part: abs(whole - 2 * part) == 1 < part,
        lambda whole, part: "Which double is close?",
        lambda whole, part: _near_double(whole, part),
        lambda whole, part: _by_near_double(whole, part),
    ),
)  # fmt: skip


def _near_double(whole: int, part: int) -> str:
    """9 − 4 from 8 − 4, 9 − 5 from 10 − 5."""
    if whole > 2 * part:
        return you_know(taken(whole - 1, part), "One more.")
    return you_know(taken(whole + 1, part), "One less.")


def _by_near_double(whole: int, part: int) -> tuple[str, ...]:
    if whole > 2 * part:
        return taken(whole - 1, part), added(part, 1)
    return taken(whole + 1, part), taken(part, 1)
