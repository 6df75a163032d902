"""Word problems as bars: parts and whole, more and fewer; equal groups as rows."""

from review.core.model import BOX, Help, Problem
from review.core.pictures import Array, Bar, Bars, Part, Picture
from review.core.skills.picture_help import Pictures, pictured, shared_bar, task_of
from review.core.skills.word_problems import SORTS, answer
from review.core.skills.wording import grouped


def _story(problem: Problem) -> tuple[Help, ...]:
    sort = SORTS[task_of(problem)]
    a, b = map(int, problem.asked.split(",")[1:])
    roles = sort.parts
    if "whole" in roles:
        return pictured(_bar(roles, (a, b, answer(sort, a, b))), "Is the whole asked, or a part?")
    if "difference" in roles:
        return pictured(_bars(roles, (a, b, answer(sort, a, b))), "Which bar is longer?")
    if task_of(problem) == "share":
        return pictured(shared_bar(grouped(a), b), "How much is one part?")
    return pictured(_groups(task_of(problem), a, b), "A row for each group.")


def _labelled(numbers: tuple[int, ...]) -> list[Part]:
    """The last one is what is asked."""
    *known, asked = numbers
    return [*(Part(number, grouped(number)) for number in known), Part(asked, BOX)]


def _bar(roles: tuple[str, ...], numbers: tuple[int, ...]) -> Bar:
    named = list(zip(roles, _labelled(numbers), strict=True))
    whole = next(part.label for role, part in named if role == "whole")
    return Bar(tuple(part for role, part in named if role == "part"), whole)


def _bars(roles: tuple[str, ...], numbers: tuple[int, ...]) -> Bars:
    named = dict(zip(roles, _labelled(numbers), strict=True))
    return Bars((named["more"], named["fewer"]), named["difference"].label)


def _groups(task: str, a: int, b: int) -> Picture:
    if task == "groups":
        return Array(a, b, 5 if b > 5 else 0, 5 if a > 5 else 0)
    rows, rest = divmod(a, b)
    return Array(rows, b, 5 if b > 5 else 0, 5 if rows > 5 else 0, rest, asked="rows")


PICTURES: Pictures = {"word-problem": _story}
