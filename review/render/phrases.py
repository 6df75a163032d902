"""What reports say alike, whichever they are: a mark, a day, an answer in its place, the caution below."""

from collections.abc import Iterable, Mapping, Sequence

from review.core import days

CAUTION = "Hints for teaching, not a diagnosis."
MARK_WORDS: Mapping[str, str] = {
    "right": "right",
    "right_slow": "right, worked out",
    "right_helped": "right with help",
    "not_yet": "not yet",
    "shown": "asked to see it",
    "void": "interrupted",
    "": "none",
}
SLIP = "a slip of the keys, taken as right"
BOX = "□"  # where the answer goes, in a prompt that does not end with it
OPEN = ("=", "?", ":", " is")  # ends of a prompt that an answer goes on from


def answered(problem: str, given: str) -> str:
    """The problem with what was given where its answer goes."""
    if problem.count(BOX) == 1:
        return problem.replace(BOX, given)
    return f"{problem} {given}" if problem.endswith(OPEN) else f"{problem.removesuffix('.')}: {given}"


def date(day: int) -> str | None:
    return days.date_of(day).isoformat() if day else None


def blank_between(parts: Iterable[Sequence[str]]) -> list[str]:
    """The lines of several parts, an empty one between two."""
    return [line for part in parts for line in (*part, "")][:-1]
