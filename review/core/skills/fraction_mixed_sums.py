"""Sums and differences of mixed numbers, with like then unlike denominators.

The sizes of a class are the denominators it may have. A result may be written in any equal form; it is told
as a mixed number with the denominator it comes out with.
"""

from collections.abc import Callable, Mapping
from math import lcm

from review.core.model import Help
from review.core.skills.amounts import mixed, over, said_mixed, titled
from review.core.skills.fraction_errors import mixed_difference_errors, mixed_sum_errors
from review.core.skills.tasks import Numbers, Shown, Space, Task, pattern
from review.core.skills.wording import EQUALS, MINUS, PLUS, SIGN_WORDS, equation, lines
from review.core.skills.worked import worked

WHOLES = range(1, 6)  # of each mixed number; our judgement: the parts are what is practised

# --- which pairs belong -------------------------------------------------------------------------------


def _space(sign: str, like: bool, exchanged: bool) -> Callable[[Numbers], Space]:
    """Parts of a sum make less than one, or are `exchanged` for a whole; a difference leaves some parts, and
    has fewer wholes taken away than there are."""

    def fits(m: int, a: int, b: int, n: int, c: int, d: int) -> bool:
        if not (a < b and c < d and (b == d) == like):
            return False
        left, right, under = a * d, c * b, b * d
        if sign == PLUS:
            return (left + right >= under) == exchanged
        return m > n and left != right and (left < right) == exchanged

    return lambda sizes: Space((WHOLES, range(1, max(sizes)), sizes) * 2, fits)


# --- steps --------------------------------------------------------------------------------------------


def written(whole: int, top: int, under: int) -> str:
    """2, 3, 4 -> "2 3/4"."""
    return f"{whole} {over(top, under)}"


def _made_like(*parts: tuple[int, int, int]) -> list[str]:
    """Those that need finer parts: 1 1/2 = 1 2/4."""
    common = lcm(*(under for _, _, under in parts))
    return [
        f"{written(whole, top, under)} {EQUALS} {written(whole, top * common // under, common)}"
        for whole, top, under in parts
        if under != common
    ]


def _sum_steps(first: tuple[int, int, int], second: tuple[int, int, int]) -> tuple[Help, Help]:
    (m, a, b), (n, c, d) = first, second
    under = lcm(b, d)
    left, right = a * under // b, c * under // d
    top = left + right
    parts = equation(over(left, under), PLUS, over(right, under), over(top, under))
    apart = [f"{over(top, under)} {EQUALS} {' + '.join(mixed(top, under).split())}"] if top >= under else []
    whole, rest = divmod(top, under)
    pieces = [str(m + n), *([str(whole)] if whole else []), *([over(rest, under)] if rest else [])]
    last = f"{f' {PLUS} '.join(pieces)} {EQUALS} {mixed((m + n) * under + top, under)}"
    before = [*_made_like(first, second), equation(m, PLUS, n, m + n), parts]
    return worked(*before, *apart, last, at=len(before) - 1)


def _difference_steps(first: tuple[int, int, int], second: tuple[int, int, int]) -> tuple[Help, Help]:
    (m, a, b), (n, c, d) = first, second
    under = lcm(b, d)
    left, right = a * under // b, c * under // d
    short = left < right
    had, whole = left + under * short, m - short
    rest = over(had - right, under)
    exchange = [f"{written(m, left, under)} {EQUALS} {whole} {PLUS} {over(had, under)}"] if short else []
    parts = equation(over(had, under), MINUS, over(right, under), rest)
    last = [f"{whole - n} {PLUS} {rest} {EQUALS} {whole - n} {rest}"]
    before = [*_made_like(first, second), *exchange, equation(whole, MINUS, n, whole - n), parts]
    return worked(*before, *(last if whole > n else []), at=len(before) - 1)


# --- what is shown ------------------------------------------------------------------------------------


def _question(sign: str, like: bool, exchanged: bool) -> str:
    if not like:
        return "Which parts do both fit into?"
    if not exchanged:
        return "What do the wholes make?" if sign == PLUS else "How many wholes are left?"
    return "Do the parts make a whole?" if sign == PLUS else "Are there enough parts?"


def _build(sign: str, exchanged: bool) -> str:
    how = "Lay both with fraction strips." if sign == PLUS else "Lay the first with strips."
    change = {PLUS: "Change full strips into wholes.", MINUS: "Cut one whole into parts."}
    return lines([how, change[sign] if exchanged else ""])


def _pair(sign: str, like: bool, exchanged: bool) -> Callable[[Numbers, Numbers], Shown]:
    def shown(sizes: Numbers, member: Numbers) -> Shown:
        m, a, b, n, c, d = member
        first, second, under = (m, a, b), (n, c, d), lcm(b, d)
        left, right = (m * b + a) * under // b, (n * d + c) * under // d
        answer = mixed(left + right if sign == PLUS else left - right, under)
        helps = (
            Help("question", _question(sign, like, exchanged)),
            Help("build", _build(sign, exchanged)),
            *(_sum_steps if sign == PLUS else _difference_steps)(first, second),
        )
        prompt = f"{written(*first)} {sign} {written(*second)} {EQUALS}"
        say = f"{said_mixed(*first)}, {SIGN_WORDS[sign]} {said_mixed(*second)}"
        return Shown(prompt, say, answer, f"{prompt} {answer}", helps, "fraction")

    return shown


# --- the tasks ----------------------------------------------------------------------------------------


EXAMPLES: Mapping[tuple[str, bool, bool], str] = {
    # sign, whether the parts are alike, whether a whole is exchanged
    (PLUS, True, False): "1 1/4 + 1 2/4",
    (PLUS, True, True): "1 3/4 + 1 2/4",
    (PLUS, False, False): "1 1/2 + 1 1/3",
    (PLUS, False, True): "1 1/2 + 1 2/3",
    (MINUS, True, False): "2 3/4 − 1 1/4",
    (MINUS, True, True): "3 1/4 − 1 3/4",
    (MINUS, False, False): "2 1/2 − 1 1/3",
    (MINUS, False, True): "3 1/3 − 1 1/2",
}


def _task(sign: str, like: bool, exchanged: bool, seconds: float) -> Task:
    return Task(
        titled(f"mixed numbers, like {EXAMPLES[sign, like, exchanged]}"),
        seconds,
        pattern("# #/#+# #/#" if sign == PLUS else "# #/#-# #/#"),
        _space(sign, like, exchanged),
        _pair(sign, like, exchanged),
        "sums",
        mixed_sum_errors if sign == PLUS else mixed_difference_errors,
    )


# The seconds are our judgement.
TASKS: Mapping[str, Task] = {
    "add-mixed": _task(PLUS, True, False, 14.0),
    "add-mixed-over": _task(PLUS, True, True, 20.0),
    "subtract-mixed": _task(MINUS, True, False, 14.0),
    "subtract-mixed-over": _task(MINUS, True, True, 24.0),
    "add-mixed-unlike": _task(PLUS, False, False, 28.0),
    "add-mixed-unlike-over": _task(PLUS, False, True, 34.0),
    "subtract-mixed-unlike": _task(MINUS, False, False, 28.0),
    "subtract-mixed-unlike-over": _task(MINUS, False, True, 38.0),
}
