"""Signs of the trade in plain ASCII, for a screen whose encoding cannot show them."""

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
    "£": "GBP",
    "€": "EUR",
    "–": "-",
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
}


def fit(text: str, encoding: str | None) -> str:
    """The text as that encoding can show it. Where one sign cannot be shown, all are written in ASCII."""
    try:
        text.encode(encoding or "ascii")
    except UnicodeEncodeError:
        plain = "".join(SIGNS.get(sign, sign) for sign in text.replace(" °", "°"))
        return plain.encode(encoding or "ascii", "replace").decode(encoding or "ascii")
    return text
