"""How a child answers who holds rules, and slips.

A child may hold a rule on all problems, or now and then work as taught. Slips fall as they were found to fall
in the design lab: two in three on an answer that some rule of the problem leads to (the worst case for
naming), one in four next to the right answer, the others anywhere.
"""

from collections.abc import Mapping
from random import Random
from typing import NamedTuple

from review.core import readings, skills
from review.core.answers import judge
from review.core.model import Problem
from review.core.readings import Reading

TRIES = 20


class Child(NamedTuple):
    rules: tuple[str, ...] = ()
    holds: float = 1.0  # of the time a rule is followed where it shows
    slips: float = 0.1


def reading(child: Child, key: str, asked: str, day: int, random: Random) -> Reading:
    problem, says = skills.problem(key, asked), readings.predictions(key, asked)
    given = given_by(child, problem, says, random)
    right = judge(problem, given) == "right"
    fits = () if right else (rule for rule, text in says.items() if readings.leads_to(problem, text, given))
    return Reading(day, key, asked, problem.expected, given, right, says, frozenset(fits))


def given_by(child: Child, problem: Problem, says: Mapping[str, str], random: Random) -> str:
    if random.random() < child.slips:
        return slip(problem, says, random)
    at_work = [rule for rule in child.rules if rule in says]
    follows = at_work and random.random() < child.holds
    return says[random.choice(at_work)] if follows else problem.expected


def slip(problem: Problem, says: Mapping[str, str], random: Random) -> str:
    """Another answer than the right one that can be read."""
    where = random.random()
    if says and where < 0.65:
        return random.choice(list(dict.fromkeys(says.values())))
    ways = (near, anywhere) if where < 0.91 else (anywhere,)
    made = (random.choice(ways)(problem.expected, random) for _ in range(TRIES))
    read = (text for text in made if judge(problem, text) == "other")
    return next(read, random.choice(list(says.values())) if says else "?")


def near(text: str, random: Random) -> str:
    """Off by one or ten, a digit struck for another, twice, or not at all."""
    if not text.isdecimal():
        return anywhere(text, random)
    number, at = int(text), random.randrange(len(text))
    return random.choice([
        str(number + random.choice((1, 10))),
        str(max(0, number - random.choice((1, 10)))),
        text[:at] + random.choice("0123456789") + text[at + 1 :],
        text[: at + 1] + text[at:],
        text[:at] + text[at + 1 :] or "0",
    ])  # fmt: skip


def anywhere(text: str, random: Random) -> str:
    """Each digit another one; of signs another sign."""
    if text in ("<", "=", ">"):
        return random.choice("<=>")
    return "".join(random.choice("0123456789") if letter.isdigit() else letter for letter in text)
