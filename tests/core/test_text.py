"""Text from outside comes in clean; names and lists come out in words."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.text import clean, ended, in_words, kept_apart, nearest, plural


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("Mira", "Mira"),
        ("  Mira \n Lou\t", "Mira Lou"),
        ("\x1b[31mMira\x07", "[31mMira"),
        ("\u009b31m", "31m"),
        ("\u202eariM\u202c", "ariM"),
        ("\u2066a\u2069\u200b\u200d\ufeff", "a"),
        ("Zoe\u0308", "Zo\u00eb"),
        ("a\ud800b\ufffe", "ab"),
        ("\u0928\u093f\u0936\u093e", "\u0928\u093f\u0936\u093e"),
        ("\U0001f427 Pip", "\U0001f427 Pip"),
        ("a\u2028b", "a b"),
        ("[/] =1+1 <b>", "[/] =1+1 <b>"),
        ("\x00", ""),
    ],
)
def test_what_stays_of_a_name(text: str, kept: str) -> None:
    assert clean(text) == kept


@given(st.text(st.characters(codec=None)))
def test_what_was_cleaned_is_one_visible_line_and_stays_so(text: str) -> None:
    """Idempotent, composed, on one line, and nothing invisible left (categories of the Unicode standard)."""
    once = clean(text)
    assert clean(once) == once == unicodedata.normalize("NFC", once) == once.strip()
    assert "  " not in once
    assert not {unicodedata.category(character) for character in once} & {
        "Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp",
    }  # fmt: skip


@given(st.text(st.characters(categories=("L", "N"))))
def test_letters_and_digits_all_stay(text: str) -> None:
    assert clean(text) == unicodedata.normalize("NFC", text)


def test_the_nearest_name() -> None:
    names = ["product", "quotient", "place-value", "Mira"]
    assert nearest("prodct", names) == ["product"]
    assert nearest("MIRA", names) == ["Mira"]
    assert nearest("zebra crossing", names) == []
    assert nearest("times", names) == []  # letters decide: what a kind is called, its own room knows
    assert nearest("", names) == []
    assert nearest("x" * 100_000, names) == []


def test_lists_in_words() -> None:
    assert in_words([]) == ""
    assert in_words(["a"]) == "a"
    assert in_words(["a", "b"]) == "a and b"
    assert in_words(["a", "b", "c"]) == "a, b and c"
    assert in_words(["a", "b"], "or") == "a or b"


def test_what_has_commas_itself_is_kept_apart_by_semicolons() -> None:
    assert kept_apart(["tens, like 40", "ones, like 7"]) == "tens, like 40; ones, like 7"
    assert kept_apart(["tens", "ones, like 7", "2 more"]) == "tens; ones, like 7; 2 more"
    assert kept_apart(["2 × 7", "5 × 7"]) == "2 × 7 and 5 × 7"


@pytest.mark.parametrize("line", ["Faded: 2 × 7.", "Faded: 2 × 7; How many in a dozen?", "(How many?)."])
def test_a_line_ends_once(line: str) -> None:
    assert ended(line.removesuffix(".")) == line


def test_a_noun_follows_its_number() -> None:
    assert [plural(number, "card") for number in (0, 1, 2, 1000)] == [
        "0 cards",
        "1 card",
        "2 cards",
        "1,000 cards",
    ]
    assert plural(2, "family") == "2 families"
    assert plural(2, "day") == "2 days"
    assert plural(2, "guess") == "2 guesses"
