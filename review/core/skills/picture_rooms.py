"""Which room draws the pictures of a kind's help, and of which cards there is none, with the reason."""

from collections.abc import Mapping

ROOMS: Mapping[str, str] = {
    "sum": "fact_pictures",
    "difference": "fact_pictures",
    "product": "fact_pictures",
    "quotient": "fact_pictures",
    "bond": "fact_pictures",
    "double": "fact_pictures",
    "half": "fact_pictures",
    "true-false": "fact_pictures",
    "count-by": "line_pictures",
    "sequence": "line_pictures",
    "rounding": "line_pictures",
    "estimate": "line_pictures",
    "negative": "line_pictures",
    "temperature": "line_pictures",
    "number-property": "number_pictures",
    "quantity": "number_pictures",
    "operations": "number_pictures",
    "place-value": "place_pictures",
    "compare": "place_pictures",
    "order": "place_pictures",
    "number-name": "place_pictures",
    "roman": "roman_pictures",
    "column-sum": "mat_pictures",
    "column-difference": "mat_pictures",
    "column-product": "mat_pictures",
    "mental-sum": "mental_pictures",
    "mental-difference": "mental_pictures",
    "mental-product": "mental_pictures",
    "mental-quotient": "mental_pictures",
    "add-several": "mental_pictures",
    "fraction": "part_pictures",
    "decimal": "decimal_pictures",
    "percent": "part_pictures",
    "convert": "measure_pictures",
    "money": "money_pictures",
    "clock": "time_pictures",
    "duration": "time_pictures",
    "shape-measure": "measure_pictures",
    "word-problem": "story_pictures",
}
"""Kind -> the room with its row in `PICTURES`."""

SEEN = "the prompt is the picture; what is to be done with it is in the other steps"
UNPICTURED: Mapping[str, str] = {
    "product:nx0": "no counters are left to lay out",
    "quantity:dots": SEEN,
    "quantity:teens": SEEN,
    "quantity:rows": SEEN,
    "quantity:line": SEEN,
    "quantity:halfway": SEEN,
    "clock:read": SEEN,
    "temperature:read-c": SEEN,
    "temperature:read-f": SEEN,
    "fraction:shaded": SEEN,
    "fraction:line": SEEN,
    "fraction:line-past-one": SEEN,
    "money:count-3": SEEN,
    "money:count-4": SEEN,
    "money:count-5": SEEN,
    "money:same": SEEN,
    "timetable": "the prompt is the table that is read",
    "division-written": "its help is the sum on paper, step by step; shared out, four digits fit no screen",
    "vocabulary": "a word is not a quantity",
    "pairs": "a parent's or the calendar's own words; nobody knows what they show",
    "template": "a parent's own arithmetic; nobody knows what it shows",
}
"""Kind, or kind and task -> why its help has no picture."""


def is_unpictured(key: str) -> bool:
    kind, _, content = key.partition(":")
    return kind in UNPICTURED or f"{kind}:{content.partition('/')[0]}" in UNPICTURED
