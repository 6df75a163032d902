"""Sums and differences of fractions, with like then unlike denominators, and several times a fraction.

The sizes of a class are the denominators it may have. A result may be written in any equal form; it is told
with the denominator it comes out with.
"""

from collections.abc import Callable, Mapping
from math import lcm

from review.core.model import BOX, Help
from review.core.skills.amounts import made_alike, mixed, over, part_names, said, titled
from review.core.skills.fraction_errors import difference_errors, sum_errors, times_errors, to_one_errors
from review.core.skills.tasks import Numbers, Shown, Space, Task, pattern
from review.core.skills.wording import EQUALS, MINUS, PLUS, SIGN_WORDS, TIMES, equation, in_words
from review.core.skills.worked import worked

MOST_TIMES = 9  # of a fraction; our judgement


def result(sign: str, a: int, b: int, c: int, d: int) -> tuple[int, int]:
    """Numerator and denominator of the sum or difference, over the least common denominator."""
    under = lcm(b, d)
    left, right = a * under // b, c * under // d
    return (left + right if sign == PLUS else left - right), under


# --- which pairs belong -------------------------------------------------------------------------------


def _like(b: int, d: int) -> bool:
    return b == d


def _one_in_other(b: int, d: int) -> bool:
    return b != d and lcm(b, d) == max(b, d)


def _unlike(b: int, d: int) -> bool:
    return lcm(b, d) > max(b, d)


def _over_one(sign: str, a: int, b: int, c: int, d: int) -> bool:
    top, under = result(sign, a, b, c, d)
    return top > under


def _pairs(sign: str, unders: Callable[[int, int], bool], over_one: bool | None) -> Callable[..., Space]:
    """`over_one`: whether the sum passes one; None where it may or may not. Differences are more than 0."""

    def fits(a: int, b: int, c: int, d: int) -> bool:
        if not (a < b and c < d and unders(b, d)):
            return False
        if sign == MINUS:
            return a * d > c * b
        return over_one is None or _over_one(sign, a, b, c, d) == over_one

    return lambda sizes: Space((range(1, max(sizes)), sizes) * 2, fits)


# --- sums and differences -----------------------------------------------------------------------------


def _steps(sign: str, a: int, b: int, c: int, d: int) -> tuple[Help, Help]:
    top, under = result(sign, a, b, c, d)
    left, right = over(a * under // b, under), over(c * under // d, under)
    like = made_alike(a, b, c, d)
    tops = () if like else (f"{a} {sign} {c} {EQUALS} {top}",)
    pieces = f" {PLUS} ".join(mixed(top, under).split())
    parts = [f"{over(top, under)} {EQUALS} {pieces}"] if top >= under else []
    before = (*like, *tops, f"{left} {sign} {right} {EQUALS} {over(top, under)}")
    return worked(*before, *parts, at=len(before) - 1)


def _questions(b: int, d: int) -> str:
    return "How many parts in all?" if b == d else "Which parts do both fit into?"


BUILD = {PLUS: "Lay both with fraction strips.", MINUS: "Lay the first with strips.\nTake the second away."}


def _pair(sign: str) -> Callable[[Numbers, Numbers], Shown]:
    def shown(sizes: Numbers, member: Numbers) -> Shown:
        a, b, c, d = member
        answer = mixed(*result(sign, a, b, c, d))
        question = "How many parts are left?" if sign == MINUS and b == d else _questions(b, d)
        helps = (
            Help("question", question),
            Help("build", BUILD[sign]),
            *_steps(sign, a, b, c, d),
        )
        prompt = f"{over(a, b)} {sign} {over(c, d)}"
        say = f"{said(a, b)} {SIGN_WORDS[sign]} {said(c, d)}"
        told = f"{prompt} {'leaves' if sign == MINUS else 'makes'} {answer}."
        return Shown(f"{prompt} {EQUALS}", say, answer, told, helps, "fraction")

    return shown


# --- one whole, and several times ---------------------------------------------------------------------


def under_one(sizes: Numbers) -> Space:
    """A fraction that is less than one."""
    return Space((range(1, max(sizes)), sizes), lambda top, under: top < under)


def _to_one(sizes: Numbers, member: Numbers) -> Shown:
    top, under = member
    answer = over(under - top, under)
    helps = (
        Help("question", "How many parts make one whole?"),
        Help("build", "Cover part of a fraction strip."),
        *worked(
            f"1 {EQUALS} {over(under, under)}",
            equation(under, MINUS, top, under - top),
            f"{over(top, under)} {PLUS} {answer} {EQUALS} 1",
            at=1,
        ),
    )
    say = f"{said(top, under)} plus what makes one?"
    told = f"{over(top, under)} and {answer} make 1."
    return Shown(f"{over(top, under)} {PLUS} {BOX} {EQUALS} 1", say, answer, told, helps, "fraction")


def _times_space(sizes: Numbers) -> Space:
    return Space(
        (range(2, MOST_TIMES + 1), range(1, max(sizes)), sizes), lambda times, top, under: top < under
    )


def _times(sizes: Numbers, member: Numbers) -> Shown:
    times, top, under = member
    many = times * top
    prompt, answer = f"{times} {TIMES} {over(top, under)}", mixed(many, under)
    whole, rest = divmod(many, under)
    apart = f"{over(many, under)} {EQUALS} {whole}" + (f" {PLUS} {over(rest, under)}" if rest else "")
    helps = (
        Help("question", f"How many {part_names(under)} are there?"),
        Help("build", "Lay the same strip again and again."),
        *worked(
            equation(times, TIMES, top, many),
            f"{prompt} {EQUALS} {over(many, under)}",
            *([apart] if whole else []),
            at=1,
        ),
    )
    say = f"{in_words(times)} times {said(top, under)}"
    return Shown(f"{prompt} {EQUALS}", say, answer, f"{prompt} makes {answer}.", helps, "fraction")


# --- the tasks ----------------------------------------------------------------------------------------


def _sum(what: str, seconds: float, unders: Callable[[int, int], bool], over_one: bool | None) -> Task:
    space = _pairs(PLUS, unders, over_one)
    title = titled(f"fractions added, like {what}")
    return Task(title, seconds, pattern("#/#+#/#"), space, _pair(PLUS), "sums", sum_errors)


def _difference(what: str, seconds: float, unders: Callable[[int, int], bool]) -> Task:
    space = _pairs(MINUS, unders, None)
    title = titled(f"fractions taken away, like {what}")
    return Task(title, seconds, pattern("#/#-#/#"), space, _pair(MINUS), "sums", difference_errors)


# The seconds are our judgement.
TASKS: Mapping[str, Task] = {
    "to-one": Task(
        titled("the rest of one whole"), 8.0, pattern("#/#+_"), under_one, _to_one, "to-one",
        to_one_errors,
    ),
    "add-like": _sum("1/4 + 2/4", 8.0, _like, False),
    "subtract-like": _difference("3/4 − 1/4", 8.0, _like),
    "add-like-over": _sum("3/4 + 2/4", 10.0, _like, True),
    "add-multiple": _sum("1/2 + 1/4", 18.0, _one_in_other, None),
    "subtract-multiple": _difference("1/2 − 1/4", 18.0, _one_in_other),
    "add-unlike": _sum("1/2 + 1/3", 26.0, _unlike, None),
    "subtract-unlike": _difference("1/2 − 1/3", 26.0, _unlike),
    "times": Task(
        titled("several times a fraction"), 11.0, pattern("#x#/#"), _times_space, _times, "times",
        times_errors,
    ),
}  # fmt: skip
