"""Fractions of a number, compared, and written in another way; decimals have a room of their own.

The sizes of a class are the denominators it may have.
"""

from collections.abc import Callable, Mapping
from fractions import Fraction
from math import gcd, lcm

from review.core.model import BOX, Help
from review.core.skills.amounts import (
    listed,
    lowest,
    made_alike,
    over,
    part_name,
    part_names,
    parts_named,
    said,
    said_mixed,
    titled,
)
from review.core.skills.fraction_errors import (
    compare_errors,
    finer_top_errors,
    finer_under_errors,
    of_errors,
    simplest_errors,
    to_improper_errors,
    to_mixed_errors,
)
from review.core.skills.tasks import Numbers, Shown, Space, Task, pattern
from review.core.skills.wording import (
    DIVIDED,
    EQUALS,
    PLUS,
    SIGN_SENTENCES,
    TIMES,
    equation,
    in_words,
    lines,
    sign_between,
)
from review.core.skills.worked import worked

MOST_TIMES = 12  # of one part in a number: as far as the tables go
IN_GROUPS = (2, 3, 4)  # parts met at 6 and 7
MOST_WHOLES = 4  # of a mixed number: it stays under this


def _divided(left: int, right: int) -> str:
    return equation(left, DIVIDED, right, left // right)


def _multiplied(left: int, right: int) -> str:
    return equation(left, TIMES, right, left * right)


# --- equal fractions ----------------------------------------------------------------------------------


def same_value(first: str, second: str) -> str:
    return f"{first} is the same as {second}."


def _finer_top_space(sizes: Numbers) -> Space:
    """A fraction, and a denominator that has its own in it."""

    def fits(top: int, under: int, finer: int) -> bool:
        return top < under < finer and finer % under == 0

    return Space((range(1, max(sizes)), sizes, sizes), fits)


def _finer_under_space(sizes: Numbers) -> Space:
    """A fraction, and a numerator that has its own in it, to a denominator of the class."""

    def fits(top: int, under: int, more: int) -> bool:
        return top < under and top < more and more % top == 0 and more // top * under in sizes

    return Space((range(1, max(sizes)), sizes, range(2, max(sizes))), fits)


def _finer_top(sizes: Numbers, member: Numbers) -> Shown:
    top, under, finer = member
    by = finer // under
    helps = (
        Help("question", f"How does {under} become {finer}?"),
        Help("build", "Fold each part of a strip again."),
        *worked(_multiplied(under, by), _multiplied(top, by)),
    )
    say = f"{said(top, under)} is how many {part_names(finer)}?"
    told = same_value(over(top, under), over(top * by, finer))
    return Shown(f"{top}/{under} {EQUALS} {BOX}/{finer}", say, str(top * by), told, helps)


def _finer_under(sizes: Numbers, member: Numbers) -> Shown:
    top, under, more = member
    by = more // top
    helps = (
        Help("question", f"How does {top} become {more}?"),
        Help("build", "Fold each part of a strip again."),
        *worked(_multiplied(top, by), _multiplied(under, by)),
    )
    say = f"{said(top, under)} is {in_words(more)} of which parts?"
    told = same_value(over(top, under), over(more, under * by))
    return Shown(f"{top}/{under} {EQUALS} {more}/{BOX}", say, str(under * by), told, helps)


def _coarser_space(sizes: Numbers) -> Space:
    def fits(top: int, under: int, coarser: int) -> bool:
        return top < under and coarser < under and under % coarser == 0 and top % (under // coarser) == 0

    return Space((range(1, max(sizes)), sizes, sizes), fits)


def _coarser(sizes: Numbers, member: Numbers) -> Shown:
    top, under, coarser = member
    by = under // coarser
    helps = (
        Help("question", f"How does {under} become {coarser}?"),
        Help("build", "Put small parts of a strip together."),
        *worked(_divided(under, by), _divided(top, by)),
    )
    say = f"{said(top, under)} is how many {part_names(coarser)}?"
    told = same_value(over(top, under), over(top // by, coarser))
    return Shown(f"{top}/{under} {EQUALS} {BOX}/{coarser}", say, str(top // by), told, helps)


def _simplest_space(sizes: Numbers) -> Space:
    return Space((range(1, max(sizes)), sizes), lambda top, under: top < under and gcd(top, under) > 1)


def _simplest(sizes: Numbers, member: Numbers) -> Shown:
    top, under = member
    by, answer = gcd(top, under), lowest(top, under)
    helps = (
        Help("question", "Which number divides both?"),
        Help("build", "Lay it out with fraction strips.\nLook for fewer, longer parts."),
        *worked(_divided(top, by), _divided(under, by), f"{over(top, under)} {EQUALS} {answer}"),
    )
    prompt, told = f"{over(top, under)} in simplest form is", same_value(over(top, under), answer)
    say = f"What is {said(top, under)} in simplest form?"
    return Shown(prompt, say, answer, told, helps, "fraction-lowest")


# --- of a number --------------------------------------------------------------------------------------


def _amounts(sizes: Numbers) -> range:
    return range(2 * min(sizes), MOST_TIMES * max(sizes) + 1)


def _shares(under: int, number: int) -> bool:
    return number % under == 0 and 2 <= number // under <= MOST_TIMES


def _unit_space(sizes: Numbers) -> Space:
    return Space((sizes, _amounts(sizes)), _shares)


def _of_space(sizes: Numbers) -> Space:
    def fits(top: int, under: int, number: int) -> bool:
        return top < under and _shares(under, number)

    return Space((range(2, max(sizes)), sizes, _amounts(sizes)), fits)


def _of_steps(top: int, under: int, number: int) -> tuple[Help, Help]:
    """Halves to quarters come before the sign of division: they are shared into groups."""
    part = number // under
    if top == 1 and under in IN_GROUPS:
        together = f" {PLUS} ".join([str(part)] * under)
        shared = f"Share {number} into {under} equal groups."
        return worked(shared, f"Each group: {part}", f"{together} {EQUALS} {number}", at=1)
    return worked(_divided(number, under), *([_multiplied(top, part)] if top > 1 else []))


def _of(sizes: Numbers, member: Numbers) -> Shown:
    top, under, number = member if len(member) == 3 else (1, *member)
    prompt, answer = f"{over(top, under)} of {number}", str(number // under * top)
    question = "How many equal groups do you need?" if top == 1 else "How much is one part?"
    helps = (
        Help("question", question),
        Help("build", "Share counters into equal groups."),
        *_of_steps(top, under, number),
    )
    say = f"What is {said(top, under)} of {in_words(number)}?"
    return Shown(f"{prompt} {EQUALS}", say, answer, f"{prompt} makes {answer}.", helps)


# --- compared -----------------------------------------------------------------------------------------


def _compared(way: str) -> Callable[[Numbers], Space]:
    def fits(a: int, b: int, c: int, d: int) -> bool:
        if not (a < b and c < d):
            return False
        alike = {"like": b == d and a != c, "same-top": a == c and b != d, "": a != c and b != d}
        return alike[way]

    return lambda sizes: Space((range(1, max(sizes)), sizes) * 2, fits)


def _alike(a: int, b: int, c: int, d: int) -> tuple[str, str]:
    """Both fractions in parts of one kind."""
    common = lcm(b, d)
    return over(a * common // b, common), over(c * common // d, common)


def _compare(question: str, before: Callable[[int, int, int, int], tuple[str, ...]]) -> Callable[..., Shown]:
    def shown(sizes: Numbers, member: Numbers) -> Shown:
        a, b, c, d = member
        sign = sign_between(Fraction(a, b), Fraction(c, d))
        first, second, steps = over(a, b), over(c, d), before(a, b, c, d)
        one, other = _alike(a, b, c, d) if b != d and a != c else (first, second)
        worked_out = dict.fromkeys([*steps, f"{one} {sign} {other}", f"{first} {sign} {second}"])
        helps = (
            Help("question", question),
            Help("build", "Lay both with fraction strips."),
            Help("blank", lines([*steps, f"{one} {BOX} {other}"])),
            Help("steps", lines(worked_out)),
        )
        say = f"Which sign goes between {said(a, b)} and {said(c, d)}?"
        told = f"{first} {SIGN_SENTENCES[sign]} {second}."
        return Shown(f"{first} {BOX} {second}", say, sign, told, helps, "sign")

    return shown


# --- mixed numbers ------------------------------------------------------------------------------------


def _improper_space(sizes: Numbers) -> Space:
    def fits(top: int, under: int) -> bool:
        return under < top < MOST_WHOLES * under and top % under != 0

    return Space((range(2, MOST_WHOLES * max(sizes)), sizes), fits)


def _to_mixed(sizes: Numbers, member: Numbers) -> Shown:
    top, under = member
    whole, rest = divmod(top, under)
    written, answer = over(top, under), f"{whole} {over(rest, under)}"
    helps = (
        Help("question", "How many wholes can you make?"),
        Help("build", "Fill whole strips with the parts."),
        *worked(
            f"{over(whole * under, under)} {EQUALS} {whole}",
            f"{written} {EQUALS} {over(whole * under, under)} {PLUS} {over(rest, under)}",
            f"{written} {EQUALS} {whole} {PLUS} {over(rest, under)}",
            at=1,
        ),
    )
    say = f"What is {said(top, under)} as a mixed number?"
    told = same_value(written, answer)
    return Shown(f"{written} as a mixed number is", say, answer, told, helps, "fraction-mixed")


def _mixed_space(sizes: Numbers) -> Space:
    return Space((range(1, MOST_WHOLES), range(1, max(sizes)), sizes), lambda whole, top, under: top < under)


def _to_improper(sizes: Numbers, member: Numbers) -> Shown:
    whole, top, under = member
    written, total = f"{whole} {over(top, under)}", whole * under + top
    helps = (
        Help("question", "How many parts make one whole?"),
        Help("build", "Cut the wholes into equal parts."),
        *worked(_multiplied(whole, under), equation(whole * under, PLUS, top, total)),
    )
    say = f"{said_mixed(whole, top, under)} is how many {part_names(under)}?"
    told = same_value(written, over(total, under))
    return Shown(f"{written} {EQUALS} {BOX}/{under}", say, str(total), told, helps)


def _one_part(sizes: Numbers) -> str:
    """ "half of a number", "a fifth or a tenth of a number"."""
    names = ["half" if size == 2 else f"{'an' if size == 8 else 'a'} {part_name(size)}" for size in sizes]
    return f"{listed(names, 'or')} of a number"


def _several_parts(sizes: Numbers) -> str:
    under = max(sizes)
    like = f"parts of a number, like {under - 1}/{under} of {2 * under}"
    return f"{like}, {parts_named(sizes)}" if sizes[1:] else like


TASKS: Mapping[str, Task] = {
    "equivalent": Task(
        titled("equal fractions, more parts"), 9.0, pattern("#/#,_/#"), _finer_top_space, _finer_top, "equal",
        finer_top_errors,
    ),
    "equivalent-under": Task(
        titled("equal fractions, the bottom number"), 10.0, pattern("#/#,#/_"), _finer_under_space,
        _finer_under, "equal", finer_under_errors,
    ),
    "equivalent-down": Task(
        titled("equal fractions, fewer parts"), 10.0, pattern("#/#,_/#"), _coarser_space, _coarser, "equal",
        finer_top_errors,
    ),
    "simplest": Task(
        titled("fractions in simplest form"), 12.0, pattern("#/#"), _simplest_space, _simplest, "equal",
        simplest_errors,
    ),
    "unit-of": Task(
        _one_part, 7.0, pattern("1/#x#"), _unit_space, _of, "of", of_errors
    ),
    "of": Task(
        _several_parts, 11.0, pattern("#/#x#"), _of_space, _of, "of", of_errors
    ),
    "compare-like": Task(
        titled("comparing fractions, same bottom number"), 6.0, pattern("#/#?#/#"), _compared("like"),
        _compare("What is the same in both?", lambda a, b, c, d: (f"Both are {part_names(b)}.",)),
        "compare", compare_errors, 3,
    ),
    "compare-same-top": Task(
        titled("comparing fractions, same top number"), 7.0, pattern("#/#?#/#"), _compared("same-top"),
        _compare("Which parts are larger?", lambda a, b, c, d: ("More parts make each part smaller.",)),
        "compare", compare_errors, 3,
    ),
    "compare": Task(
        titled("comparing fractions"), 14.0, pattern("#/#?#/#"), _compared(""),
        _compare("Which parts do both fit into?", made_alike), "compare", compare_errors, 3,
    ),
    "to-mixed": Task(
        titled("fractions to mixed numbers"), 12.0, pattern("#/#"), _improper_space, _to_mixed, "mixed",
        to_mixed_errors,
    ),
    "to-improper": Task(
        titled("mixed numbers to fractions"), 11.0, pattern("#+#/#"), _mixed_space, _to_improper, "mixed",
        to_improper_errors,
    ),
}  # fmt: skip
