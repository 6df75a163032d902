"""Which way of working out help follows, and now and then the question which one a child likes.

It is asked at most once a sitting, of a person of 7 or older, after an answer that was right with help, where
two ways suit the numbers and the skill. Whether it is asked follows from the answer and those before it, so
that a sitting that goes on counts its question as before.
"""

from collections.abc import Mapping
from random import Random

from review.core import sayings, skills
from review.core.model import FOUND, Answer, Help, Problem, Way
from review.core.queue import State
from review.core.skills.strategies import STRATEGIES, worked_as
from review.core.warmup import AskLiked

YOUNGEST = 7  # from then on a child can look at two ways and choose; our judgement
MOST = 1  # such questions in a sitting
ASKED = 1 / 2  # of the occasions (our judgement)
ASKED_AGAIN = 1 / 10  # where there is a liking: it may change (our judgement)
NO_WAY = ("", "written")  # help that has let no way be seen


def helps(state: State, problem: Problem) -> tuple[Help, ...]:
    """A problem's help, least to most, as this child is to see it."""
    return skills.helps(problem, *followed(state, problem.card))


def followed(state: State, key: str) -> tuple[tuple[str, ...], str]:
    """What help of a card goes by: the strategies its skills name, and the one this child likes."""
    card = state.sitting.cards.get(key)
    return card.strategies if card else (), state.likes.get(worked_as(key), "")


def offered(state: State, row: Answer, random: Random) -> tuple[str, ...]:
    """Two strategies to choose from: the one help followed and another one. Nothing where it is not asked."""
    if not _may_ask(state, row):
        return ()
    problem = skills.problem(row.card, row.asked)
    named, liked = followed(state, row.card)
    ways = skills.ways(problem, named)
    first = next((way for way in ways if way.strategy == liked), ways[0] if ways else None)
    others = [way for way in ways if first and _steps(way) != _steps(first)]
    if not first or not others or random.random() >= (ASKED_AGAIN if liked else ASKED):
        return ()
    return first.strategy, random.choice(others).strategy


def _may_ask(state: State, row: Answer) -> bool:
    return (
        state.sitting.age >= YOUNGEST
        and state.tally.likings < MOST
        and row.role != "copy"
        and row.mark in FOUND
        and row.help not in NO_WAY
    )


def _steps(way: Way) -> str:
    return way.helps[-1].text


def question(row: Answer, strategies: tuple[str, ...]) -> AskLiked:
    """Each way in plain words, with its steps for these numbers."""
    ways = {way.strategy: way for way in skills.ways(skills.problem(row.card, row.asked))}
    shown = tuple((STRATEGIES[name].child, _steps(ways[name])) for name in strategies)
    return AskLiked(sayings.WHICH_WAY, shown)


def chosen(strategies: tuple[str, ...], text: str) -> str:
    """The strategy of that number, or "" for whatever else was typed: a child need not choose."""
    numbers = {str(number): name for number, name in enumerate(strategies, 1)}
    return numbers.get(text.strip(), "")


def unknown(problem: Problem, strategy: str) -> str:
    """What to say to a program that names a way this problem does not have; "" where it has it."""
    names = [way.strategy for way in skills.ways(problem)]
    if not strategy or strategy in names:
        return ""
    if not names:
        return 'There are no ways to choose from here. Send the answer without "liked".'
    return f'"liked" is one of the ways of this problem: {", ".join(names)}. Send the answer again.'


def liked_after(likes: Mapping[str, str], row: Answer) -> Mapping[str, str]:
    """The likings once that answer is given: what it says of them holds at once."""
    return {**likes, **liked_in(row)} if row.liked else likes


def liked_in(row: Answer) -> dict[str, str]:
    """What an answer says of likings: kind -> strategy."""
    return {worked_as(row.card): row.liked} if row.liked else {}
