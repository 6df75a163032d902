"""Numbers below zero: counted up and down across it, how far apart, which is greater.

The sizes of a class are the least and the greatest number that stands in it without its sign.
"""

from collections.abc import Callable, Iterator, Mapping

from review.core.model import BOX, Help, Skill
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import wholes, words
from review.core.skills.sign_errors import of_apart, of_move
from review.core.skills.tasks import Numbers, Shown, Space, Task, Tasks, pattern, span
from review.core.skills.wording import (
    EQUALS,
    MINUS,
    PLUS,
    SIGN_SENTENCES,
    SIGN_WORDS,
    counted,
    grouped,
    in_words,
    lines,
    sign_between,
)
from review.core.skills.worked import worked


def _both_sides(sizes: Numbers) -> range:
    """Also below zero, and zero with them."""
    return range(-sizes[1], sizes[1] + 1)


# --- sums across zero ---------------------------------------------------------------------------------


def _down_space(sizes: Numbers) -> Space:
    """From above zero to below it."""
    return Space((span(sizes), span(sizes)), lambda start, less: less > start)


def _from_below_space(sizes: Numbers) -> Space:
    """From below zero: further down, or to a number above it."""
    return Space((range(-sizes[1], 1 - sizes[0]), span(sizes)))


def _up_space(sizes: Numbers) -> Space:
    """From below zero to above it."""
    return Space((range(-sizes[1], 1 - sizes[0]), span(sizes)), lambda start, more: start + more > 0)


def _up_below_space(sizes: Numbers) -> Space:
    """From below zero, not as far as zero."""
    return Space((range(-sizes[1], 1 - sizes[0]), span(sizes)), lambda start, more: start + more < 0)


def _steps(start: int, sign: str, by: int) -> tuple[str, ...]:
    """To zero first, then on; where zero is not passed, as far from zero on the other side first."""
    end = start + by if sign == PLUS else start - by
    if start * end >= 0:
        mirrored = MINUS if sign == PLUS else PLUS
        return (
            f"{abs(start)} {mirrored} {by} {EQUALS} {abs(end)}",
            f"{grouped(start)} {sign} {by} {EQUALS} {grouped(end)}",
        )
    to_zero, beyond = abs(start), by - abs(start)
    return (
        f"{by} {EQUALS} {to_zero} {PLUS} {beyond}",
        f"{grouped(start)} {sign} {to_zero} {EQUALS} 0",
        f"0 {sign} {beyond} {EQUALS} {grouped(end)}",
    )


def _moved(sign: str) -> Callable[[Numbers, Numbers], Shown]:
    def shown(sizes: Numbers, member: Numbers) -> Shown:
        start, by = member
        end = start + by if sign == PLUS else start - by
        question = "Which way do you move?" if start * end >= 0 else "How far is it to zero?"
        helps = (
            Help("question", question),
            Help("build", "Walk it on a number line."),
            *worked(*_steps(start, sign, by)),
        )
        prompt = f"{grouped(start)} {sign} {by}"
        say = f"{in_words(start)} {SIGN_WORDS[sign]} {in_words(by)}"
        told = f"{prompt} makes {grouped(end)}."
        return Shown(f"{prompt} {EQUALS}", say, str(end), told, helps)

    return shown


def _move_errors(sign: str) -> Callable[[Numbers, Numbers], Mapping[str, str]]:
    return lambda sizes, member: of_move(member[0], member[1] if sign == PLUS else -member[1])


# --- how far apart ------------------------------------------------------------------------------------


def _apart(sizes: Numbers, member: Numbers) -> Shown:
    low, high = member
    total = high - low
    helps = (
        Help("question", "How far is each from zero?"),
        Help("build", "Walk it on a number line."),
        *worked(f"{-low} {PLUS} {high} {EQUALS} {total}"),
    )
    say = f"How many degrees is it from {in_words(low)} up to {in_words(high)}?"
    told = f"{grouped(low)} to {high} is {counted(total, 'degree')}."
    return Shown(f"Degrees from {grouped(low)} up to {high}:", say, str(total), told, helps, "degrees")


# --- which is greater ---------------------------------------------------------------------------------


def _compare_space(sizes: Numbers) -> Space:
    def fits(first: int, second: int) -> bool:
        return first != second and min(first, second) < 0

    return Space((_both_sides(sizes), _both_sides(sizes)), fits)


def _compare(sizes: Numbers, member: Numbers) -> Shown:
    first, second = member
    sign, one, other = sign_between(first, second), grouped(first), grouped(second)
    where = "Further down the line is less."
    helps = (
        Help("question", "Which is further down?"),
        Help("build", "Find both on a thermometer."),
        Help("blank", lines([where, f"{one} {BOX} {other}"])),
        Help("steps", lines([where, f"{one} {sign} {other}"])),
    )
    say = f"Which sign goes between {in_words(first)} and {in_words(second)}?"
    told = f"{one} {SIGN_SENTENCES[sign]} {other}."
    return Shown(f"{one} {BOX} {other}", say, sign, told, helps, "sign")


def _compare_predict(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    return {"reversed": sign_between(member[1], member[0])}


# --- the kind -----------------------------------------------------------------------------------------


def _titled(what: str) -> Callable[[Numbers], str]:
    return lambda sizes: f"{what}, numbers {sizes[0]} to {sizes[1]}"


TABLE: Mapping[str, Task] = {
    "compare": Task(
        _titled("numbers below zero compared"), 5.0, pattern("#?#"), _compare_space, _compare, "compare",
        _compare_predict, 3,
    ),
    "down": Task(
        _titled("down across zero"), 7.0, pattern("#-#"), _down_space, _moved(MINUS), "across",
        _move_errors(MINUS),
    ),
    "up": Task(_titled("up across zero"), 7.0, pattern("#+#"), _up_space, _moved(PLUS), "across",
        _move_errors(PLUS),
    ),
    "down-below": Task(
        _titled("further down below zero"), 6.0, pattern("#-#"), _from_below_space, _moved(MINUS), "across",
        _move_errors(MINUS),
    ),
    "up-below": Task(
        _titled("up below zero"), 6.0, pattern("#+#"), _up_below_space, _moved(PLUS), "across",
        _move_errors(PLUS),
    ),
    "apart": Task(
        _titled("from below zero to above it"), 7.0, pattern("#,#"), _from_below_space, _apart, "apart",
        lambda sizes, member: of_apart(*member),
    ),
}  # fmt: skip
TASKS = Tasks(TABLE)


def keys(skill: Skill) -> Iterator[str]:
    low, high = wholes(skill, "range")
    return (f"negative:{task}/{low}..{high}" for task in words(skill, "task"))


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for task, key in zip(words(skill, "task"), keys(skill), strict=True):
        if not TASKS.possible(key):
            yield "range", f"no numbers of {task} are in it", "widen the range, like [1, 10]"


KINDS: tuple[Kind, ...] = (
    Kind(
        "negative",
        "numbers below zero: across it, how far apart, which is greater",
        {
            "task": Option(
                "words", "what is asked; a card each", choices=tuple(TABLE), example='["down", "up"]'
            ),
            "range": Option(
                "range", "the least and greatest number without its sign", low=1, high=1000,
                example="[1, 10]",
            ),
        },
        keys, TASKS.traits, TASKS.draw, TASKS.problem, check, predict=TASKS.predict,
    ),
)  # fmt: skip
