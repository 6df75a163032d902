"""What written sums, differences, products and divisions say alike: a class of two numbers, and the help."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Help
from review.core.skills.worked import worked


class Class(NamedTuple):
    upper: int  # how many digits
    lower: int
    name: str


def class_of(key: str, sign: str) -> Class:
    """As it stands in a card's key: `column-product:3x1/carry`."""
    digits, name = content_of(key).split("/")
    upper, lower = map(int, digits.split(sign))
    return Class(upper, lower, name)


def empty(called: str, name: str, but: str = "") -> tuple[str, str, str]:
    """The mistake of a skill that names a class without a member."""
    return "classes", f"no numbers fit “{called}”{but}", f'leave "{name}" out'


def helps(question: str, build: str, steps: Iterable[str], layout: Sequence[str]) -> tuple[Help, ...]:
    """A question, what to build, each step; the whole on paper is held back with the last of them."""
    written = tuple(steps)
    return (
        Help("question", question),
        Help("build", build),
        *worked(*written, *layout, at=len(written) - 1),
    )
