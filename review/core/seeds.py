"""Where every random number comes from: the same parts give the same numbers on every machine."""

from random import Random

from review.core.digests import sha256


def source(*parts: str | int) -> Random:
    """A random source that depends on its parts and their order, and on nothing else.

    The parts are ids, days and card keys; none of them holds the `|` that joins them.
    """
    text = "|".join(map(str, parts))
    return Random(int.from_bytes(sha256(text.encode()).digest(), "big"))


def plan_source(book: str, child: str, day: int) -> Random:
    """For a day's plan: the same also after a crash."""
    return source(book, child, day)


def problem_source(book: str, child: str, day: int, card: str, showing: int) -> Random:
    """For what a card's nth showing of a day asks: independent of what was shown before it."""
    return source(book, child, day, card, showing)
