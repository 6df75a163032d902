"""Parts of a whole: strips of one length below each other, a bar for a part of a number, a line to one."""

import re
from collections.abc import Callable, Mapping
from math import gcd

from review.core.model import BOX, Help, Problem
from review.core.pictures import Bar, Jump, Mark, NumberLine, Part, Strip, Strips
from review.core.skills.amounts import percent_parts
from review.core.skills.decimal_pictures import decimal_table
from review.core.skills.picture_help import Pictures, pictured, shared_bar, task_of, wholes
from review.core.skills.wording import grouped

Fraction = tuple[int, int]

FINE = 10  # parts of a strip that can be told apart
MOST_MARKS = 36  # parts along a line, each with a column of its own


def _fractions(asked: str) -> list[Fraction]:
    return [(int(top), int(under)) for top, under in re.findall(r"(\d+)/(\d+)", asked)]


def _strip(of: Fraction) -> Strip:
    return Strip(*of, f"{of[0]}/{of[1]}")


def _wholes_and_parts(top: int, under: int) -> Strips:
    """7/4 as a full strip and three parts of another."""
    full, rest = divmod(top, under)
    return Strips((Strip(under, under),) * full + ((Strip(rest, under),) if rest else ()))


def _labelled(ask: str) -> Callable[[Problem], tuple[Help, ...]]:
    """Every fraction of the problem as a strip with its name."""

    def drawn(problem: Problem) -> tuple[Help, ...]:
        return pictured(Strips(tuple(map(_strip, _fractions(problem.asked)))), *ask.split("\n"))

    return drawn


def _first(ask: str) -> Callable[[Problem], tuple[Help, ...]]:
    def drawn(problem: Problem) -> tuple[Help, ...]:
        first, *others = [f"{top}/{under}" for top, under in _fractions(problem.asked)]
        strip = _strip(_fractions(problem.asked)[0])
        return pictured(Strips((strip,)), ask.format(first=first, other="".join(others[:1])))

    return drawn


def _equivalent(problem: Problem) -> tuple[Help, ...]:
    """What is asked stands as a strip with nothing shaded."""
    first, (box, under) = _fractions(problem.asked)[0], problem.asked.split(",")[1].split("/")
    if under == "_":
        return pictured(Strips((_strip(first),)), f"Cut each part into {int(box) // first[0]}.")
    below = Strip(0, int(under), f"{BOX}/{under}")
    return pictured(Strips((_strip(first), below)), "Where does the shaded part end?")


def _share(problem: Problem) -> tuple[Help, ...]:
    top, under, whole = wholes(problem.asked)
    ask = "How much is one part?" if top == 1 else "First: how much is one part?"
    return pictured(shared_bar(grouped(whole), under, top), ask)


def _mixed(problem: Problem) -> tuple[Help, ...]:
    (top, under), *_ = _fractions(problem.asked)
    return pictured(_wholes_and_parts(top, under), "How many strips are full?")


def _improper(problem: Problem) -> tuple[Help, ...]:
    whole, top, under = wholes(problem.asked)
    return pictured(_wholes_and_parts(whole * under + top, under), "Count all the shaded parts.")


def _times(problem: Problem) -> tuple[Help, ...]:
    """Jumps of one fraction along a line; its parts marked where they can be told apart."""
    many, top, under = wholes(problem.asked)
    ends = -(-many * top // under)
    names = {at * under: str(at) for at in range(ends + 1)}
    parts = dict.fromkeys(range(ends * under + 1), "") if ends * under <= MOST_MARKS else {}
    marks = {**parts, **names}
    jumps = tuple(Jump(at * top, (at + 1) * top) for at in range(many))
    return pictured(
        NumberLine(tuple(Mark(at, marks[at]) for at in sorted(marks)), jumps), f"Each jump is {top}/{under}."
    )


def _mixed_parts(problem: Problem) -> tuple[Help, ...]:
    """The fractions of two mixed numbers; the wholes are in the text."""
    sign = "Take the wholes away" if "subtract" in problem.card else "Put the wholes together"
    over = "over" in problem.card and "subtract" in problem.card
    first = "Too few parts? Cut one whole." if over else f"{sign} first."
    return pictured(Strips(tuple(map(_strip, _fractions(problem.asked)))), first, "Then look at the parts.")


# --- hundredths along a line --------------------------------------------------------------------------


def _to_one(top: int, under: int, names: tuple[str, str]) -> NumberLine:
    """From nothing to one whole, a mark at each tenth, an arrow at the fraction."""
    tenth = under // gcd(10, under)
    marks = (Mark(at * tenth, {0: names[0], 10: names[1]}.get(at, "")) for at in range(11))
    return NumberLine(tuple(marks), arrow=top * 10 * tenth // under)


def _to_decimal(problem: Problem) -> tuple[Help, ...]:
    ((top, under),) = _fractions(problem.asked)
    return pictured(_to_one(top, under, ("0", "1")), "Each step is a tenth.", "Is the arrow at a mark?")


def _written(problem: Problem) -> tuple[Help, ...]:
    """The decimal that the prompt has, by its places."""
    (decimal,) = re.findall(r"\d+\.\d+", problem.prompt)
    return pictured(decimal_table(decimal), "Which column has the last digit?")


# --- percent ------------------------------------------------------------------------------------------


def _percent_of(problem: Problem) -> tuple[Help, ...]:
    percent, whole = wholes(problem.asked)
    parts = percent_parts(percent, whole)
    if parts > FINE:
        bar = Bar((Part(percent, f"{percent}%"), Part(100 - percent, "")), grouped(whole))
        return pictured(bar, "The whole bar is 100%.")
    return pictured(shared_bar(grouped(whole), parts, percent * parts // 100), "The whole bar is 100%.")


def _percent_from_fraction(problem: Problem) -> tuple[Help, ...]:
    ((top, under),) = _fractions(problem.asked)
    return pictured(_to_one(top, under, ("0%", "100%")), "Each step is 10%.", "Is the arrow at a mark?")


def _percent_alone(problem: Problem) -> tuple[Help, ...]:
    (percent,) = wholes(problem.asked)
    return pictured(_to_one(percent, 100, ("0%", "100%")), "Each step is 10%, or a tenth.")


BOTH_SHADED = "Count the shaded parts together."
ONE_SIZE = "Are the parts of one size?\nCut them until they are."

FRACTIONS: Mapping[str, Callable[[Problem], tuple[Help, ...]]] = {
    "unit-of": _share,
    "of": _share,
    "equivalent": _equivalent,
    "equivalent-under": _equivalent,
    "equivalent-down": _equivalent,
    "simplest": _first("Can parts be put together?"),
    "compare": _labelled("Which is shaded further?"),
    "compare-like": _labelled("Which is shaded further?"),
    "compare-same-top": _labelled("Which is shaded further?"),
    "to-one": _first("Which part is not shaded?"),
    "add-like": _labelled(BOTH_SHADED),
    "add-like-over": _labelled(BOTH_SHADED),
    "subtract-like": _first("Take {other} away."),
    "add-multiple": _labelled(ONE_SIZE),
    "subtract-multiple": _labelled(ONE_SIZE),
    "add-unlike": _labelled(ONE_SIZE),
    "subtract-unlike": _labelled(ONE_SIZE),
    "to-mixed": _mixed,
    "to-improper": _improper,
    "times": _times,
    "to-decimal": _to_decimal,
    "from-decimal": _written,
}

PERCENTS: Mapping[str, Callable[[Problem], tuple[Help, ...]]] = {
    "of": _percent_of,
    "from-fraction": _percent_from_fraction,
    "from-decimal": _written,
    "to-decimal": _percent_alone,
    "to-fraction": _percent_alone,
}

PICTURES: Pictures = {
    "fraction": lambda problem: FRACTIONS.get(task_of(problem), _mixed_parts)(problem),
    "percent": lambda problem: PERCENTS[task_of(problem)](problem),
}
