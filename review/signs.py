"""Signs of the trade in plain ASCII, for a screen whose encoding cannot show them."""

import codecs
from typing import TextIO

SIGNS = {
    "×": "x",
    "÷": "/",
    "−": "-",
    "□": "_",
    "●": "#",
    "○": "-",
    "◆": "@",
    "“": '"',
    "”": '"',
    "‘": "'",
    "’": "'",
    "…": "...",
    "▓": "#",
    "°": " deg",
    "≈": "~",
    "•": "*",
    "·": ".",
    "\u00a0": " ",
    "£": "GBP",
    "€": "EUR",
    "–": "-",
    "—": "-",
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
}


UNKNOWN = "?"


def in_ascii(error: UnicodeError) -> tuple[str, int]:
    """For a codec: what it cannot write, as far as there is a sign for it."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    lost = error.object[error.start : error.end]
    plain = "".join(SIGNS.get(sign, UNKNOWN) for sign in lost)
    return plain if plain.isascii() else UNKNOWN * len(lost), error.end


codecs.register_error("review-signs", in_ascii)


def steady(stream: TextIO | None) -> None:
    """From now on nothing that is written there can fail for its encoding."""
    if stream is not None and hasattr(stream, "reconfigure"):
        stream.reconfigure(errors="review-signs")


def fit(text: str, encoding: str | None) -> str:
    """The text as that encoding can show it. Where one sign cannot be shown, all are written in ASCII."""
    try:
        text.encode(encoding or "ascii")
    except UnicodeEncodeError:
        plain = "".join(SIGNS.get(sign, sign) for sign in text.replace(" °", "°"))
        return plain.encode(encoding or "ascii", "replace").decode(encoding or "ascii")
    return text
