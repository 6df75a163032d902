"""Place value: what a digit is worth, numbers apart and together, one step more or less.

A class of place-value is the numbers of so many digits that fit the task: `value/4/100` those whose hundreds
digit is not zero and stands nowhere else in the number, so that "the 4" is one digit only;
`expand/4` and `compose/4` those without a zero, `.../zero` those with one; `more/4/10` those where one digit
changes, `more/4/10/across` those where the next place changes too.
"""

from collections.abc import Callable, Iterator, Mapping
from random import Random
from textwrap import wrap
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Help, Kind, Option, Problem, Skill, Traits
from review.core.pictures import Lines
from review.core.skills import compare
from review.core.skills.options import whole, wholes, words, yes
from review.core.skills.places import (
    MOST_DIGITS,
    digit_at,
    names_of_parts,
    parts,
    place_name,
    with_digits,
    without_inner_zeros,
)
from review.core.skills.tasks import Shown
from review.core.skills.wording import (
    BOX,
    EQUALS,
    MINUS,
    PLUS,
    TIMES,
    counted,
    grouped,
    in_words,
    lines,
    on_lines,
    spoken,
)
from review.core.skills.worked import without_echo, worked

MOST_PARTS = 5  # of expand and compose: six parts do not fit a line of 40 columns
WIDEST = 40

ONE_OF = ("one", "ten", "hundred", "thousand", "ten thousand", "hundred thousand", "million")
BLOCKS = {2: "tens and ones", 3: "hundreds, tens and ones"}


class Class(NamedTuple):
    task: str
    digits: int
    place: int = 0  # 1, 10, 100, ...; 0 where the task has none
    apart: bool = False  # `/zero` or `/across`: the harder class of the two

    @property
    def numbers(self) -> range:
        return with_digits(self.digits)


def _class(key: str) -> Class:
    task, digits, *rest = content_of(key).split("/")
    place = int(rest[0]) if rest and rest[0].isdigit() else 0
    return Class(task, int(digits), place, rest[-1:] in (["zero"], ["across"]))


def _key(of: Class) -> str:
    place = f"/{of.place}" if of.place else ""
    apart = "" if not of.apart else "/across" if of.place else "/zero"
    return f"place-value:{of.task}/{of.digits}{place}{apart}"


# --- which numbers belong -----------------------------------------------------------------------------


def _stands_once(of: Class, number: int) -> bool:
    digit = digit_at(number, of.place)
    return digit != 0 and str(number).count(str(digit)) == 1


def _has_parts(of: Class, number: int) -> bool:
    return len(parts(number)) >= 2 and ("0" in str(number)) == of.apart


def _can_grow(of: Class, number: int) -> bool:
    return (digit_at(number, of.place) == 9) == of.apart and number + of.place < of.numbers.stop


def _can_shrink(of: Class, number: int) -> bool:
    return (digit_at(number, of.place) == 0) == of.apart and number >= of.place


BELONGS: Mapping[str, Callable[[Class, int], bool]] = {
    "value": _stands_once,
    "expand": _has_parts,
    "compose": _has_parts,
    "more": _can_grow,
    "less": _can_shrink,
}


def _possible(of: Class) -> bool:
    """Whether any number belongs."""
    if of.place:
        return of.place * (10 if of.apart else 1) < of.numbers.stop
    return of.digits <= MOST_PARTS and (of.digits > 2 or not of.apart)


def draw(key: str, random: Random) -> str:
    of = _class(key)
    if not _possible(of):
        raise ValueError(f"no number belongs to {key}")
    number = random.choice(of.numbers)
    while not BELONGS[of.task](of, number):
        number = random.choice(of.numbers)
    return f"{number}@{of.place}" if of.task == "value" else str(number)


# --- problems -----------------------------------------------------------------------------------------


def _build(digits: int) -> str:
    blocks = BLOCKS.get(digits)
    return f"Build it with {blocks}." if blocks else "Write it in a place table."


def _value(of: Class, number: int) -> Shown:
    digit, name = digit_at(number, of.place), place_name(of.place)
    worth = digit * of.place
    return Shown(
        f"What is the {digit} worth in {grouped(number)}?",
        f"What is the {in_words(digit)} worth in {in_words(number)}?",
        str(worth),
        f"The {digit} in {grouped(number)} is worth {grouped(worth)}.",
        (
            Help("question", f"Which place is the {digit} in?"),
            Help("build", _build(of.digits)),
            *worked(
                f"The {digit} is in the {name} place.",
                _worth(of, digit),
            ),
        ),
    )


def _worth(of: Class, digit: int) -> str:
    """8 tens = 80 in numbers of two digits, which come before the sign for times."""
    worth = grouped(digit * of.place)
    if of.digits == 2:
        return f"{counted(digit, place_name(of.place).removesuffix('s'))} {EQUALS} {worth}"
    return f"{digit} {TIMES} {grouped(of.place)} {EQUALS} {worth}"


def _sum(numbers: list[int]) -> str:
    return f" {PLUS} ".join(map(grouped, numbers))


def _expand(of: Class, number: int) -> Shown:
    """Which parts are meant stands above: 31 is also 1 + 30, and 20 + 11."""
    pieces = parts(number)
    names = names_of_parts(number)
    whole_sum = f"{grouped(number)} {EQUALS} {_sum(pieces)}"
    hint = "A zero adds no part." if of.apart else ""
    return Shown(
        f"{grouped(number)} {EQUALS} " + f" {PLUS} ".join(BOX for _ in pieces),
        f"Split {in_words(number)} into {names}.",
        " ".join(map(str, pieces)),
        f"{whole_sum}.",
        (
            Help("question", lines(["What is each digit worth?", hint])),
            Help("build", _build(of.digits)),
            *worked(whole_sum),
        ),
        "parts",
        Lines(tuple(wrap(f"{names.capitalize()}:", WIDEST, break_on_hyphens=False))),
    )


def _compose(of: Class, number: int) -> Shown:
    pieces = parts(number)
    totals = [sum(pieces[: at + 1]) for at in range(len(pieces))]
    steps = [
        f"{grouped(before)} {PLUS} {grouped(part)} {EQUALS} {grouped(total)}"
        for before, part, total in zip(totals[:-1], pieces[1:], totals[1:], strict=True)
    ]
    return Shown(
        f"{_sum(pieces)} {EQUALS}",
        spoken(*[word for piece in pieces for word in (PLUS, piece)][1:]),
        str(number),
        f"Together they make {grouped(number)}.",
        (
            Help("question", "Which place has nothing?" if of.apart else "Which place is each part for?"),
            Help("build", "Lay out each part.\nThen read the whole."),
            *worked(*steps),
        ),
    )


def _step_build(of: Class) -> str:
    one = "one" if of.place == 1 else f"one {ONE_OF[len(str(of.place)) - 1]}"
    change = f"Add {one} to it." if of.task == "more" else f"Take {one} away."
    return lines([_build(of.digits), change])


def _step(of: Class, number: int) -> Shown:
    """One step more or less: the digits below the place are set down and picked up again."""
    sign, change = (PLUS, of.place) if of.task == "more" else (MINUS, -of.place)
    low = number % of.place
    high, result = number - low, number + change
    moved = f"{grouped(high)} {sign} {grouped(of.place)} {EQUALS} {grouped(high + change)}"
    around = (
        f"{grouped(number)} {EQUALS} {grouped(high)} {PLUS} {grouped(low)}",
        moved,
        f"{grouped(high + change)} {PLUS} {grouped(low)} {EQUALS} {grouped(result)}",
    )
    asked = f"{grouped(of.place)} {of.task} than {grouped(number)} is"
    return Shown(
        asked,
        f"What is {in_words(of.place)} {of.task} than {in_words(number)}?",
        str(result),
        on_lines(f"{asked} {grouped(result)}."),
        (
            Help("question", "Which digits will change?" if of.apart else "Which digit will change?"),
            Help("build", _step_build(of)),
            *worked(*(around if low else (moved,))),
        ),
    )


SHOWN: Mapping[str, Callable[[Class, int], Shown]] = {
    "value": _value,
    "expand": _expand,
    "compose": _compose,
    "more": _step,
    "less": _step,
}


def problem(key: str, asked: str) -> Problem:
    of = _class(key)
    written, _, place = asked.partition("@")
    number = int(written)
    strange = number not in of.numbers or place != (str(of.place) if of.task == "value" else "")
    if strange or not BELONGS[of.task](of, number):
        raise ValueError(f"{asked} does not belong to {key}")
    shown = SHOWN[of.task](of, number)
    return Problem(
        key,
        "place-value",
        asked,
        shown.prompt,
        shown.say,
        shown.form,
        shown.expected,
        shown.told,
        without_echo(shown.prompt, shown.helps),
        picture=shown.picture,
    )


# --- what one would write -----------------------------------------------------------------------------


def _value_slips(of: Class, number: int) -> dict[str, int]:
    digit = digit_at(number, of.place)
    worth = digit * of.place
    slips = {"face": digit, "place_only": of.place, "place_large": worth * 10, "head": number // of.place}
    return slips | ({"place_small": worth // 10} if of.place > 1 else {})


def _step_slips(of: Class, number: int) -> dict[str, int]:
    """`no_roll`: the digit starts again at 0 or 9, and its neighbour stays."""
    change = 1 if of.task == "more" else -1
    digit = digit_at(number, of.place)
    rolled = number + ((digit + change) % 10 - digit) * of.place
    slips = {"by_one": number + change, "place_next": number + change * of.place * 10, "no_roll": rolled}
    return {rule: slip for rule, slip in slips.items() if slip >= 0}


SLIPS: Mapping[str, Callable[[Class, int], dict[str, int]]] = {
    "value": _value_slips,
    "more": _step_slips,
    "less": _step_slips,
    # the rule stands among those of writing: 3,000 + 400 + 6 set down as 346
    "compose": lambda of, number: {"zero_dropped": without_inner_zeros(number)},
}


def predict(key: str, asked: str) -> Mapping[str, str]:
    of, number = _class(key), int(asked.partition("@")[0])
    slips = SLIPS[of.task](of, number) if of.task in SLIPS else {}
    right = problem(key, asked).expected
    return {rule: str(slip) for rule, slip in slips.items() if str(slip) != right}


# --- the kind -----------------------------------------------------------------------------------------


def _classes(skill: Skill) -> Iterator[Class]:
    """Every class a skill names, also those that are empty."""
    digits = whole(skill, "digits")
    places = wholes(skill, "places") or tuple(10**at for at in range(digits))
    for task in words(skill, "task"):
        if task == "value":
            yield from (Class(task, digits, place) for place in places)
        elif task in ("more", "less"):
            yield from (Class(task, digits, place) for place in places)
            yield from (Class(task, digits, place, True) for place in places if yes(skill, "across"))
        else:
            yield Class(task, digits)
            yield from (Class(task, digits, 0, True) for _ in range(yes(skill, "zero")))


def keys(skill: Skill) -> Iterator[str]:
    return (_key(of) for of in _classes(skill) if _possible(of))


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    digits = whole(skill, "digits")
    fitting = [10**at for at in range(digits)]
    for place in wholes(skill, "places"):
        if place not in fitting:
            wrong = f"{grouped(place)} is no place of a number with {digits} digits"
            yield "places", wrong, f"take from {', '.join(map(str, fitting))}"
    if digits > MOST_PARTS and {"expand", "compose"} & set(words(skill, "task")):
        yield "digits", f"{digits} parts do not fit on a line", f"write {MOST_PARTS} or fewer"


TITLES = {
    "value": "what the {place} digit is worth, {digits} digits",
    "expand": "{digits}-digit numbers split up, like {parts}",
    "compose": "{digits}-digit numbers from parts, like {parts}",
    "more": "{step} more, {digits}-digit numbers",
    "less": "{step} less, {digits}-digit numbers",
}
SHOWN_PARTS = 3  # in a title
SECONDS = {"value": 7.0, "expand": 15.0, "compose": 9.0, "more": 7.0, "less": 8.0}  # our judgement


def example_parts(digits: int, zero: bool) -> str:
    """Of a number such as 345 or 305: "300 + 40 + 5", "300 + 5"; long ones only begin."""
    parts = [grouped((at + 3) * 10 ** (digits - 1 - at)) for at in range(digits) if at != 1 or not zero]
    return " + ".join(parts if len(parts) <= SHOWN_PARTS else [*parts[: SHOWN_PARTS - 1], "…"])


def traits(key: str) -> Traits:
    of = _class(key)
    place = place_name(of.place) if of.place else ""
    like = example_parts(of.digits, of.apart)
    title = TITLES[of.task].format(digits=of.digits, place=place, step=grouped(of.place), parts=like)
    apart = ", next place changes" if of.apart and of.place else ""
    likeness = f"place-value-{'step' if of.task in ('more', 'less') else of.task}"
    groups = frozenset({f"procedure-{key}", likeness})
    return Traits(title + apart, False, SECONDS[of.task] + of.digits / 2, groups)


KINDS: tuple[Kind, ...] = (
    Kind(
        "place-value",
        "what a digit is worth, numbers taken apart and put together, one step more or less",
        {
            "task": Option(
                "words", "what is asked", choices=tuple(SHOWN), example='["value", "expand"]'
            ),
            "digits": Option(
                "whole", "how many digits the numbers have", low=2, high=MOST_DIGITS, example="3"
            ),
            "places": Option(
                "wholes", "which places are asked for in value, more and less; all if left out",
                default=(), low=1, high=10 ** (MOST_DIGITS - 1), example="[10, 100]",
            ),
            "zero": Option(
                "yes-no", "also numbers with a zero, as a card of their own",
                default=True, example="false",
            ),
            "across": Option(
                "yes-no", "also steps that change the next place, as a card of their own",
                default=True, example="false",
            ),
        },
        keys, traits, draw, problem, check, predict=predict,
    ),
    *compare.KINDS,
)  # fmt: skip
