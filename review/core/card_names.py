"""Cards as a parent writes them: by what is asked, by their title, by their key."""

import re
from collections.abc import Iterable, Sequence

from review.core import keys, looks, skills
from review.core.model import STANDARD, Card, Words

SIGNS = str.maketrans({"×": "x", "*": "x", "·": "x", "÷": "/", "−": "-", "–": "-", "□": "_", "?": "_"})
WORDS = {"times": "x", "plus": "+", "minus": "-", "divided by": "/", "equals": "="}
IN_WORDS = re.compile(rf"\b(?:{'|'.join(WORDS)})\b")
UNSAID = re.compile(r"\s*(?:=|\bis)\s*$")  # "7 × 2 =", "Double 6 is": as they stand on the screen
THOUSANDS = re.compile(r"(?<=\d),(?=\d{3}(?!\d))")


def plain(text: str) -> str:
    """Without spaces, signs as one types them."""
    said = IN_WORDS.sub(lambda found: WORDS[found[0]], UNSAID.sub("", text.casefold()))
    return "".join(said.split()).translate(SIGNS)


def title(key: str, words: Words = STANDARD) -> str:
    """A card as a parent reads it; its key, where this version does not know the kind."""
    try:
        return looks.traits_of(key, words).title
    except (LookupError, ValueError):
        return key


def short(key: str, words: Words = STANDARD) -> str:
    """A card as a parent may write it: a fact by its title, anything else by its key, which is one word."""
    return title(key, words) if skills.traits(key).fact else key


def example(cards: Sequence[Card], words: Words = STANDARD) -> str:
    """How one of them is written: a fact with numbers of its own, where there is one."""
    facts = (card.key for card in cards if skills.traits(card.key).fact)
    return short(next((key for key in facts if keys.content_of(key)[0].isdecimal()), cards[0].key), words)


def named(cards: Iterable[Card], name: str) -> list[Card]:
    """Cards by key, by title, by what a key says behind its kind: `6x7`, or by a problem of theirs: `7 × 6`,
    `5 + □ = 12`. A fact goes before a card that asks the same among other things."""
    known, wanted = list(cards), plain(name)
    exact = [card for card in known if wanted in (plain(card.key), plain(title(card.key)))]
    within = exact or [card for card in known if wanted and wanted == plain(keys.content_of(card.key))]
    return within or _asking(known, THOUSANDS.sub("", wanted))


def _asking(cards: Sequence[Card], asked: str) -> list[Card]:
    """Cards that may ask it; a colon divides where it is so written."""
    found = [card for card in cards if _asks(card.key, asked.replace(":", "/"))]
    return [card for card in found if skills.traits(card.key).fact] or found


def _asks(key: str, asked: str) -> bool:
    try:
        return keys.well_formed(key, asked) and bool(skills.kind(key).problem(key, asked))
    except (LookupError, ValueError):
        return False
