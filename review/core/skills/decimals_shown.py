"""What a decimal's digits are worth, decimals compared, put in order and rounded."""

from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise, permutations

from review.core.model import BOX, Help
from review.core.skills.amounts import PLACE_PARTS, place_count, places_named, point, said_point, trimmed
from review.core.skills.decimal_rules import (
    COMPARE_RULES,
    ORDER_RULES,
    Written,
    in_order,
    rounded,
    rounding_rules,
    sign,
    value_rules,
)
from review.core.skills.tasks import Numbers, Shown, Space, Task, Writing, as_asked, pattern
from review.core.skills.wording import EQUALS, SIGN_SENTENCES, TIMES, in_words, lines
from review.core.skills.worked import worked

PLACE_WORDS = ("whole number", "tenth", "hundredth")
FROM_THE_MIDDLE = "From the middle on, it goes up."
BELOW_IT = "Below the middle, it goes down."
MOST_ROUNDED = 20  # what is rounded stays under it; our judgement


def ends_in_digit(number: int, places: int) -> bool:
    """No zero at the end that says nothing."""
    return places == 0 or number % 10 != 0


# --- numbers of several lengths, in either order ------------------------------------------------------


def arrangements(places: Numbers) -> list[Numbers]:
    return sorted(set(permutations(places)))


def in_any_order(joined: str) -> Writing:
    """A member holds the numbers by their places, then which arrangement of the places is shown."""

    def write(sizes: Numbers, member: Numbers) -> str:
        return joined.join(as_asked(*one) for one in arranged(sizes, member))

    def read(sizes: Numbers, asked: str) -> Numbers | None:
        parts = asked.split(joined)
        places = tuple(len(part.partition(".")[2]) for part in parts)
        if tuple(sorted(places)) != tuple(sorted(sizes)) or not all(_is_decimal(part) for part in parts):
            return None
        held = sorted(range(len(parts)), key=lambda at: places[at])
        numbers = (int(parts[at].replace(".", "")) for at in held)
        return (*numbers, arrangements(sizes).index(places))

    return Writing(write, read)


def _is_decimal(text: str) -> bool:
    return text.isascii() and text.replace(".", "", 1).isdigit()


def arranged(sizes: Numbers, member: Numbers) -> tuple[Written, ...]:
    """The numbers as they are shown, each with its places."""
    *numbers, turn = member
    waiting = {many: [n for n, own in zip(numbers, sizes, strict=True) if own == many] for many in sizes}
    return tuple((waiting[many].pop(0), many) for many in arrangements(sizes)[turn])


def any_order_space(sizes: Numbers, ranges: Sequence[range], fits: Callable[..., bool]) -> Space:
    """`fits` is asked of the numbers as they are shown."""

    def fitting(*member: int) -> bool:
        return fits(*arranged(sizes, member))

    return Space((*ranges, range(len(arrangements(sizes)))), fitting)


# --- what a digit is worth ----------------------------------------------------------------------------


def _value_space(sizes: Numbers) -> Space:
    places, at = sizes
    place = 10 ** (places - at)

    def fits(number: int) -> bool:
        digit = number // place % 10
        return digit != 0 and str(number).count(str(digit)) == 1 and ends_in_digit(number, places)

    return Space((range(10**places, 10 ** (places + 1)),), fits)


def _value(sizes: Numbers, member: Numbers) -> Shown:
    (number,), (places, at) = member, sizes
    digit = number // 10 ** (places - at) % 10
    written, worth, name = point(number, places), point(digit, at), PLACE_PARTS[at]
    helps = (
        Help("question", f"Which place is the {digit} in?"),
        Help("build", "Write it in a place table."),
        *worked(f"The {digit} is in the {name} place.", f"{digit} {TIMES} {point(1, at)} {EQUALS} {worth}"),
    )
    say = f"What is the {in_words(digit)} worth in {said_point(number, places)}?"
    told = f"The {digit} in {written} is worth {worth}."
    return Shown(f"What is the {digit} worth in {written}?", say, worth, told, helps, "decimal")


def _value_predict(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    places, at = sizes
    found = value_rules(member[0], 10 ** (places - at), 10**places)
    return {rule: trimmed(value, places) for rule, value in found.items()}


# --- compared -----------------------------------------------------------------------------------------


def _near(sizes: Numbers, fits: Callable[[Written, Written], bool]) -> Space:
    """Two numbers under 10 of the same whole part."""

    def fitting(first: Written, second: Written) -> bool:
        return first[0] // 10 ** first[1] == second[0] // 10 ** second[1] and fits(first, second)

    return any_order_space(sizes, [range(1, 10 ** (places + 1)) for places in sizes], fitting)


def _both_end(first: Written, second: Written) -> bool:
    return ends_in_digit(*first) and ends_in_digit(*second)


def _longer_is(which: str) -> Callable[[Numbers], Space]:
    """Pairs in which the number with more places is the greater one, or the lesser one."""

    def fits(first: Written, second: Written) -> bool:
        longer, shorter = (first, second) if first[1] > second[1] else (second, first)
        return _both_end(first, second) and sign(longer, shorter) == which

    return lambda sizes: _near(sizes, fits)


def _same_length(sizes: Numbers) -> Space:
    return _near(sizes, lambda one, other: _both_end(one, other) and one != other)


def _equal_writing() -> Writing:
    """One number and the order of the two ways to write it."""
    pair = in_any_order("?")

    def whole(sizes: Numbers, member: Numbers) -> Numbers:
        number, turn = member
        return number, number * 10 ** (sizes[1] - sizes[0]), turn

    def read(sizes: Numbers, asked: str) -> Numbers | None:
        found = pair.read(sizes, asked)
        return (found[0], found[2]) if found else None

    return Writing(lambda sizes, member: pair.write(sizes, whole(sizes, member)), read)


def _equal(sizes: Numbers) -> Space:
    """The longer one has zeros at its end."""
    fewer, _ = sizes
    return Space((range(1, 10 ** (fewer + 1)), range(2)), lambda number, turn: ends_in_digit(number, fewer))


def _compare_equal(sizes: Numbers, member: Numbers) -> Shown:
    number, turn = member
    return _compare(sizes, (number, number * 10 ** (sizes[1] - sizes[0]), turn))


def _equal_predict(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    number, turn = member
    return _compare_predict(sizes, (number, number * 10 ** (sizes[1] - sizes[0]), turn))


def _filled_up(numbers: Sequence[Written]) -> tuple[str, ...]:
    """The same numbers with as many places as the longest has."""
    most = max(places for _, places in numbers)
    return tuple(
        f"{point(n, places)} {EQUALS} {point(n * 10 ** (most - places), most)}"
        for n, places in numbers
        if places < most
    )


def _compare(sizes: Numbers, member: Numbers) -> Shown:
    first, second = arranged(sizes, member)
    which, one, other = sign(first, second), point(*first), point(*second)
    steps = _filled_up((first, second)) or ("Compare place by place from the left.",)
    most = max(first[1], second[1])
    left, right = (point(n * 10 ** (most - places), most) for n, places in (first, second))
    worked_out = dict.fromkeys([*steps, f"{left} {which} {right}", f"{one} {which} {other}"])
    helps = (
        Help("question", "Does any place differ?\nWhich is the first?"),
        Help("build", "Write one under the other."),
        Help("blank", lines([*steps, f"{left} {BOX} {right}"])),
        Help("steps", lines(worked_out)),
    )
    say = f"Which sign goes between {said_point(*first)} and {said_point(*second)}?"
    told = f"{one} {SIGN_SENTENCES[which]} {other}."
    return Shown(f"{one} {BOX} {other}", say, which, told, helps, "sign")


def _compare_predict(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    first, second = arranged(sizes, member)
    return {rule: sign(first, second, rule) for rule in COMPARE_RULES}


# --- put in order -------------------------------------------------------------------------------------


def _order_space(sizes: Numbers) -> Space:
    """Numbers under one, no two the same."""

    def fits(*numbers: Written) -> bool:
        distinct = all(sign(one, other) == "<" for one, other in pairwise(in_order(numbers)))
        return distinct and all(ends_in_digit(*one) for one in numbers)

    return any_order_space(sizes, [range(1, 10**places) for places in sizes], fits)


def _order(sizes: Numbers, member: Numbers) -> Shown:
    numbers = arranged(sizes, member)
    ordered = [point(*one) for one in in_order(numbers)]
    written = [point(*one) for one in numbers]
    steps = (*_filled_up(numbers), " < ".join(ordered))
    helps = (
        Help("question", "Which has the fewest tenths?"),
        Help("build", "Write them under each other."),
        *worked(*steps),
    )
    say = f"Smallest first: {', '.join(said_point(*one) for one in numbers)}."
    prompt = f"Smallest first: {', '.join(written)}:"
    return Shown(prompt, say, " ".join(ordered), f"In order: {', '.join(ordered)}.", helps, "decimals")


def _order_predict(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    numbers = arranged(sizes, member)
    return {rule: " ".join(point(*one) for one in in_order(numbers, rule)) for rule in ORDER_RULES}


# --- rounded ------------------------------------------------------------------------------------------


def _round_space(sizes: Numbers) -> Space:
    places, _ = sizes
    return Space((range(1, MOST_ROUNDED * 10**places),), lambda number: ends_in_digit(number, places))


def _round(sizes: Numbers, member: Numbers) -> Shown:
    (number,), (places, to) = member, sizes
    place = 10 ** (places - to)
    down = number // place * place
    written, answer = point(number, places), point(rounded(number, place) // place, to)
    middle = (down * 10 + place * 5, places + 1)  # between the two ends
    low, high = (point(end // place, to) for end in (down, down + place))
    ends = f"{low} < {written} < {high}"
    where = FROM_THE_MIDDLE if rounded(number, place) > down else BELOW_IT
    line, rounds = (written, trimmed(*middle)), f"It rounds to {answer}."
    helps = (
        Help("question", "Which two numbers is it between?"),
        Help("build", "Draw a line with both ends."),
        Help("blank", lines([ends, f" {BOX} ".join(line)])),
        Help("steps", lines([ends, f" {sign((number, places), middle)} ".join(line), where, rounds])),
    )
    prompt = f"{written} to the nearest {PLACE_WORDS[to]} is"
    say = f"What is {said_point(number, places)} to the nearest {PLACE_WORDS[to]}?"
    return Shown(prompt, say, answer, f"{written} rounds to {answer}.", helps, "decimal")


def _round_predict(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    (number,), (places, to) = member, sizes
    found = rounding_rules(number, 10 ** (places - to))
    return {
        rule: str(value) if rule == "digit_off" else trimmed(value, places) for rule, value in found.items()
    }


# --- the tasks ----------------------------------------------------------------------------------------


def of_places(what: str) -> Callable[[Numbers], str]:
    return lambda sizes: f"{what}, {places_named(*sizes)}"


TASKS: Mapping[str, Task] = {
    "value": Task(
        lambda sizes: f"what the {PLACE_PARTS[sizes[1]]} digit is worth, {place_count(sizes[0])}",
        7.0, pattern("#", lambda sizes: sizes[:1]), _value_space, _value, "value", _value_predict,
    ),
    "compare": Task(
        of_places("comparing decimals"), 6.0, in_any_order("?"), _same_length, _compare, "compare",
        _compare_predict, 3,
    ),
    "compare-longer": Task(
        of_places("comparing decimals, the longer greater"), 6.0, in_any_order("?"), _longer_is(">"),
        _compare, "compare", _compare_predict, 3,
    ),
    "compare-shorter": Task(
        of_places("comparing decimals, the shorter greater"), 6.0, in_any_order("?"), _longer_is("<"),
        _compare, "compare", _compare_predict, 3,
    ),
    "compare-equal": Task(
        of_places("comparing decimals, the same"), 6.0, _equal_writing(), _equal, _compare_equal, "compare",
        _equal_predict, 3,
    ),
    "order": Task(
        of_places("decimals in order"), 18.0, in_any_order(","), _order_space, _order, "order", _order_predict
    ),
    "round": Task(
        lambda sizes: f"to the nearest {PLACE_WORDS[sizes[1]]}, {place_count(sizes[0])}",
        9.0, pattern("#", lambda sizes: sizes[:1]), _round_space, _round, "round", _round_predict,
    ),
}  # fmt: skip
