"""The lane of the daily lines, in front of click: a sixth of the time until the first problem.

It takes a line only where it knows every word for sure: bare `review`, and `warmup` with the options of
`declared.WARMUP`, each with those that all commands share. All else is left to click, above all what is
wrong. A test holds what it reads against what click reads.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import Any, NamedTuple

from review.cli.declared import BOOK, ON, PLAIN, WARMUP, Declared, number

COMMAND = "warmup"


def practice_day(text: str) -> int:
    from review.cli import calls  # only for a line that is likely taken

    return calls.practice_day(text)


READ: Mapping[str, Callable[[str], object]] = {"text": str, "number": number, "date": practice_day}
"""What stands behind an option, to its value; ValueError where it is none."""


class Line(NamedTuple):
    """A line that was read: the values before the command and behind it. What is left out is not in them."""

    before: Mapping[str, Any]
    behind: Mapping[str, Any] | None  # None: there is no command


def read(words: Sequence[str]) -> Line | None:
    """The line, where every word of it is known for sure; None: it is left to click."""
    at = words.index(COMMAND) if COMMAND in words else len(words)
    try:
        before = values(words[:at], (BOOK, PLAIN))
        is_bare = at == len(words)
        return Line(before, None if is_bare else values(words[at + 1 :], (BOOK, PLAIN, ON, *WARMUP), "child"))
    except ValueError:
        return None


def values(words: Sequence[str], options: Sequence[Declared], argument: str = "") -> dict[str, object]:
    """What the words say, by the fields of the options; ValueError where one is not known for sure."""
    found, left = dict[str, object](), iter(words)
    switched, taking = switches(options), {one.spelled: one for one in options if one.takes}
    for word in left:
        if word in switched:
            found |= switched[word]
        elif word in taking:
            one = taking[word]
            found[one.field] = READ[one.takes](sure(next(left, "-")))
        elif argument and argument not in found:
            found[argument] = sure(word)
        else:
            raise ValueError(word)
    return found


def switches(options: Sequence[Declared]) -> dict[str, dict[str, bool]]:
    """What each word says that stands alone."""
    return {
        word: {one.field: is_first}
        for one in options
        if not one.takes
        for word, is_first in zip(one.spelled.split("/"), (True, False), strict=False)
    }


def sure(word: str) -> str:
    """A word that is no option, nor looks like one."""
    if word.startswith("-"):
        raise ValueError(word)
    return word


def carried_out(program: str, line: Line) -> None:
    """One call, as click would make it."""
    from review.cli.calls import called, is_plain

    own = dict(line.behind or {})
    shared = {one.field: own.pop(one.field, None) for one in (BOOK, PLAIN, ON)}
    book = line.before.get("book") if shared["book"] is None else shared["book"]
    plain = bool(shared["plain"]) or is_plain(bool(line.before.get("plain")))
    call = called(program, book, plain, shared["on"], False)
    if line.behind is None:
        from review.cli.front_door import front_door

        front_door(call)
    else:
        from review.cli.sitting import Asked, sit

        sit(call, Asked(**own))
