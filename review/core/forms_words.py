"""Answer forms in words: number words, odd or even, yes or no; and numbers in any order.

A misspelt number word counts where it can be meant for one word only: the kind shows how it is spelt.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache, lru_cache

from review.core.forms import Form, plain, read_whole
from review.core.skills.wording import ONES, TENS

VALUES: Mapping[str, int] = {
    **{word: value for value, word in enumerate(ONES)},
    **{word: 10 * tens for tens, word in enumerate(TENS) if tens > 1},
    "hundred": 100,
    "thousand": 1000,
}
SPELT: Mapping[int, str] = {value: word for word, value in VALUES.items()}
WORDS = (*VALUES, "and")

# Words that sound alike, and how children build those they have not met in writing: common practice, no
# source. What is nearer to its word is found by counting letters.
MEANT: Mapping[str, str] = {
    "nought": "zero", "naught": "zero", "won": "one", "wun": "one", "to": "two", "too": "two", "tow": "two",
    "tree": "three", "free": "three", "for": "four", "fore": "four", "sicks": "six", "ate": "eight",
    "elven": "eleven", "twelf": "twelve", "threeteen": "thirteen", "fiveteen": "fifteen",
    "eightteen": "eighteen", "twoty": "twenty", "threety": "thirty", "fourty": "forty", "fivety": "fifty",
    "eightty": "eighty", "hundreds": "hundred", "thousands": "thousand", "a": "one", "an": "one", "n": "and",
}  # fmt: skip


# --- number words -------------------------------------------------------------------------------------


def read_number_words(text: str, unit: str = "") -> int | None:
    """Four hundred and seventeen, four hundred seventeen, fourhundred-seventeen; up to 999,999.

    "and" may stand anywhere or nowhere. Other ways to say a number, such as twelve hundred, are not read.
    """
    letters = " ".join(re.sub(r"[-,]", " ", plain(text).casefold()).strip(" .").split())
    letters = re.sub(r" (teen|ty)\b", r"\1", letters)  # six teen
    if not re.fullmatch(r"[a-z ]+", letters):
        return None
    found = [word for part in letters.split() for word in _known(part)]
    words = tuple(word for word in found if word != "and")
    value = _value(words) if words and "" not in words else None
    return value if value is not None and tuple(spelt(value)) == words else None


def _value(words: tuple[str, ...]) -> int | None:
    """By adding up and multiplying; whether they stand in the order of a number is not looked at."""
    total = part = 0
    for word in words:
        if word == "thousand":
            total, part = (total + part) * 1000, 0
        else:
            part = part * 100 if word == "hundred" else part + VALUES[word]
    return total + part if total + part < 1_000_000 else None


def spelt(number: int) -> Iterator[str]:
    """The words of a whole number under a million, without "and" and hyphens."""
    if number >= 1000:
        yield from (*spelt(number // 1000), "thousand")
    if number % 1000 >= 100:
        yield from (SPELT[number % 1000 // 100], "hundred")
    rest = number % 100
    if rest in SPELT and (rest or not number):
        yield SPELT[rest]
    elif rest:
        yield from (SPELT[rest - rest % 10], SPELT[rest % 10])


@cache
def _to_a_hundred() -> Mapping[str, int]:
    return {**{" ".join(spelt(number)): number for number in range(101)}, "hundred": 100, "a hundred": 100}


def read_to_a_hundred(text: str) -> int | None:
    """A number word in the place of digits, spelt as it should be: a slip there could be anything, and "to",
    "for" and "a" are no answers."""
    return _to_a_hundred().get(" ".join(plain(text).casefold().replace("-", " ").strip(" .").split()))


@lru_cache(maxsize=1024)
def _known(part: str) -> tuple[str, ...]:
    """The number words a written one is meant for: itself, several run together, or the nearest; ("",) if
    none is."""
    if part in VALUES or part == "and":
        return (part,)
    if part in MEANT:
        return (MEANT[part],)
    # one slip in a short word, two from six letters on (our judgement)
    near = _nearest(part, 1)  # before words run together: sixten is sixteen, not six and ten
    return (near,) if near else _apart(part) or (_nearest(part, 1 if len(part) < 6 else 2),)


def _apart(part: str) -> tuple[str, ...]:
    """Words run together, each spelt as it should be: fourhundred, twentyone."""
    for word in WORDS:
        rest = part.removeprefix(word)
        if rest != part:
            others = _apart(rest) if rest else ()
            if not rest or others:
                return (word, *others)
    return ()


def _nearest(part: str, most: int) -> str:
    """The only word that so few slips lead to."""
    if len(part) > 12:  # longer than any number word with two letters too many
        return ""
    slips = sorted((_slips(part, word), word) for word in WORDS)
    (least, word), (next_least, _) = slips[:2]
    return word if least <= most and least < next_least else ""


def _slips(written: str, word: str) -> int:
    """Letters left out, put in, exchanged, or two neighbours swapped: the distance of Damerau (1964) in its
    restricted form."""
    before: list[int] = []
    row = list(range(len(word) + 1))
    for at, letter in enumerate(written, start=1):
        earlier, before, row = before, row, [at]
        for place, wanted in enumerate(word, start=1):
            least = min(before[place] + 1, row[-1] + 1, before[place - 1] + (letter != wanted))
            swapped = at > 1 and place > 1 and letter == word[place - 2] and written[at - 2] == wanted
            row.append(min(least, earlier[place - 2] + 1) if swapped else least)
    return row[-1]


# --- one of two, and numbers in any order -------------------------------------------------------------

SAID: Mapping[str, str] = {"y": "yes", "yep": "yes", "yeah": "yes", "n": "no", "nope": "no", "nah": "no"}
PARITY: Mapping[str, str] = {"o": "odd", "e": "even", "od": "odd", "evan": "even", "evn": "even"}


def _one_of(words: tuple[str, ...], other: Mapping[str, str]) -> Callable[..., object]:
    def read(text: str, unit: str = "") -> str | None:
        """In capitals or small letters, or by the first letter."""
        word = plain(text).casefold().strip(" .!")
        found = other.get(word, word)
        return found if found in words else None

    return read


def read_numbers_in_any_order(text: str, unit: str = "") -> frozenset[int] | None:
    """Numbers under 1,000, apart by spaces, commas, semicolons or "and"; one named twice counts once."""
    written = re.sub(r"\band\b", " ", plain(text).casefold()).strip(" ,;.")
    if not re.fullmatch(r"[0-9]{1,3}(?:[ ,;]+[0-9]{1,3})*", written, re.ASCII):
        return None
    values = [read_whole(part) for part in re.split(r"[ ,;]+", written)]
    return frozenset(value for value in values if value is not None)


FORMS: Mapping[str, Form] = {
    "number-word": Form("Type it in words, like forty-two.", read_number_words, "forty-two", "fifty-three"),
    "odd-even": Form("Type odd or even.", _one_of(("odd", "even"), PARITY)),
    "yes-no": Form("Type yes or no.", _one_of(("yes", "no"), SAID)),
    "numbers": Form("Type numbers, like 5 6 7.", read_numbers_in_any_order, "5 6 7", "8 9 10"),
}
