"""Parts of a whole as a strip or on a line: which fraction is it?

The sizes of a class are the denominators it may have.
"""

from collections.abc import Mapping

from review.core.model import Help
from review.core.pictures import Mark, NumberLine, Strip, Strips
from review.core.skills.amounts import mixed, over, titled
from review.core.skills.fraction_errors import line_errors, shaded_errors
from review.core.skills.fraction_sums import under_one
from review.core.skills.tasks import Numbers, Shown, Space, Task, pattern
from review.core.skills.wording import EQUALS, PLUS, counted, in_words
from review.core.skills.worked import worked


def number_line(steps: int, under: int, ends: int) -> NumberLine:
    """From 0 to `ends`, a mark each part, an arrow above one of them."""
    marks = range(under * ends + 1)
    return NumberLine(tuple(Mark(at, "" if at % under else str(at // under)) for at in marks), arrow=steps)


def _shaded(sizes: Numbers, member: Numbers) -> Shown:
    top, under = member
    answer = over(top, under)
    helps = (
        Help("question", "How many equal parts are there?"),
        Help("build", "Fold a strip into equal parts."),
        *worked(f"{under} parts: {over(under, under)} {EQUALS} 1", f"{counted(top, 'part')}: {answer}"),
    )
    shaded = f"{in_words(top).capitalize()} {'is' if top == 1 else 'are'} shaded."
    say = f"A strip has {in_words(under)} equal parts. {shaded} Which fraction?"
    told = f"{answer} is shaded."
    return Shown(
        "Which fraction is shaded?", say, answer, told, helps, "fraction", Strips((Strip(top, under),))
    )


def _point_helps(top: int, under: int) -> tuple[Help, ...]:
    answer = over(top, under)
    apart = f"{answer} {EQUALS} {top // under} {PLUS} {over(top % under, under)}"
    return (
        Help("question", "How many steps make one?"),
        Help("build", "Count the steps with your finger."),
        *worked(
            f"{under} steps: {over(under, under)} {EQUALS} 1",
            f"{counted(top, 'step')}: {answer}",
            *([apart] if top > under else []),
            at=1,
        ),
    )


def _on_line(ends: int) -> Task:
    """Points in the last of so many wholes, none at its ends."""

    def space(sizes: Numbers) -> Space:
        def fits(top: int, under: int) -> bool:
            return (ends - 1) * under < top < ends * under

        return Space((range(1, max(sizes) * ends), sizes), fits)

    def shown(sizes: Numbers, member: Numbers) -> Shown:
        top, under = member
        answer, prompt = mixed(top, under), "Which number is at the arrow?"
        say = f"Each whole has {in_words(under)} steps. The arrow is at step {in_words(top)}. Which number?"
        told, picture = f"The arrow is at {answer}.", number_line(top, under, ends)
        return Shown(prompt, say, answer, told, _point_helps(top, under), "fraction", picture)

    where = "on a number line" if ends == 1 else "past one on a number line"
    title = titled(f"fractions {where}")
    return Task(title, 8.0 + ends, pattern("#/#"), space, shown, "line", line_errors)


TASKS: Mapping[str, Task] = {
    "shaded": Task(
        titled("the shaded part"), 7.0, pattern("#/#"), under_one, _shaded, "shaded", shaded_errors
    ),
    "line": _on_line(1),
    "line-past-one": _on_line(2),
}
