"""Whole numbers by their places: 1, 10, 100, ..."""

MOST_DIGITS = 7  # our judgement: as far as year 6 of the English curriculum goes, 10,000,000
PLACES = ("ones", "tens", "hundreds", "thousands", "ten-thousands", "hundred-thousands", "millions")


def place_name(place: int) -> str:
    """100 -> "hundreds"."""
    return PLACES[len(str(place)) - 1]


def first_place(number: int) -> int:
    """Where its first digit stands: 3,456 -> 1000."""
    return int(10 ** (len(str(number)) - 1))


def digit_at(number: int, place: int) -> int:
    """The digit that stands at a place: 3,456 at 100 -> 4."""
    return number // place % 10


def with_digits(digits: int) -> range:
    """The whole numbers of so many digits, zero not among them."""
    return range(int(10 ** (digits - 1)), int(10**digits))


def parts(number: int) -> list[int]:
    """What its digits are worth, largest first, none of them zero: 3,056 -> 3000, 50, 6."""
    digits = str(number)
    return [int(digit) * 10 ** (len(digits) - 1 - at) for at, digit in enumerate(digits) if digit != "0"]


def names_of_parts(number: int) -> str:
    """3,056 -> "thousands, tens and ones"."""
    *names, last = [PLACES[len(str(part)) - 1] for part in parts(number)]
    return " and ".join([", ".join(names), last]) if names else last


def without_inner_zeros(number: int) -> int:
    """What is written by those who leave a place that has nothing out: 6,058 -> 658, but 650 -> 650."""
    digits = str(number)
    inner = digits.rstrip("0")
    return int(inner.replace("0", "") + digits[len(inner) :])
