"""What Roman letters are worth, in a table."""

from review.core.keys import content_of
from review.core.model import Help, Problem
from review.core.numerals import RomanForm, write_roman
from review.core.pictures import Table
from review.core.skills.picture_help import Pictures, pictured
from review.core.skills.roman_rules import VALUES
from review.core.skills.wording import grouped


def letters_table(value: int, form: RomanForm, direction: str) -> Table:
    """To read, the letters of the numeral; to write, those up to the greatest it needs."""
    numeral = write_roman(value, form)
    used = [letter for letter in VALUES if letter in numeral]
    known = list(VALUES)[: list(VALUES).index(used[-1]) + 1]
    shown = used if direction == "read" else known
    return Table(tuple(shown), (tuple(grouped(VALUES[letter]) for letter in shown),))


def _roman(problem: Problem) -> tuple[Help, ...]:
    form, direction, _ = content_of(problem.card).split("/")
    early: RomanForm = "additive" if form == "additive" else "subtractive"
    return pictured(letters_table(int(problem.asked), early, direction), "Look up each letter.")


PICTURES: Pictures = {"roman": _roman}
