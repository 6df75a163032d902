"""Text that comes from outside, and lists and names in words."""

import re
import unicodedata
from collections.abc import Callable, Iterable, Sequence
from typing import TypeVar

T = TypeVar("T")

# Categories of characters that never belong in a name or a title: controls (C0, C1), every invisible mark
# that joins, turns or hides text, lone surrogates, private use, unassigned, line and paragraph separators.
UNWANTED = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
HELD = "\x1f"  # stands for a space at which no line is broken; in no text that is clean
SIGN, BEFORE, BEHIND = "[×÷·:+−=<>≈]", r"[\w□)%]", r"[\d□(£$€−]"
WITHIN_SUMS = rf"(?<={BEFORE}) (?={SIGN} {BEHIND})|(?<={BEFORE} {SIGN}) (?={BEHIND})"
UNIT = (
    r"(?:(?:years?|months?|weeks?|days?|hours?|minutes?|seconds?|feet|foot|inch(?:es)?|yards?|miles?|ounces?|"
    r"pounds?|stone|tons?|cups?|pints?|quarts?|gallons?|(?:table|tea)spoons?|fluid ounces?|min|[cdkm]?[glm]|"
    r"[Lhspct]|in|ft|yd|mi|oz|lb|st|°[CF])\b)"
)
QUANTITY = rf"[\d□][\d□.,]* ?{UNIT}"
SEVERAL = rf"{QUANTITY}(?: {QUANTITY})*"
WITH_UNITS = rf"{SEVERAL}(?= {SIGN} )|(?<={SIGN} ){SEVERAL}"  # made for the first line that is too long
SPACES = frozenset("\t\n\v\f\r\x85\u2028\u2029")


def clean(text: str) -> str:
    """One line fit for a terminal, a page or a spreadsheet: NFC, single spaces, nothing invisible."""
    if text.isascii() and text.isprintable():  # nearly always; half of the time (measured here)
        return " ".join(text.split())
    visible = text if text.isprintable() else "".join(_kept(character) for character in text)
    return " ".join(unicodedata.normalize("NFC", visible).split())


def _kept(character: str) -> str:
    if character in SPACES:
        return " "
    return "" if unicodedata.category(character) in UNWANTED else character


def held(text: str, room: int) -> str:
    """With sums like 2 × 6 = 12 and 3 m 5 cm = 305 cm as one word each, so that no line ends within one; one
    that has no room is left as it is."""
    joined = re.sub(WITH_UNITS, lambda found: found[0].replace(" ", HELD), text)
    joined = re.sub(WITHIN_SUMS, HELD, joined)
    return " ".join(word if len(word) <= room else word.replace(HELD, " ") for word in joined.split(" "))


def let_go(lines: Iterable[str]) -> list[str]:
    """Lines of a text that was held, with their spaces."""
    return [line.replace(HELD, " ") for line in lines]


def nearest(name: str, names: Iterable[str], most: int = 3) -> list[str]:
    """The names most like one that was mistyped, most alike first; [] when none is."""
    from difflib import get_close_matches  # only a mistake pays for the import

    folded = {other.casefold(): other for other in names}
    found = get_close_matches(name.casefold()[:100], folded, n=most, cutoff=0.6)
    return [folded[other] for other in found]


def meant(wanted: str, known: Iterable[T], name: Callable[[T], str]) -> list[T]:
    """What is called exactly so, else all whose name begins so; nothing where nothing was written."""
    begun = [one for one in known if wanted and name(one).startswith(wanted)]
    return [one for one in begun if name(one) == wanted] or begun


def in_words(items: Sequence[str], last: str = "and") -> str:
    """ "a", "a and b", "a, b and c"."""
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {last} {items[-1]}"


def kept_apart(items: Sequence[str]) -> str:
    """In words, or by semicolons where one has commas of its own: "tens, like 40; ones, like 7"."""
    return "; ".join(items) if any(", " in item for item in items) else in_words(items)


def ended(line: str) -> str:
    """With its full stop, unless what it names last ends it: "How many in a dozen?"."""
    return line if line.endswith("?") else f"{line}."


def plural(number: int, word: str) -> str:
    """A number and its noun: "1 card", "3 cards", "2 days", "2 families"."""
    return f"{number:,} {word if number == 1 else _many(word)}"


def _many(word: str) -> str:
    if word.endswith("y") and word[-2:-1] not in {*"aeiou"}:
        return word[:-1] + "ies"
    return word + ("es" if word.endswith(("s", "x", "ch", "sh")) else "s")
