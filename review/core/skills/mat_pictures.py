"""Sums on paper as counters on a mat, with the exchange as a step of its own; products as a rectangle."""

from review.core.model import Help, Problem
from review.core.pictures import Area
from review.core.skills.picture_help import Pictures, pictured, wholes
from review.core.skills.place_counters import first_exchange, first_opening
from review.core.skills.place_pictures import AGAIN, exchanged, laid
from review.core.skills.places import parts
from review.core.skills.wording import grouped


def _column_sum(problem: Problem) -> tuple[Help, ...]:
    a, b = wholes(problem.asked)
    return (
        *pictured(laid(a, b), "Put each column together.", "Start with the ones."),
        *exchanged(first_exchange(a, b), AGAIN),
    )


def _column_difference(problem: Problem) -> tuple[Help, ...]:
    a, b = wholes(problem.asked)
    return (
        *pictured(laid(a), f"Take {grouped(b)} away from this.", "Start with the ones."),
        *exchanged(first_opening(a, b), AGAIN),
    )


def _column_product(problem: Problem) -> tuple[Help, ...]:
    a, b = wholes(problem.asked)
    return pictured(rectangle(a, b), "Each part is one product.")


def rectangle(a: int, b: int) -> Area:
    """The longer number across; each number in the parts its digits are worth."""
    return Area(tuple(parts(a)), tuple(parts(b)))


PICTURES: Pictures = {
    "column-sum": _column_sum,
    "column-difference": _column_difference,
    "column-product": _column_product,
}
