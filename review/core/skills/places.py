"""Whole numbers by their places: 1, 10, 100, ..."""

MOST_DIGITS = 6  # our judgement: the words end under a million, and so does grade 4 of the US standards
PLACES = ("ones", "tens", "hundreds", "thousands", "ten-thousands", "hundred-thousands")


def place_name(place: int) -> str:
    """100 -> "hundreds"."""
    return PLACES[len(str(place)) - 1]


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
