"""Every fact that any set can ask for, in every place and every way it is shown."""

from collections.abc import Iterator

from review.core.model import Problem, Skill
from review.core.skills.fact_cards import showings
from review.core.skills.facts import KINDS, LARGEST_FACTOR, LARGEST_TOTAL

BY_NAME = {kind.name: kind for kind in KINDS}


def skill(kind: str, **options: object) -> Skill:
    defaults = {name: option.default for name, option in BY_NAME[kind].options.items()}
    return Skill("s", "S", kind, "fluency", {**defaults, **options})


def keys(kind: str, **options: object) -> list[str]:
    return list(BY_NAME[kind].keys(skill(kind, **options)))


def problem(key: str, asked: str) -> Problem:
    return BY_NAME[key.partition(":")[0]].problem(key, asked)


def everything() -> dict[str, list[str]]:
    """Every fact any set can ask for, in every place; of the wholes of bonds those to 50 and some beyond."""
    tables = tuple(range(2, LARGEST_FACTOR + 1))
    wide, times = (1, LARGEST_TOTAL), (2, LARGEST_FACTOR)
    places = ("result", "first", "second")
    return {
        "sum": keys("sum", addends=wide, total=(2, LARGEST_TOTAL), zero=True, unknown=places),
        "difference": keys(
            "difference", whole=(2, LARGEST_TOTAL), take=wide, left=wide, zero=True, unknown=places
        ),
        "product": keys("product", tables=tables, times=times, zero=True, one=True, unknown=places),
        "quotient": keys("quotient", tables=tables, times=times, one=True, unknown=places),
        "bond": keys("bond", wholes=(*range(2, 51), 99, 100, 700, 1000), zero=True),
        "double": keys("double", numbers=(1, 100)),
        "half": keys("half", numbers=(2, 200)),
    }


ALL = everything()


def shown(kind: str) -> Iterator[Problem]:
    return (problem(key, asked) for key in ALL[kind] for asked in showings(key))


def text(one: Problem, step: str) -> str:
    return next(help.text for help in one.helps if help.step == step)
