"""Place value: what a digit is worth, numbers apart and together, one step more or less."""

from collections.abc import Callable, Iterator, Mapping
from textwrap import wrap

from review.core.model import BOX, Help, Problem, Skill, Traits
from review.core.pictures import Lines
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import whole, wholes, words
from review.core.skills.place_classes import (
    BELONGS,
    MOST_PARTS,
    Class,
    class_of,
    classes,
    draw,
    is_possible,
    key_of,
)
from review.core.skills.places import (
    MOST_DIGITS,
    digit_at,
    names_of_parts,
    parts,
    place_name,
    without_inner_zeros,
)
from review.core.skills.tasks import Shown
from review.core.skills.wording import (
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

WIDEST = 40

ONE_OF = ("one", "ten", "hundred", "thousand", "ten thousand", "hundred thousand", "million")
BLOCKS = {2: "tens and ones", 3: "hundreds, tens and ones"}


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
    of = class_of(key)
    written, _, place = asked.partition("@")
    number = int(written)
    strange = number not in of.numbers or place != (str(of.place) if of.task == "value" else "")
    if strange or not BELONGS[of.task](of, number):
        raise ValueError(f"{asked} does not belong to {key}")
    shown = SHOWN[of.task](of, number)
    return shown._replace(helps=without_echo(shown.prompt, shown.helps)).problem(key, asked)


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
    of, number = class_of(key), int(asked.partition("@")[0])
    slips = SLIPS[of.task](of, number) if of.task in SLIPS else {}
    right = problem(key, asked).expected
    return {rule: str(slip) for rule, slip in slips.items() if str(slip) != right}


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    return (key_of(of) for of in classes(skill) if is_possible(of))


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
    of = class_of(key)
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
)  # fmt: skip
