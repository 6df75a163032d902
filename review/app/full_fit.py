"""A fit of every parameter of the memory model, by a library that only the extra `fit` brings.

The library knows an answer as one of four ratings, days after the one before. What our histories hold besides
is put in its terms: a hold leaves the strength and moves the day, so that its days are already those of the
next step; a card known at first sight, which starts far out, is the best of first answers; a half has no like
and is left out. Whatever that costs shows on the later days, which decide by our own model.
"""

from collections.abc import Iterator, Sequence
from importlib.util import find_spec
from math import isfinite
from typing import TYPE_CHECKING

from review.core import curve
from review.core.strength import Parameters, clamped
from review.core.trace import History, Step

if TYPE_CHECKING:
    from fsrs_rs_python import FSRSItem

_LIBRARY = "fsrs_rs_python"

_MISSED, _RIGHT, _KNOWN = 1, 3, 4

Review = tuple[int, int]
"""A rating, and the days since the review before."""


def is_installed() -> bool:
    return find_spec(_LIBRARY) is not None


def every_parameter(histories: Sequence[History]) -> Parameters | None:
    """The parameters the library finds, within the bounds of the one we remember by; None: it finds none."""
    from fsrs_rs_python import FSRS

    found = FSRS(list(curve.PARAMETERS)).compute_parameters(items(histories))
    if len(found) != len(curve.PARAMETERS) or not all(map(isfinite, found)):
        return None
    return tuple(round(value, 6) for value in clamped(found))


def items(histories: Sequence[History]) -> list["FSRSItem"]:
    from fsrs_rs_python import FSRSItem, FSRSReview

    return [FSRSItem([FSRSReview(*review) for review in reviews]) for reviews in in_order(histories)]


def in_order(histories: Sequence[History]) -> list[list[Review]]:
    """Every try with all that came before it, in the order of the days: newer ones weigh more."""
    told = sorted((day, n, reviews) for n, one in enumerate(histories) for day, reviews in tries(one))
    return [reviews for _, _, reviews in told]


def tries(history: History) -> Iterator[tuple[int, list[Review]]]:
    """Every try on a later day than the first: its day, and the reviews up to it."""
    reviews: list[Review] = []
    for step in history:
        review = review_of(step, new=not reviews)
        if review is not None:
            reviews.append(review)
        if review is not None and step.way == "try" and step.days > 0 and len(reviews) > 1:
            yield step.day, list(reviews)


def review_of(step: Step, new: bool) -> Review | None:
    """A step in the library's terms; None where it has no like."""
    if step.way in ("try", "look"):
        known = new and step.least > 0
        return (_MISSED if step.retrieved < 0.5 else _KNOWN if known else _RIGHT), 0 if new else step.days
    if not new or step.way == "halve":
        return None
    return _KNOWN if step.least > 0 else _RIGHT, 0
