"""Whole classes of the kinds that are made of tasks, and numbers in every way they are shown."""

import re
from collections.abc import Callable
from fractions import Fraction
from random import Random

from review.core.model import Problem, Skill
from review.core.skills.kinds import Kind
from review.core.skills.tasks import Tasks, members, sizes_of, task_of
from tests.core.shown import assert_sound, seen


def amount(term: str) -> Fraction:
    """3/4, 1 3/4, 0.75, −3, 30%, 1,250."""
    text = term.replace(",", "").replace("−", "-").strip()
    if text.endswith("%"):
        return amount(text[:-1]) / 100
    found = re.fullmatch(r"(\d+) (\d+/\d+)", text)
    return Fraction(found[1]) + Fraction(found[2]) if found else Fraction(text)


def skill_of(kind: Kind, **options: object) -> Skill:
    defaults = {name: option.default for name, option in kind.options.items()}
    return Skill("s", "S", kind.name, "accuracy", {**defaults, **options})


def every(tasks: Tasks, key: str) -> list[str]:
    """Each member of a class, as it is logged."""
    task, sizes = tasks.table[task_of(key)], sizes_of(key)
    return [task.writing.write(sizes, member) for member in members(tasks.space_of(key))]


def shows_soundly(kind: Kind, key: str, times: int = 60) -> None:
    """Drawn problems are sound, their pictures fit, and no question holds the answer."""
    random = Random(key)
    for _ in range(times):
        problem = kind.problem(key, kind.draw(key, random))
        assert_sound(problem, amount)
        assert all(len(line) <= 40 for line in seen(problem)), seen(problem)
        assert problem.say
        question = problem.helps[0].text
        assert not re.search(rf"(?<![\d/]){re.escape(problem.expected)}(?![\d/])", question) or (
            problem.expected in problem.prompt
        )


def disagreements(
    kind: Kind, key: str, askeds: list[str], oracle: Callable[[Problem], bool]
) -> list[tuple[str, str]]:
    """Problems whose answer the oracle, which reads what a child sees, does not have."""
    problems = [kind.problem(key, asked) for asked in askeds]
    return [(problem.prompt, problem.expected) for problem in problems if not oracle(problem)]


def tried(kind: Kind, key: str, times: int) -> list[str]:
    random = Random(key)
    return [kind.draw(key, random) for _ in range(times)]
