"""Every error rule in words for a parent. Which rules there are, the kinds say; a test compares the two."""

from collections.abc import Mapping

from review.core.miss_words import facts, measures, numbers, parts, written
from review.core.miss_words.rows import Words, by_place

TABLE: Mapping[tuple[str, str], Words] = by_place(
    row for room in (facts, written, numbers, measures, parts) for row in room.ROWS
)
"""(family, or kind where all its families say the same; rule without its variant) -> words."""

PLACES: Mapping[str, str] = {
    "sum": "Sums", "difference": "Differences", "product": "Times tables", "quotient": "Tables backwards",
    "bond": "Parts of a whole", "double": "Doubles", "half": "Halves",
    "sum/missing": "Missing numbers", "difference/missing": "Missing numbers",
    "product/missing": "Missing numbers in tables", "quotient/missing": "Missing numbers in tables",
    "count-by": "Counting in steps", "sequence": "Before, after, between",
    "place-value": "Place value", "compare": "Comparing numbers", "order": "Ordering numbers",
    "number-name": "Number names", "number-property": "Squares and cubes", "rounding": "Rounding",
    "roman": "Roman numerals", "mental-sum": "Sums in the head",
    "mental-difference": "Differences in the head", "mental-product": "Products in the head",
    "mental-quotient": "Quotients in the head", "true-false": "The equal sign",
    "column-sum": "Column sums", "column-difference": "Column differences",
    "column-product": "Column products", "division-written": "Written division",
    "convert": "Units", "money": "Money", "clock": "The clock", "duration": "How long, how late",
    "temperature": "Temperatures", "fraction": "Fractions", "decimal": "Decimals", "percent": "Percents",
    "shape-measure": "Shapes", "negative": "Below zero", "operations": "What comes first",
    "estimate": "Estimates", "word-problem": "Stories",
}  # fmt: skip
"""What a parent calls a family, or all families of a kind."""


def words(family: str, rule: str) -> Words:
    return TABLE.get((family, rule)) or TABLE[_kind(family), rule]


def place(family: str) -> str:
    return PLACES.get(family) or PLACES[_kind(family)]


def _kind(family: str) -> str:
    return family.partition("/")[0]
