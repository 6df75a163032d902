"""Fractions written as decimals, and decimals as fractions.

The sizes of a class are the denominators it may have; all of them go into 1,000.
"""

from collections.abc import Mapping
from math import gcd

from review.core.model import Help
from review.core.skills.amounts import over, part_names, said, said_point, titled, trimmed
from review.core.skills.fraction_errors import from_decimal_errors, to_decimal_errors
from review.core.skills.fractions_of import same_value
from review.core.skills.tasks import Numbers, Shown, Space, Task, pattern
from review.core.skills.wording import EQUALS
from review.core.skills.worked import worked

FINEST = 1000  # thousandths


def _thousandths(top: int, under: int) -> str:
    return trimmed(top * FINEST // under, 3)


def _decimal_space(sizes: Numbers) -> Space:
    return Space((range(1, max(sizes)), sizes), lambda top, under: top < under and top * FINEST % under == 0)


CAN_BE = {
    10: "Can it be tenths?", 100: "Can it be hundredths?", 1000: "Can it be thousandths?",
}  # fmt: skip
LAID = {
    10: "Shade it on a strip of tenths.", 100: "Shade it on a square of hundredths.",
    1000: "Find it on a number line.",
}  # fmt: skip


def _tens(under: int) -> int:
    """The least of 10, 100, 1000 that it divides."""
    return next(tens for tens in (10, 100, 1000) if tens % under == 0)


def _decimal_steps(top: int, under: int) -> tuple[str, ...]:
    tens = _tens(under)
    many = top * tens // under
    same = [f"{over(top, under)} {EQUALS} {over(many, tens)}"] if tens != under else []
    read = f"Read {over(many, tens)} as {part_names(tens)}."
    return (*same, read, f"{over(many, tens)} {EQUALS} {_thousandths(top, under)}")


def _to_decimal(sizes: Numbers, member: Numbers) -> Shown:
    top, under = member
    answer, written = _thousandths(top, under), over(top, under)
    helps = (
        Help("question", "Which place has these parts?" if _tens(under) == under else CAN_BE[_tens(under)]),
        Help("build", LAID[_tens(under)]),
        *worked(*_decimal_steps(top, under)),
    )
    say, told = f"What is {said(top, under)} as a decimal?", same_value(written, answer)
    return Shown(f"{written} as a decimal is", say, answer, told, helps, "decimal")


def _from_decimal(sizes: Numbers, member: Numbers) -> Shown:
    top, under = member
    written, answer, tens = _thousandths(top, under), over(top, under), _tens(under)
    many = over(top * tens // under, tens)
    simpler = [f"{many} {EQUALS} {answer}"] if many != answer else []
    helps = (
        Help("question", "What is the last place called?"),
        Help("build", "Write it in a place table."),
        *worked(f"The last place is {part_names(tens)}.", f"{written} {EQUALS} {many}", *simpler, at=1),
    )
    thousandths = top * FINEST // under
    say = f"What is {said_point(*_shortest(thousandths))} as a fraction?"
    return Shown(f"{written} as a fraction is", say, answer, same_value(written, answer), helps, "fraction")


def _shortest(thousandths: int) -> tuple[int, int]:
    number, places = thousandths, 3
    while number % 10 == 0:
        number, places = number // 10, places - 1
    return number, places


def _lowest_decimal_space(sizes: Numbers) -> Space:
    return Space(
        (range(1, max(sizes)), sizes),
        lambda top, under: top < under and gcd(top, under) == 1 and FINEST % under == 0,
    )


TASKS: Mapping[str, Task] = {
    "to-decimal": Task(
        titled("fractions to decimals"), 9.0, pattern("#/#"), _decimal_space, _to_decimal, "decimal",
        to_decimal_errors,
    ),
    "from-decimal": Task(
        titled("decimals to fractions"), 9.0, pattern("#/#"), _lowest_decimal_space, _from_decimal, "decimal",
        from_decimal_errors,
    ),
}  # fmt: skip
