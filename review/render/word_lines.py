"""A family's own words: what is chosen, and what can be."""

from collections.abc import Mapping

from review.core.model import CHOICES, Words
from review.core.text import in_words

TOLD: Mapping[str, Mapping[str, str]] = {
    "carry": {
        "any": "Ten for one: carry, regroup or exchange, as each set has it.",
        "carry": "Ten for one: carry in sums, borrow in differences.",
        "regroup": "Ten for one: regroup.",
        "exchange": "Ten for one: exchange.",
    },
    "maths": {"maths": "The subject: maths.", "math": "The subject: math."},
    "decimals": {
        "point": "Decimals and thousands: 0.5 and 1,250.",
        "comma": "Decimals and thousands: 0,5 and 1 250. In a list of decimals: 0,5; 0,25.",
    },
    "times": {"cross": "Times: 6 × 7.", "dot": "Times: 6 · 7."},
    "divide": {"dash": "Divide: 42 ÷ 6.", "colon": "Divide: 42 : 6."},
}
"""What each choice does, by the field of `Words` and the choice."""


def by_name(words: Words) -> dict[str, str]:
    return {name: TOLD[name][choice] for name, choice in words._asdict().items()}


def chosen(words: Words) -> list[str]:
    return [*by_name(words).values()]


def choices() -> list[str]:
    """What can be chosen instead."""
    return [
        "",
        "To change one, add it to review words:",
        *(f"  --{name} {in_words(some, 'or')}" for name, some in CHOICES.items()),
    ]


def changed(words: Words) -> list[str]:
    return [*chosen(words), "What was answered stays as it is. A change counts from the next warm-up on."]


def row(words: Words) -> dict[str, str]:
    """The keys are a promise; they are only ever added to."""
    return words._asdict()
