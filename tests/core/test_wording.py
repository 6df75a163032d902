"""Numbers in words against published tables, and the grammar of keys against its own examples."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.keys import GRAMMAR, decode, encode, well_formed
from review.core.skills.wording import counted, equation, grouped, in_words, sentence, several, spoken
from tests.tables import rows


def test_number_names_are_the_published_ones() -> None:
    """The forms with "and" of ICU 72, num2words 0.5.14 and inflect 7.6.0, which agree row by row."""
    table = rows("number_names_en.csv")
    assert len(table) > 70
    for row in table:
        assert in_words(int(row["n"])) == row["with_and"], row["n"]


@given(st.integers(0, 999_999))
def test_no_two_numbers_are_called_alike(number: int) -> None:
    """Read back by adding up and multiplying, as one hears it."""
    words = in_words(number).replace("-", " ").replace(" and ", " ").split()
    small = {in_words(value): value for value in (*range(20), *range(20, 100, 10))}
    total = part = 0
    for word in words:
        if word == "thousand":
            total, part = part * 1000, 0
        else:
            part = part * 100 if word == "hundred" else part + small[word]
    assert total + part == number


def test_the_largest_number_with_words() -> None:
    with pytest.raises(ValueError, match="999,999,999"):
        in_words(1_000_000_000)
    assert in_words(-3) == "minus three"


def test_numbers_and_signs_are_said_and_written_as_usual() -> None:
    assert spoken(6, "×", 7) == "six times seven"
    assert spoken(13, "−", 6, "=", "□") == "thirteen minus six equals what"
    assert equation(6, "×", 7, 42) == "6 × 7 = 42"
    assert [grouped(number) for number in (7, 1234, -1234)] == ["7", "1,234", "−1,234"]
    assert [counted(number, "ten") for number in (1, 2)] == ["1 ten", "2 tens"]
    assert counted(2, "foot", "feet") == "2 feet"
    assert [several(number) for number in (2, 6, 20, 25, 100)] == [
        "twos", "sixes", "twenties", "twenty-fives", "one hundreds",
    ]  # fmt: skip
    assert sentence("count on") == "Count on."
    assert sentence("how many?") == "How many?"


@pytest.mark.parametrize("kind", GRAMMAR)
def test_every_kinds_example_obeys_its_grammar(kind: str) -> None:
    content, asked = GRAMMAR[kind].example
    assert well_formed(f"{kind}:{content}", asked)
    assert not well_formed(f"{kind}:{content} ", asked)
    assert not well_formed(f"{kind}:{content}", asked + "\n")
    assert not well_formed(f"{kind}:")
    assert not well_formed(content)


@given(st.text(st.characters(codec="utf-8"), min_size=1))
def test_any_text_goes_into_a_key_and_comes_back(text: str) -> None:
    assert decode(encode(text)) == text
    assert well_formed(f"pairs:{encode(text)}={encode(text)}", f"{encode(text)}={encode(text)}")
    assert encode(text).isascii()
