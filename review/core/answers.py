"""What was typed -> a value of its form, and whether it is the expected one.

What cannot be read is not an answer: `judge` says "unreadable", and the child is asked again, saying what
form is meant. Any string at all may come in; none raises.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache, lru_cache
from typing import NamedTuple

from review.core.forms import MOST_PLACES, WHOLE, Form, Verdict, integer, plain, read_text, read_whole
from review.core.model import BOX, Problem
from review.core.numerals import RomanForm, read_roman
from review.core.units import SPELLED, Unit, spellings

# --- lists of numbers ---------------------------------------------------------------------------------

APART = re.compile(r"[ ,;]+")
BY_SPACES = re.compile(r",? |;")
BY_COMMAS = re.compile(r" ?[,;] ?")
GROUPS = re.compile(r"\d{1,3}(?:,\d{3})+|\d+", re.ASCII)


@lru_cache(maxsize=64)  # one answer is held against every error rule of its problem
def list_readings(text: str) -> tuple[tuple[int, ...], ...]:
    """Every sensible list. "1 000, 1 100" is two numbers or four; the first reading is the likeliest."""
    written = re.sub(r" and | ?< ?", " , ", plain(text)).strip(" ,;.")
    if not re.fullmatch(r"[-\d ,;]+", written, re.ASCII):
        return ()
    splits = (
        APART.split(written),
        BY_SPACES.split(written),
        BY_COMMAS.split(written),
        GROUPS.findall(written),
    )
    return tuple(dict.fromkeys(found for found in map(_numbers, splits) if found))


def _numbers(parts: list[str]) -> tuple[int, ...] | None:
    """None unless every part is a number; a part like 000 is the tail of one, not one itself."""
    values = [read_whole(part) if part == "0" or not part.startswith("0") else None for part in parts]
    return None if None in values else tuple(value for value in values if value is not None)


def read_list(text: str, unit: str = "") -> tuple[int, ...] | None:
    """Separated by spaces, commas or both; or as an order is told: 57 < 65 < 86."""
    return next(iter(list_readings(text)), None)


def _weigh_list(expected: object, given: object) -> Verdict:
    """More or fewer numbers than were asked for is asked again."""
    if expected == given:
        return "right"
    return "other" if _as_long(expected, given) else "unreadable"


def _as_long(expected: object, given: object) -> bool:
    return isinstance(expected, tuple) and isinstance(given, tuple) and len(expected) == len(given)


def part_readings(text: str) -> tuple[tuple[int, ...], ...]:
    """Every sensible list of numbers to be put together, smallest first: 30 + 1, 1 and 30, 30 1."""
    return tuple(tuple(sorted(found)) for found in list_readings(re.sub(r" ?\+ ?", ";", plain(text))))


def read_parts(text: str, unit: str = "") -> tuple[int, ...] | None:
    """In any order, with a plus, "and", commas or spaces between."""
    return next(iter(part_readings(text)), None)


# --- signs and Roman numerals -------------------------------------------------------------------------

COMPARED = {"<": ("less", "smaller", "fewer"), ">": ("greater", "more", "bigger", "larger")}
SAME = ("equal", "equals", "equal to", "is equal to", "the same", "same", "is the same as")
SIGNS = {
    **{sign: sign for sign in "<=>"},
    **dict.fromkeys(SAME, "="),
    **{
        way.format(word): sign
        for sign, words in COMPARED.items()
        for word in words
        for way in ("{}", "{} than", "is {} than")
    },
}


def read_sign(text: str, unit: str = "") -> str | None:
    """< = or >, or the words for them."""
    return SIGNS.get(plain(text).casefold().rstrip("."))


def _read_roman(form: RomanForm) -> Callable[..., object]:
    def read(text: str, unit: str = "") -> int | None:
        """In capitals or small letters, but well formed."""
        written = plain(text).rstrip(".")
        return read_roman(written.upper(), form) if written.isascii() else None

    return read


# --- quantities ---------------------------------------------------------------------------------------


class Quantity(NamedTuple):
    millionths: int  # of the unit
    unit: Unit | str  # a word we do not know is compared as a word


QUANTITY = re.compile(rf"(- ?)?({WHOLE})?(?:\.(\d{{1,{MOST_PLACES}}}))? ?([^\d\W][^\d]*)?", re.ASCII)


def _find_unit(name: str, near: Unit | str = "") -> Unit | str:
    """The unit of that name; where two systems share it, the one `near` belongs to."""
    word = " ".join(name.casefold().replace("-", " ").rstrip(". ").split())
    found = SPELLED.get(word, ())
    same = (unit for unit in found if isinstance(near, Unit) and unit.family == near.family)
    return next(same, found[0] if found else word)


def read_quantity(text: str, unit: str = "") -> Quantity | None:
    """300, 300 cm, 300 centimetres, 0.5; not 0,5, which half the world reads in another way.

    `unit` is the one meant where none is given; a word that is no unit cannot be read.
    """
    found = QUANTITY.fullmatch(plain(text).rstrip(". "))
    if not found or (found[2] is None and found[3] is None):
        return None
    whole = integer(found[2] or "0")
    meant = _find_unit(unit)
    given = _find_unit(found[4], meant) if found[4] else meant
    if whole is None or (isinstance(given, str) and given not in {meant, f"{meant}s"}):
        return None
    millionths = whole * 10**MOST_PLACES + int((found[3] or "0").ljust(MOST_PLACES, "0"))
    return Quantity(-millionths if found[1] else millionths, given if isinstance(given, Unit) else meant)


def _called(unit: Unit | str) -> str:
    """Several of a unit, in full and without its system: centimetres, pints."""
    if isinstance(unit, str):
        return unit
    first = unit.names[0].removeprefix("us ").removeprefix("imperial ")
    symbol = first == unit.names[0] and len(first) <= 3
    return spellings(unit.names[1] if symbol else first)[1]


def _weigh_quantity(expected: object, given: object) -> Verdict:
    """The right amount in a unit that was not asked for is asked again, saying the unit meant; so is any unit
    where a bare number is meant."""
    if expected == given:
        return "right"
    if not (isinstance(expected, Quantity) and isinstance(given, Quantity)):
        return "other"
    (wanted, unit), (amount, other) = expected, given
    if other and not unit:
        return "unreadable"
    if isinstance(unit, str) or isinstance(other, str) or unit == other or unit.family != other.family:
        return "other"
    return "unreadable" if wanted * unit.size == amount * other.size else "other"


# --- the table of forms -------------------------------------------------------------------------------

HERE: Mapping[str, Form] = {
    "whole": Form("Type a number, like 42.", read_whole, "42", "35"),
    "list": Form("Type numbers, like 5 6 7.", read_list, "5 6 7", "8 9 10", list_readings, _weigh_list),
    "parts": Form("Type the parts, like 40 + 2.", read_parts, "40 + 2", "50 + 3", part_readings),
    "sign": Form("Type <, = or >.", read_sign),
    "roman-additive": Form("Type Roman letters, like XVI.", _read_roman("additive"), "XVI", "XXI"),
    "roman-subtractive": Form("Type Roman letters, like XVI.", _read_roman("subtractive"), "XVI", "XXI"),
    "quantity": Form("Type a number, like 42.", read_quantity, "42", "35", weigh=_weigh_quantity),
    "text": Form("Type your answer.", read_text),
}


# Forms of one family each stand in a room of their own, which is imported when one of them is asked for.


def _fractions() -> Mapping[str, Form]:
    from review.core.forms_fractions import FORMS

    return FORMS


def _measures() -> Mapping[str, Form]:
    from review.core.forms_measures import FORMS

    return FORMS


def _money() -> Mapping[str, Form]:
    from review.core.forms_money import FORMS

    return FORMS


def _remainder() -> Mapping[str, Form]:
    from review.core.forms_remainder import FORMS

    return FORMS


def _stories() -> Mapping[str, Form]:
    from review.core.forms_stories import FORMS

    return FORMS


def _time() -> Mapping[str, Form]:
    from review.core.forms_time import FORMS, mixed_form

    return {**FORMS, "mixed-quantity": mixed_form(_find_unit)}


def _truth() -> Mapping[str, Form]:
    from review.core.forms_truth import FORMS

    return FORMS


def _words() -> Mapping[str, Form]:
    from review.core.forms_words import FORMS

    return FORMS


ROOMS: Mapping[str, Callable[[], Mapping[str, Form]]] = {
    "mixed-quantity": _time,
    **dict.fromkeys(("money", "coins"), _money),
    **dict.fromkeys(
        ("clock-time", "clock-digits", "clock-words", "clock-24", "clock-am-pm", "time-span"), _time
    ),
    **dict.fromkeys(("fraction", "fraction-lowest", "fraction-mixed"), _fractions),
    **dict.fromkeys(("decimal", "decimals", "about", "percent"), _fractions),
    **dict.fromkeys(("square-cm", "cubic-cm", "degrees"), _fractions),
    "remainder": _remainder,
    "truth": _truth,
    **dict.fromkeys(("number-word", "odd-even", "yes-no", "numbers"), _words),
    **dict.fromkeys(("counted", "term", "spelt"), _stories),
    **dict.fromkeys(("unit", "temperature"), _measures),
}
"""Form -> the room of its family, `forms_*.py`."""


class Forms(Mapping[str, Form]):
    """Every form by its name, its room imported when it is first looked up: before the first problem of a day
    wrong answers of the last weeks are read, and most of them are whole numbers."""

    def __getitem__(self, name: str) -> Form:
        return _form(name)

    def __iter__(self) -> Iterator[str]:
        return iter((*HERE, *ROOMS))

    def __len__(self) -> int:
        return len(HERE) + len(ROOMS)


@cache
def _form(name: str) -> Form:
    return HERE[name] if name in HERE else ROOMS[name]()[name]


FORMS: Mapping[str, Form] = Forms()


def judge(problem: Problem, text: str) -> Verdict:
    """Whether an answer is the expected one, another one, or cannot be read in the problem's form."""
    text = _in_digits(problem, _in_the_gap(problem, _without_equals(problem, text)))
    form = FORMS[problem.form]
    given = form.read(text, problem.unit)
    if given is None:
        return "unreadable"
    expected = form.read(problem.expected, problem.unit)
    if form.readings:
        given = min(form.readings(text), key=lambda one: (one != expected, not _as_long(expected, one)))
    return form.weigh(expected, given)


EQUALS = re.compile(r"\s*[=\uff1d](?=.*\w)")


def _without_equals(problem: Problem, text: str) -> str:
    """Some children begin an answer with the equals sign, also where the problem ends with one. Where a sign
    is asked for, or the answer itself begins with that one, it stays."""
    begun = EQUALS.match(text)
    if not begun or problem.form == "sign" or EQUALS.match(problem.expected):
        return text
    return text[begun.end() :]


IN_WORDS = (
    "sum:", "difference:", "product:", "quotient:", "bond:", "double:", "half:", "count-by:", "add-several:",
    "mental-sum:", "mental-difference:", "mental-product:", "mental-quotient:", "word-problem:",
    "quantity:dots/", "quantity:rows/",
)  # fmt: skip
"""How cards begin that ask for a fact or a count: who types "four" there knows it. Where the idea is how a
number is written, its digits are the answer: words are asked again, as in a list of one's own."""


def _in_digits(problem: Problem, text: str) -> str:
    """The digits of a number word, where a whole number is asked for and its digits are not the idea."""
    if problem.form not in ("whole", "counted") or not text.strip()[:1].isalpha():
        return text
    if not problem.card.startswith(IN_WORDS):
        return text
    from review.core.forms_words import read_to_a_hundred  # few children type words

    number = read_to_a_hundred(text)
    return text if number is None else str(number)


def is_in_words(problem: Problem, text: str) -> bool:
    """Whether a number word was typed in the place of digits: its letters take a time that says nothing."""
    return _in_digits(problem, text) != text


FRACTION = re.compile(r"\s*(\d+)\s*[/\u2044\u2215]\s*(\d+)\s*", re.ASCII)
GAP = re.compile(rf"(?:(\d+)/{BOX}|{BOX}/(\d+))$", re.ASCII)


def _in_the_gap(problem: Problem, text: str) -> str:
    """Where one number of a fraction is asked for, some write the whole of it: 2/20 for □/20."""
    written = FRACTION.fullmatch(text)
    gap = written and GAP.search(problem.prompt)
    if not (written and gap):
        return text
    above, under = gap.groups()
    return written[2] if written[1] == above else written[1] if written[2] == under else text


def asks_for(problem: Problem) -> str:
    """What form of answer is meant, in a child's sentence that never names the answer."""
    if problem.form == "quantity" and problem.unit:
        return f"How many {_called(_find_unit(problem.unit))}? Type a number."
    if problem.form == "list":
        return _asks_for_list(problem)
    form = _told_by_its_units(problem)
    example, another = _of_its_place(problem) or (form.example, form.another)
    given_away = bool(example) and judge(problem, example) == "right"
    return form.asks.replace(form.example, another if given_away else example)


def _told_by_its_units(problem: Problem) -> Form:
    """Where the prompt names the units, an example with others would lead astray: pounds where pence are
    asked for, metres where hours are."""
    form = FORMS[problem.form]
    if problem.form == "money" and problem.unit.endswith("-minor"):
        return form._replace(asks="Type a number, like 25.", example="25", another="40")
    if problem.form == "mixed-quantity" and problem.unit:
        return form._replace(asks="Type both numbers, like 2 5.", example="2 5", another="4 10")
    return form


NEAREST = {"whole number": ("7", "4"), "tenth": ("0.5", "0.7"), "hundredth": ("0.25", "0.75")}


def _of_its_place(problem: Problem) -> tuple[str, str] | None:
    """Of a decimal to be rounded, two with as many places as are asked for: 0.5 would mislead for a whole."""
    if problem.form != "decimal":
        return None
    return next((some for place, some in NEAREST.items() if f"nearest {place} " in problem.prompt), None)


def _asks_for_list(problem: Problem) -> str:
    """How many numbers, with as many that are not the answer."""
    many = len(read_list(problem.expected) or ())
    examples = (" ".join(str(first + at) for at in range(many)) for first in (5, 8))
    example = next(one for one in examples if judge(problem, one) != "right")
    return f"Type {many} numbers, like {example}."


def keys_to_type(problem: Problem) -> int:
    """How many keys it takes to type the expected answer, without Enter: what copying it would cost."""
    expected = problem.expected
    if problem.form == "list":
        return len(" ".join(str(number) for number in read_list(expected) or ()))
    if problem.form in {"whole", "quantity", "counted"}:
        return len(re.sub(r"[^0-9.-]", "", plain(expected)))
    return len(expected)
