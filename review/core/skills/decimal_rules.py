"""What one would write of decimals under each rule of error.

A decimal read as two whole numbers, and digits lined up on the right, whatever the places: Hiebert & Wearne
1985, Resnick 1989 (both from memory). What is carried or borrowed goes as with whole numbers.

Numbers are as in `amounts`: a whole number of the smallest place, and how many places it has.
"""

from collections.abc import Callable, Mapping, Sequence

from review.core.skills.amounts import trimmed

Written = tuple[int, int]  # a number of its smallest place, and its places


def _digits(number: Written) -> tuple[int, ...]:
    """As they stand, without the point and without zeros in front."""
    return tuple(map(int, str(number[0])))


def _value(number: Written) -> tuple[int, ...]:
    """To compare by: in the smallest place there is, a millionth."""
    return (number[0] * 10 ** (6 - number[1]),)


def _whole_and_rest(number: Written) -> tuple[int, int]:
    one = int(10 ** number[1])
    return divmod(number[0], one)


def _all_digits(number: Written) -> int:
    whole, places = str(number[0] // 10 ** number[1]), number[1]
    return len(whole) + places


Key = Callable[[Written], tuple[int, ...]]

ORDER_RULES: Mapping[str, Key] = {
    "longer": lambda one: (_all_digits(one), *_value(one)),
    "shorter": lambda one: (-one[1], *_value(one)),
    "after_point": _whole_and_rest,
    "point_ignored": lambda one: (one[0],),
    "first_digit": _digits,
    "last_digit": lambda one: (one[0] % 10, *_value(one)),
    "reversed": lambda one: (-_value(one)[0],),
}
COMPARE_RULES: Mapping[str, Key] = {
    "after_point": _whole_and_rest,
    "first_digit": lambda one: _digits(one)[:1],
    "last_digit": lambda one: (one[0] % 10,),
    "reversed": lambda one: (-_value(one)[0],),
}


def in_order(numbers: Sequence[Written], rule: str = "") -> tuple[Written, ...]:
    """Smallest first, by value or by a rule."""
    key: Key = ORDER_RULES[rule] if rule else _value
    return tuple(sorted(numbers, key=key))


def sign(first: Written, second: Written, rule: str = "") -> str:
    """Of two numbers, by value or by a rule."""
    key: Key = COMPARE_RULES[rule] if rule else _value
    one, other = key(first), key(second)
    return "=" if one == other else "<" if one < other else ">"


def rounded(number: int, place: int) -> int:
    """To the nearest, halves up."""
    return (number + place // 2) // place * place


def rounding_rules(number: int, place: int) -> Mapping[str, int]:
    """For a number and a place, both in the smallest place."""
    down = number // place * place
    up = down + (place if number % place else 0)
    near = rounded(number, place)
    half = number % place * 2 == place
    return {
        "down": down,
        "up": up,
        **({"place_small": rounded(number, place // 10)} if place >= 10 else {}),
        "place_large": rounded(number, place * 10),
        "rest_kept": near + number % place,
        **({"five_down": down} if half else {}),
        "digit_off": near // place,
    }


def value_rules(number: int, place: int, one: int) -> Mapping[str, int]:
    """For the digit at a place; `one` is what 1 is in the smallest place."""
    digit = number // place % 10
    return {
        "face": digit * one,
        "place_only": place,
        **({"place_small": digit * place // 10} if place >= 10 else {}),
        "place_large": digit * place * 10,
        "head": number // place * min(place, one),
    }


def smaller_from_larger(first: int, second: int) -> int:
    """The difference of the digits in each column, whichever is on top."""
    top, under = str(first), str(second).rjust(len(str(first)), "0")
    return int("".join(str(abs(int(a) - int(b))) for a, b in zip(top, under, strict=True)))


def scaling_rules(number: int, factor: int, places: int, times: bool) -> Mapping[str, str]:
    """Converted the wrong way, or a nought too many; as it is written."""
    up, down = trimmed(number * factor, places), trimmed(number, places + len(str(factor)) - 1)
    larger = trimmed(number * factor * 10, places) if times else trimmed(number, places + len(str(factor)))
    return {"wrong_way": down if times else up, "power_large": larger}


# --- added and taken away -----------------------------------------------------------------------------


def _columns(first: int, second: int) -> list[tuple[int, int]]:
    """The digits of each column, the smallest place first."""
    width = len(str(max(first, second)))
    return [(first // 10**at % 10, second // 10**at % 10) for at in range(width)]


def _joined(digits: Sequence[int]) -> int:
    return sum(digit * 10**at for at, digit in enumerate(digits))


def carry_dropped(first: int, second: int) -> int:
    """What a column passes ten by is left out; the first column is written whole."""
    *right, top = [one + other for one, other in _columns(first, second)]
    return _joined([*(column % 10 for column in right), top])


def not_reduced(first: int, second: int) -> int:
    """Ten is put to a column that has too little, and taken from none."""
    return _joined([(one - other) % 10 for one, other in _columns(first, second)])


def apart_at_point(first: Written, second: Written, way: int) -> str:
    """What stands before the point and what stands behind it, each as whole numbers: 1.7 + 3.8 as 4.15."""
    (whole, rest), (other, more) = _whole_and_rest(first), _whole_and_rest(second)
    behind = abs(rest + way * more)
    places = max(len(str(behind)), first[1], second[1])
    return trimmed((whole + way * other) * 10**places + behind, places)


def lined_up_right(first: Written, second: Written, way: int) -> Mapping[str, str]:
    """The last digits one below the other, though their places differ: 7.1 + 4.33 as 5.04."""
    made = first[0] + way * second[0]
    if first[1] == second[1] or made <= 0:
        return {}
    return {"lined_up_right": trimmed(made, max(first[1], second[1]))}


def each_to_ten(number: int) -> int:
    """Each digit made up to ten: 53 and 57."""
    return _joined([10 - digit for digit, _ in _columns(number, 0)])
