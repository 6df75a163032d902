"""What must hold of every problem that is drawn, told by an evaluator of its own."""

import re
from collections import Counter
from collections.abc import Callable, Collection, Iterable
from fractions import Fraction
from functools import lru_cache
from random import Random

from hypothesis import strategies as st

from review.core.answers import judge
from review.core.drawn import drawn
from review.core.keys import well_formed
from review.core.model import HELP_STEPS, Problem
from review.core.skills.kinds import Kind

Term = Callable[[str], Fraction]
SOURCES = st.integers(0, 2**32 - 1).map(Random)  # of random numbers
NEVER = re.compile(r"\b(wrong|easy|quick|overdue|correct|just|still|clever|right|well done)\b", re.I)
COLUMNS = 40


UNITS = {"one": 1, "ten": 10, "hundred": 100}


def seen(problem: Problem) -> tuple[str, ...]:
    """The picture above the prompt, line by line."""
    return drawn(problem.picture) if problem.picture else ()


def number(term: str) -> Fraction:
    """42, or so many of a place: 8 tens."""
    count, _, unit = term.replace(",", "").partition(" ")
    return Fraction(count) * (UNITS[unit.removesuffix("s")] if unit else 1)


def _product(side: str, term: Term) -> Fraction:
    first, *rest = re.split(r" ([×÷]) ", side)
    value = term(first)
    for sign, factor in zip(rest[::2], rest[1::2], strict=True):
        value = value * term(factor) if sign == "×" else value / term(factor)
    return value


@lru_cache(50_000)  # the same sides stand in help after help
def value_of(side: str, term: Term = number) -> Fraction:
    """Of a sum of products."""
    first, *rest = re.split(r" ([+−]) ", side)
    return _product(first, term) + sum(
        (1 if sign == "+" else -1) * _product(part, term)
        for sign, part in zip(rest[::2], rest[1::2], strict=True)
    )


def holds(line: str, term: Term = number) -> bool | None:
    """Whether an equation or comparison is true; None for a sentence."""
    sides = re.split(r" ([<=>]) ", line.rpartition(": ")[2])
    if len(sides) == 1:
        return None
    values = [value_of(side, term) for side in sides[::2]]
    tests = {"<": Fraction.__lt__, "=": Fraction.__eq__, ">": Fraction.__gt__}
    return all(
        tests[sign](left, right)
        for sign, left, right in zip(sides[1::2], values[:-1], values[1:], strict=True)
    )


def in_order(problem: Problem) -> bool:
    """From least to most, each step once, and ending in the worked steps after their blank, which may be left
    out where it would say what the prompt says."""
    names = [help.step for help in problem.helps]
    steps = [HELP_STEPS.index(name) for name in names]
    ends = names[-1:] == ["steps"] and (names[-2:-1] == ["blank"] or is_worked_out(problem))
    return steps == sorted(set(steps)) and ends


WORDED = re.compile(r"(\S+) (more|less) than (\S+)")


def is_worked_out(problem: Problem) -> bool:
    """Whether the worked steps are the prompt and its answer: 19 + 1 = 20 of "1 more than 19 is"."""
    asked = re.sub(r"( in Roman numerals.*:| =( □ [cp])?| is)$", "", problem.prompt)
    worded = WORDED.fullmatch(asked)
    if worded:
        asked = f"{worded[3]} {'+' if worded[2] == 'more' else '−'} {worded[1]}"
    return problem.helps[-1].text.rpartition(" = ")[0] == asked


def blank_fits(problem: Problem) -> bool:
    """The blank is the beginning of the worked steps, with one result of its last line held back, which may
    stand there twice: 8 = □ + □."""
    if problem.helps[-2].step != "blank":
        return True
    blank, steps = (help.text.split("\n") for help in problem.helps[-2:])
    once = re.escape(blank[-1]).replace("□", "(?P<held>[^ ]+)", 1).replace("○", "(?P<held>[<=>])")
    last = re.fullmatch(once.replace("□", "(?P=held)"), steps[len(blank) - 1])
    return blank[:-1] == steps[: len(blank) - 1] and bool(last and last.groupdict().get("held"))


def _tokens(text: str) -> set[str]:
    return set(re.findall(r"\d[\d,]*|[IVXLCDM]+\b|[<=>]", text.replace(",", "")))


def gives_away(problem: Problem) -> bool:
    """Whether a question or the counters say the answer, unless the prompt itself has that number."""
    early = [help.text for help in problem.helps if help.step in ("question", "build")]
    answer = {problem.expected} | set(problem.expected.split(" "))
    return bool(_tokens(" ".join(early)) & answer - _tokens(problem.prompt))


def _is_sentence(line: str) -> bool:
    return not re.search(r" [<=>○] ", line)


def for_a_child(problem: Problem) -> bool:
    """Lines of at most 40 columns, sentences under 8 words, no verdict and no hurry."""
    helps = [line for help in problem.helps for line in help.text.split("\n")]
    sentences = [part for line in helps if _is_sentence(line) for part in re.split(r"(?<=[.?!]) ", line)]
    return (
        all(len(line) <= COLUMNS for line in [problem.prompt, *problem.told.split("\n"), *helps])
        and all(len(sentence.split()) < 8 for sentence in sentences)
        and not NEVER.search("\n".join([problem.prompt, problem.say, problem.told, *helps]))
    )


def assert_sound(problem: Problem, term: Term = number) -> None:
    """All of the above, at once."""
    told = f"{problem.card} {problem.asked}"
    assert well_formed(problem.card, problem.asked), told
    assert judge(problem, problem.expected) == "right", told
    assert in_order(problem), told
    assert blank_fits(problem), told
    assert not gives_away(problem), told
    assert for_a_child(problem), told
    found = [holds(line, term) for line in problem.helps[-1].text.split("\n")]
    assert False not in found, told
    assert True in found, told


def assert_uniform(kind: Kind, key: str, members: Collection[str], each: int = 40) -> None:
    """Draws from a class hit its members and nothing else, each as often as chance has it.

    Pearson's chi-squared against its mean plus five standard deviations (k - 1 and the root of 2(k - 1)),
    on a fixed seed, so that the test always ends alike.
    """
    random = Random(key)
    drawn = Counter(kind.draw(key, random) for _ in range(each * len(members)))
    assert set(drawn) <= set(members), sorted(set(drawn) - set(members))[:5]
    spread = sum((drawn[member] - each) ** 2 / each for member in members)
    free = len(members) - 1
    assert spread <= free + 5 * (2 * free) ** 0.5 + 1e-9


def refuses(kind: Kind, key: str, strangers: Iterable[str]) -> list[str]:
    """Those of `strangers` the kind takes for members of the class: none, if all is well."""

    def taken(asked: str) -> bool:
        try:
            kind.problem(key, asked)
        except ValueError:
            return False
        return True

    return [asked for asked in strangers if taken(asked)]
