"""Words of arithmetic: what is meant -> the word, and the word -> what it means, in a word or a number.

What is asked and every answer that counts stand in the key, the one to write first: `clue=sum;total`. The
meanings are the trade's (common practice, no source). Words of a parent's own go into `pairs`.
"""

from collections.abc import Iterator, Mapping
from random import Random
from typing import NamedTuple

from review.core.forms import read_whole
from review.core.keys import content_of, decode, encode
from review.core.model import BOX, Help, Problem, Skill, Traits
from review.core.skills.amounts import read_out
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import words
from review.core.skills.wording import as_title, lines

SECONDS = 8.0  # our judgement: a line is read and a word is typed
WIDEST = 40  # columns of the screen a child reads


class Asked(NamedTuple):
    clue: str  # ends where the answer goes
    answers: tuple[str, ...]  # the one to write first
    hint: str  # lines that show it at work without saying it


class Word(NamedTuple):
    term: Asked  # meaning -> term
    meaning: Asked | None = None  # term -> meaning


def _asked(clue: str, answers: str, *hint: str) -> Asked:
    return Asked(clue, tuple(answers.split(";")), lines(hint))


WORDS: Mapping[str, Word] = {
    "sum": Word(
        _asked("The answer when you add:", "sum;total", "4 + 5 = 9", "What do we call the 9?"),
        _asked("You find a sum when you", "add;adding;plus", "4 + 5 = 9", "The 9 is the sum."),
    ),
    "difference": Word(
        _asked("The answer when you take away:", "difference", "9 − 4 = 5", "What do we call the 5?"),
        _asked(
            "You find a difference when you",
            "subtract;subtracting;take away;minus",
            "9 − 4 = 5",
            "The 5 is the difference.",
        ),
    ),
    "product": Word(
        _asked("The answer when you multiply:", "product", "3 × 5 = 15", "What do we call the 15?"),
        _asked(
            "You find a product when you",
            "multiply;multiplying;times",
            "3 × 5 = 15",
            "The 15 is the product.",
        ),
    ),
    "quotient": Word(
        _asked("The answer when you divide:", "quotient", "15 ÷ 3 = 5", "What do we call the 5?"),
        _asked(
            "You find a quotient when you", "divide;dividing;share", "15 ÷ 3 = 5", "The 5 is the quotient."
        ),
    ),
    "remainder": Word(
        _asked(
            "What is left over after dividing:",
            "remainder;rest",
            "Share 7 counters between 2.",
            "What do we call the last one?",
        ),
        _asked("The remainder of 7 ÷ 2 is", "1", "Share 7 counters between 2."),
    ),
    "addend": Word(
        _asked("A number that is added:", "addend", "In 4 + 5 there are two.", "What do we call the 4?"),
        _asked("How many addends has 2 + 3 + 4?", "3", "Each number you add is one."),
    ),
    "factor": Word(
        _asked("3 × 4 = 12, so 12 has 3 as a", "factor;divisor", "4 is one too. So is 6."),
        _asked("The factors of 7 are 1 and", "7", "What divides it with nothing over?"),
    ),
    "multiple": Word(
        _asked("A number in a times table:", "multiple", "12 is one of 3. So is 15."),
        _asked("The multiple of 5 after 20 is", "25", "Count on in the table."),
    ),
    "divisor": Word(
        _asked("The number you divide by:", "divisor", "15 ÷ 3 = 5", "What do we call the 3?"),
        _asked("In 20 ÷ 4 the divisor is", "4", "By which number do you divide?"),
    ),
    "dividend": Word(
        _asked("The number that is divided:", "dividend", "15 ÷ 3 = 5", "What do we call the 15?"),
        _asked("In 20 ÷ 4 the dividend is", "20", "Which number is divided?"),
    ),
    "double": Word(
        _asked("Two times as much is the", "double", "8 is twice 4."),
        _asked("The double of 6 is", "12", "Take it two times."),
    ),
    "half": Word(
        _asked("One of two equal parts: a", "half", "Share 8 in two. Each gets 4."),
        _asked("The half of 14 is", "7", "Share it into two equal parts."),
    ),
    "digit": Word(
        _asked("4 and 7 are in 47. Each is a", "digit;figure", "47 has two of them."),
        _asked("How many digits has 305?", "3", "Count its signs, the 0 too."),
    ),
    "even": Word(
        _asked("2, 4 and 6 are not odd. They are", "even", "Two can share them, nothing over."),
        _asked("Even numbers end in 0, 2, 4, 6 or", "8", "Count on in twos."),
    ),
    "odd": Word(
        _asked("1, 3 and 5 are not even. They are", "odd", "Two share them, and one is over."),
        _asked("Odd numbers end in 1, 3, 5, 7 or", "9", "Count on in twos."),
    ),
    "equal": Word(
        _asked("5 + 1 and 6 are", "equal;equals;equal to;same", "The sign = says it."),
        _asked("Two equal parts of 10: 5 and", "5", "Both parts are the same."),
    ),
    "prime": Word(
        _asked("A number with two factors only:", "prime;prime number", "Like 2, 3, 5 and 7."),
        _asked("The prime after 5 is", "7", "It has two factors only."),
    ),
    "square": Word(
        _asked("A number times itself makes its", "square;square number", "4 rows of 4 make 16."),
        _asked("The square of 5 is", "25", "Lay five rows of five."),
    ),
    "numerator": Word(
        _asked("The top number of a fraction:", "numerator", "It counts the parts you have."),
        _asked("The numerator of 2/3 is", "2", "Which number stands on top?"),
    ),
    "denominator": Word(
        _asked("The bottom number of a fraction:", "denominator", "It says into how many equal parts."),
        _asked("The denominator of 2/3 is", "3", "Which number stands at the bottom?"),
    ),
    "perimeter": Word(
        _asked("The way once around a shape:", "perimeter", "Walk along every side."),
        _asked("Perimeter of a square of side 2:", "8", "Walk along all four sides."),
    ),
    "area": Word(
        _asked("How much room a flat shape covers:", "area", "Count the squares that cover it."),
        _asked("Area of a square of side 3:", "9", "How many small squares cover it?"),
    ),
    "estimate": Word(
        _asked("To find about how many: to", "estimate;round", "51 + 48 is about 100."),
    ),
}

ASKED: Mapping[str, Asked] = {
    asked.clue: asked for word in WORDS.values() for asked in (word.term, word.meaning) if asked is not None
}


# --- a card -------------------------------------------------------------------------------------------


def _key(asked: Asked) -> str:
    return f"vocabulary:{encode(asked.clue)}={encode(';'.join(asked.answers))}"


def keys(skill: Skill) -> Iterator[str]:
    """Word by word; for each the word first, then what it means."""
    ways = words(skill, "ask")
    for name in words(skill, "words"):
        word = WORDS[name]
        yield from (_key(one) for way, one in zip(ASK, word, strict=True) if way in ways and one is not None)


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for place, name in enumerate(words(skill, "words"), start=1):
        if WORDS[name].meaning is None and "term" not in words(skill, "ask"):
            yield f"words[{place}]", f"nothing asks what {name} means", 'add "term" to ask, or take it out'


def _parts(key: str) -> tuple[str, tuple[str, ...]]:
    clue, _, answers = content_of(key).partition("=")
    return decode(clue), tuple(decode(answers).split(";"))


def draw(key: str, random: Random) -> str:
    return content_of(key)


def traits(key: str) -> Traits:
    clue, answers = _parts(key)
    groups = frozenset({"vocabulary", f"answer-{answers[0]}"})
    return Traits(as_title(clue), True, SECONDS, groups)


def problem(key: str, asked: str) -> Problem:
    if asked != content_of(key):
        raise ValueError(f"{asked!r} does not belong to {key!r}")
    clue, answers = _parts(key)
    told = _told(clue, answers[0])
    form = "term" if read_whole(answers[0]) is None else "whole"
    unit = ";".join(answers) if form == "term" else ""
    return Problem(
        key, "vocabulary", asked, clue, read_out(clue), form, answers[0], told, _helps(clue, answers[0]), unit
    )


def _told(clue: str, answer: str) -> str:
    whole = f"{clue} {answer}" + ("" if clue.endswith(("?", ":")) else ".")
    return whole if len(whole) <= WIDEST else f"The answer is {answer}."


def _helps(clue: str, answer: str) -> tuple[Help, ...]:
    """It at work, where the word is known here; then its first letter; then all of it."""
    known = ASKED.get(clue)
    letters = BOX * (len(answer) - 1)
    return (
        *([Help("question", known.hint)] if known else []),
        *([Help("blank", f"{answer[0]}{letters}")] if read_whole(answer) is None else []),
        Help("steps", f"The answer is {answer}."),
    )


# --- the kind -----------------------------------------------------------------------------------------

ASK = ("term", "meaning")

OPTIONS: Mapping[str, Option] = {
    "words": Option(
        "words", "the words; a card each way", choices=tuple(WORDS), example='["sum", "difference"]'
    ),
    "ask": Option(
        "words", "for the word, for its meaning, or both", ASK, choices=ASK, example='["term", "meaning"]'
    ),
}

KINDS: tuple[Kind, ...] = (
    Kind("vocabulary", "words of arithmetic", OPTIONS, keys, traits, draw, problem, check),
)
