"""Decimals added and taken away, made up to 1 and 10, times and divided by 10, 100 and 1,000."""

from collections.abc import Callable, Mapping
from itertools import pairwise

from review.core.model import BOX, Help
from review.core.skills.amounts import PLACE_PARTS, place_count, places_named, point, said_point, trimmed
from review.core.skills.decimal_rules import (
    Written,
    apart_at_point,
    carry_dropped,
    each_to_ten,
    lined_up_right,
    not_reduced,
    scaling_rules,
    smaller_from_larger,
)
from review.core.skills.decimals_shown import (
    any_order_space,
    arranged,
    ends_in_digit,
    in_any_order,
)
from review.core.skills.tasks import Numbers, Shown, Space, Task, Writing, pattern
from review.core.skills.wording import (
    DIVIDED,
    EQUALS,
    MINUS,
    PLUS,
    SIGN_WORDS,
    TIMES,
    grouped,
    in_words,
    lines,
)
from review.core.skills.worked import without_echo, worked

UNDER = 10  # what each number of a sum stays under; our judgement
MOST_SCALED = 100  # what is made ten times greater or less stays under it


# --- made up to 1 and 10 ------------------------------------------------------------------------------


def _bond_space(whole: int) -> Callable[[Numbers], Space]:
    def space(sizes: Numbers) -> Space:
        (places,) = sizes
        return Space((range(1, whole * 10**places),), lambda number: ends_in_digit(number, places))

    return space


def _jumps(number: int, places: int, whole: int) -> list[int]:
    """From one round number to the next rounder one, and last to the whole."""
    jumps: list[int] = []
    for place in (10**at for at in range(1, places + 1)):
        jumps.append(-(number + sum(jumps)) % place)
    return [jump for jump in (*jumps, whole * 10**places - number - sum(jumps)) if jump]


def _bond_help(number: int, places: int, whole: int) -> tuple[Help, Help]:
    jumps = _jumps(number, places, whole)
    if len(jumps) == 1:
        made = f"{point(number, places)} {PLUS} {trimmed(jumps[0], places)} {EQUALS} {whole}"
        tenths = whole * 10**places
        blank = f"{number} {PLUS} {BOX} {EQUALS} {tenths}"
        return Help("blank", blank), Help("steps", lines([blank.replace(BOX, str(jumps[0])), made]))
    starts = [number + sum(jumps[:at]) for at in range(len(jumps) + 1)]
    on = [
        f"{trimmed(start, places)} {PLUS} {trimmed(jump, places)} {EQUALS} {trimmed(start + jump, places)}"
        for start, jump in zip(starts[:-1], jumps, strict=True)
    ]
    together = f" {PLUS} ".join(trimmed(jump, places) for jump in jumps)
    return worked(*on, f"{together} {EQUALS} {trimmed(sum(jumps), places)}")


def _bond_helps(number: int, places: int, whole: int) -> tuple[Help, ...]:
    build = "Shade it on a square of hundredths." if places == 2 else "Find it on a number line."
    question = Help("question", "How far to the next round number?")
    return question, Help("build", build), *_bond_help(number, places, whole)


def _bond_predict(whole: int) -> Callable[[Numbers, Numbers], Mapping[str, str]]:
    """As of whole numbers: 0.57 to 0.53, so that there is a tenth too many; not where a digit is 0."""

    def predict(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
        (number,), (places,) = member, sizes
        digits = str(number).rjust(places + len(str(whole)) - 1, "0")
        return {} if "0" in digits else {"places_to_ten": trimmed(each_to_ten(number), places)}

    return predict


def _bond(whole: int) -> Task:
    def shown(sizes: Numbers, member: Numbers) -> Shown:
        (number,), (places,) = member, sizes
        written, answer = point(number, places), point(whole * 10**places - number, places)
        say = f"{said_point(number, places)} plus what makes {in_words(whole)}?"
        return Shown(
            f"{written} {PLUS} {BOX} {EQUALS} {whole}",
            say,
            answer,
            f"{written} and {answer} make {whole}.",
            _bond_helps(number, places, whole),
            "decimal",
        )

    return Task(
        lambda sizes: f"decimals made up to {whole}, {places_named(*sizes)}",
        6.0 if whole == 1 else 9.0,
        pattern("#+_", lambda sizes: sizes),
        _bond_space(whole),
        shown,
        "bond",
        _bond_predict(whole),
    )


# --- added and taken away -----------------------------------------------------------------------------


def _level(first: Written, second: Written) -> tuple[int, int, int]:
    """Both in the smaller of their two places."""
    places = max(first[1], second[1])
    return first[0] * 10 ** (places - first[1]), second[0] * 10 ** (places - second[1]), places


def exchanges(sign: str, a: int, b: int) -> bool:
    """Whether any column passes ten, or has too little on top."""
    while a or b:
        if (a % 10 + b % 10 > 9) if sign == PLUS else a % 10 < b % 10:
            return True
        a, b = a // 10, b // 10
    return False


def _sums_space(sign: str, exchanged: bool) -> Callable[[Numbers], Space]:
    def fits(first: Written, second: Written) -> bool:
        a, b, _ = _level(first, second)
        fine = ends_in_digit(*first) and ends_in_digit(*second) and (sign == PLUS or a > b)
        return fine and exchanges(sign, a, b) == exchanged

    def space(sizes: Numbers) -> Space:
        return any_order_space(sizes, [range(1, UNDER * 10**places) for places in sizes], fits)

    return space


def _steps(sign: str, first: Written, second: Written) -> tuple[str, ...]:
    """The whole part of the second number first, then what comes after its point."""
    a, b, places = _level(first, second)
    one = int(10**places)
    rest, whole = b % one, b - b % one
    between, end = (a + whole, a + b) if sign == PLUS else (a - whole, a - b)
    apart = f"{point(*second)} {EQUALS} {whole // one} {PLUS} {trimmed(rest, places)}"
    on = f"{point(*first)} {sign} {whole // one} {EQUALS} {trimmed(between, places)}"
    last = f"{point(between, places)} {sign} {point(rest, places)} {EQUALS} {trimmed(end, places)}"
    if rest and whole:
        return apart, on, last
    steps = _rest_steps(sign, first, rest, places) if rest else (on,)
    return steps if len(steps) > 1 else (_counted(sign, a, b, places), *steps)


def _counted(sign: str, a: int, b: int, places: int) -> str:
    """What takes one step, in the smallest place: 35 + 40 = 75 tenths."""
    end = a + b if sign == PLUS else a - b
    return f"In {PLACE_PARTS[places]}: {a} {sign} {b} {EQUALS} {end}"


def _rest_steps(sign: str, first: Written, rest: int, places: int) -> tuple[str, ...]:
    """Less than one put to a number or taken from it: to the next whole number, where one is passed, then on;
    else in one step."""
    a, way = int(first[0] * 10 ** (places - first[1])), 1 if sign == PLUS else -1
    one = int(10**places)
    to_whole = -a % one if sign == PLUS else a % one
    jumps = [to_whole, rest - to_whole] if 0 < to_whole < rest else [rest]
    stops = [a, *(a + way * sum(jumps[:at]) for at in range(1, len(jumps) + 1))]
    return tuple(
        f"{trimmed(before, places)} {sign} {trimmed(jump, places)} {EQUALS} {trimmed(after, places)}"
        for jump, (before, after) in zip(jumps, pairwise(stops), strict=True)
    )


def _pair(sign: str) -> Callable[[Numbers, Numbers], Shown]:
    def shown(sizes: Numbers, member: Numbers) -> Shown:
        first, second = arranged(sizes, member)
        a, b, places = _level(first, second)
        answer = trimmed(a + b if sign == PLUS else a - b, places)
        prompt = f"{point(*first)} {sign} {point(*second)}"
        helps = (
            Help("question", "Which digits stand in the same place?"),
            Help("build", "Write them, point under point."),
            *worked(*_steps(sign, first, second)),
        )
        say = f"{said_point(*first)} {SIGN_WORDS[sign]} {said_point(*second)}"
        return _calculated(prompt, say, answer, helps)

    return shown


def _calculated(prompt: str, say: str, answer: str, helps: tuple[Help, ...]) -> Shown:
    told = f"{prompt} {'leaves' if MINUS in prompt else 'makes'} {answer}."
    return Shown(f"{prompt} {EQUALS}", say, answer, told, without_echo(prompt, helps), "decimal")


def _sum_predict(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    first, second = arranged(sizes, member)
    a, b, places = _level(first, second)
    return {
        "apart_at_point": apart_at_point(first, second, 1),
        **lined_up_right(first, second, 1),
        "carry_dropped": trimmed(carry_dropped(a, b), places),
        "took_away": trimmed(abs(a - b), places),
    }


def _difference_predict(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    first, second = arranged(sizes, member)
    a, b, places = _level(first, second)
    return {
        "apart_at_point": apart_at_point(first, second, -1),
        **lined_up_right(first, second, -1),
        "smaller_from_larger": trimmed(smaller_from_larger(a, b), places),
        "not_reduced": trimmed(not_reduced(a, b), places),
        "added": trimmed(a + b, places),
    }


def _sums(sign: str, exchanged: bool) -> Task:
    what = "sums" if sign == PLUS else "differences"
    how = "that regroup" if exchanged else "without regrouping"
    return Task(
        lambda sizes: f"{what} of decimals {how}, {places_named(*sizes)}",
        14.0 if exchanged else 10.0,
        in_any_order("+" if sign == PLUS else "-"),
        _sums_space(sign, exchanged),
        _pair(sign),
        "sums",
        _sum_predict if sign == PLUS else _difference_predict,
    )


# --- times and divided by 10, 100 and 1,000 -----------------------------------------------------------


def _scaled_space(sizes: Numbers) -> Space:
    """Sizes: the factor, and the places of the number."""
    places = sizes[1]
    return Space((range(1, MOST_SCALED * 10**places),), lambda number: ends_in_digit(number, places))


def _zeros(factor: int) -> int:
    return len(str(factor)) - 1


def _tenfold(number: int, places: int, factor: int, sign: str) -> tuple[str, ...]:
    """A place at a time; where it is one place, that is said."""
    become = "tens" if sign == TIMES else "tenths"
    moved = (f"Each digit moves: ones become {become}.",) if factor == 10 else ()
    chain = [
        trimmed(number * 10**at, places) if sign == TIMES else trimmed(number, places + at)
        for at in range(_zeros(factor) + 1)
    ]
    return (*moved, *(f"{before} {sign} 10 {EQUALS} {after}" for before, after in pairwise(chain)))


def _scaled(sign: str) -> Callable[[Numbers, Numbers], Shown]:
    greater = "greater" if sign == TIMES else "smaller"

    def shown(sizes: Numbers, member: Numbers) -> Shown:
        (number,), (factor, places) = member, sizes
        steps = _tenfold(number, places, factor, sign)
        answer = steps[-1].rpartition(" ")[2]
        prompt = f"{point(number, places)} {sign} {grouped(factor)}"
        helps = (
            Help("question", f"How many places does each digit move?\nDoes it become {greater}?"),
            Help("build", "Move it on a place table."),
            *worked(*steps),
        )
        say = f"{said_point(number, places)} {SIGN_WORDS[sign]} {in_words(factor)}"
        return _calculated(prompt, say, answer, helps)

    return shown


def _scaled_predict(times: bool) -> Callable[[Numbers, Numbers], Mapping[str, str]]:
    return lambda sizes, member: scaling_rules(member[0], sizes[0], sizes[1], times)


def _scaling(sign: str) -> Task:
    done = "times" if sign == TIMES else "divided by"
    writing: Writing = pattern("#x<0>" if sign == TIMES else "#/<0>", lambda sizes: sizes[1:])
    return Task(
        lambda sizes: f"{done} {grouped(sizes[0])}, {place_count(sizes[1]) if sizes[1] else 'whole numbers'}",
        7.0,
        writing,
        _scaled_space,
        _scaled(sign),
        "scaled",
        _scaled_predict(sign == TIMES),
    )


TASKS: Mapping[str, Task] = {
    "bond-one": _bond(1),
    "bond-ten": _bond(10),
    "add": _sums(PLUS, False),
    "add-regroup": _sums(PLUS, True),
    "subtract": _sums(MINUS, False),
    "subtract-regroup": _sums(MINUS, True),
    "times": _scaling(TIMES),
    "divide": _scaling(DIVIDED),
}
