"""Help with facts, over whole spaces: every line of it is worked out again, and leads to the answer."""

import re
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

import pytest

from review.core import skills
from review.core.model import Help, Problem
from review.core.skills.fact_cards import RULES
from tests.core.arithmetic import counted_rightly, equations, ungrouped, value
from tests.core.fact_space import ALL, problem, shown


@pytest.mark.parametrize("kind", ALL)
def test_every_line_of_help_is_true_and_the_last_one_ends_at_the_answer(kind: str) -> None:
    for one in shown(kind):
        text = "\n".join(help.text for help in one.helps)
        for sides in equations(text):
            assert len(set(sides)) == 1, (one.card, one.asked, text)
        steps = ungrouped(one.helps[-1].text)
        assert re.findall(r"\d+", steps)[-1] == one.expected, (one.card, one.asked, steps)
        assert equations(steps) or counted_rightly(steps), (one.card, one.asked, steps)


@pytest.mark.parametrize("kind", ALL)
def test_a_half_in_words_is_half(kind: str) -> None:
    """Halves and doubles come before the signs for times and division: none in their help."""
    said = 0
    for one in shown(kind):
        text = "\n".join(help.text for help in one.helps)
        halves = re.findall(r"Half of (\d+) is (\d+)\.", text)
        said += len(halves)
        assert all(int(whole) == 2 * int(half) for whole, half in halves), (one.asked, text)
        assert kind not in ("sum", "difference", "bond", "double", "half") or not re.search("[×÷]", text)
    assert (said > 0) is (kind == "half")


@pytest.mark.parametrize("kind", ALL)
def test_one_of_a_thing_is_one(kind: str) -> None:
    for one in shown(kind):
        text = "\n".join(help.text for help in one.helps)
        assert not re.search(r"\b1 (counters|plates|dots|children|tens|ones|steps)\b", text), text


# How many tens, and by how much something changes: numbers of their own, also where they are as large as the
# answer.
CHANGES = r"\b\d[\d,]* (more|less|fewer|away|tens?|ones?)\b"


BY_CHANCE = {
    "You know 10 = 9 + 1.", "You know 70 = 63 + 7.",  # 100 = 90 + □, 700 = 630 + □: ten is the whole there
    "Each step is 10.", "Each step is 100.",  # likewise
    "10, 20, 30, ...",  # 200 ÷ 10: twenty of them
    *(f"What makes {2 * one} with {one}?" for one in range(1, 6)),  # 12 = 11 + □
}  # fmt: skip
"""Numbers of another meaning than the answer that is as large."""


def told_early(problem: Problem, helps: Sequence[Help]) -> list[str]:
    """Lines before the blank in which the answer stands as a number, if it does not stand in the prompt."""
    early = [help for help in helps if help.step not in ("blank", "steps")]
    known = set(re.findall(r"\d+", ungrouped(problem.prompt)))
    lines = [line for help in early for line in ungrouped(help.text).split("\n")]
    return [
        line for line in lines if problem.expected in {*re.findall(r"\d+", re.sub(CHANGES, "", line))} - known
    ]


def numbers_of(line: str) -> list[int]:
    return sorted(map(int, re.findall(r"\d+", re.sub(CHANGES, "", ungrouped(line)))))


def told_by_its_family(problem: Problem, helps: Sequence[Help]) -> list[str]:
    """Lines of the neighbour, and of the blank around its gap, that have all the numbers of the fact."""
    asked = [int(number) for number in re.findall(r"\d+", ungrouped(problem.prompt))]
    fact = sorted([*asked, int(problem.expected)])
    near = [line for help in helps if help.step in ("neighbour", "blank") for line in help.text.split("\n")]
    related = [line for line in near if "□" not in line and not re.fullmatch(r"[\d, ]+\.", line)]
    return [line for line in related if numbers_of(line) == fact]


def every_help(kind: str) -> Iterator[tuple[Problem, Sequence[Help]]]:
    """Of every fact, as it is and by every way."""
    for one in shown(kind):
        yield one, one.helps
        for way in skills.ways(one):
            yield one, skills.helps(one, (way.strategy,))


@pytest.mark.parametrize("kind", ALL)
def test_no_help_before_the_steps_tells_the_answer(kind: str) -> None:
    """ "10, 20, 30, ..." told 3 × 10, and "You know 3 × 10 = 30" 30 ÷ 3."""
    for one, helps in every_help(kind):
        told = (one.card, one.asked, [help.text for help in helps])
        assert set(told_early(one, helps)) <= BY_CHANCE, told
        assert not told_by_its_family(one, helps), told


# What is still to be done after "You know ...", as a step from the known result.
STEPS: list[tuple[str, Callable[[Fraction, list[int]], Fraction]]] = [
    (r"One more\. And one more\.", lambda known, n: known + 2),
    (r"One more\.", lambda known, n: known + 1),
    (r"One less\.", lambda known, n: known - 1),
    (r"Two more\.", lambda known, n: known + 2),
    (r"Then double (\d+)\.", lambda known, n: known + 2 * n[0]),
    (r"Ten more\.", lambda known, n: known + 10),
    (r"(\d+) tens? more\.", lambda known, n: known + 10 * n[0]),
    (r"Then (\d+) more\.", lambda known, n: known + n[0]),
    (r"9 is one less than 10\.", lambda known, n: known - 1),
    (r"8 is two less than 10\.", lambda known, n: known - 2),
    (r"Move 1 from (\d+) to (\d+)\.", lambda known, n: known if n[0] - n[1] == 2 else known + 99),
    (r"That is one too many\.", lambda known, n: known + 1),
    (r"That is two too many\.", lambda known, n: known + 2),
    (r"(\d+) is (\d+) more than 10\.", lambda known, n: known + n[0] - 10),
    (r"\d+ and \d+ have ten more\.", lambda known, n: known),
    (r"Take one more\.", lambda known, n: known - 1),
    (r"Take (\d+) (?:more|away)\.", lambda known, n: known - n[0]),
    (r"One more (\d+)\.", lambda known, n: known + n[0]),
    (r"Two more (\d+)s\.", lambda known, n: known + 2 * n[0]),
    (r"(\d+) more (\d+)s\.", lambda known, n: known + n[0] * n[1]),
    (r"One (\d+) fewer\.", lambda known, n: known - n[0]),
    (r"Double it\.", lambda known, n: known * 2),
    (r"Take half of it\.", lambda known, n: known / 2),
]


def reached(neighbour: str) -> Fraction | None:
    """From a known neighbour, by what is said to be left to do; None where nothing is known."""
    found = re.fullmatch(r"You know (.+?)\.\n(.+)", neighbour)
    if not found:
        return None
    known = value(found[1].split("=")[1])
    for pattern, step in STEPS:
        rest = re.fullmatch(pattern, found[2])
        if rest:
            return step(known, [int(number) for number in rest.groups()])
    raise AssertionError(neighbour)


@pytest.mark.parametrize("kind", ["sum", "difference", "product", "double"])
def test_a_known_neighbour_leads_to_the_answer(kind: str) -> None:
    led = 0
    for one in shown(kind):
        if one.card in RULES or "_" in one.card:  # what is missing is found by the operation that undoes
            continue
        neighbour = next(help.text for help in one.helps if help.step == "neighbour")
        if reached(neighbour) is not None:
            led += 1
            assert reached(neighbour) == int(one.expected), (one.asked, neighbour)
    assert led > sum("_" not in key for key in ALL[kind]) / 2


@pytest.mark.parametrize(
    ("card", "asked", "question"),
    [
        ("sum:n+0", "0+7", "What does adding nothing do?"),
        ("sum:n+0", "7+0", "What does adding nothing do?"),
        ("difference:n-0", "7-0", "What does taking nothing do?"),
        ("difference:n-n", "7-7", "How many are left when all go?"),
        ("product:nx0", "7x0", "How many are on empty plates?"),
        ("product:nx1", "1x7", "How many are in one group?"),
    ],
)
def test_a_rule_of_0_or_1_has_a_question_of_its_own_and_no_harder_fact_beside_it(
    card: str, asked: str, question: str
) -> None:
    helps = problem(card, asked).helps
    assert helps[0].text == question
    assert "neighbour" not in [help.step for help in helps]
    assert not [help for help in helps if "You know" in help.text]
    assert [help.step for help in helps][-2:] == ["blank", "steps"]
