"""The last two steps of help: the worked steps with one blank, then the worked steps."""

import re
from collections.abc import Iterable

from review.core.model import BOX, Help
from review.core.skills.wording import EQUALS, MINUS, PLUS, TIMES, lines


def worked(*steps: str, at: int = -1) -> tuple[Help, Help]:
    """Each step is an equation or a short sentence. Step `at` is the one whose result is left blank;
    those after it are held back with it."""
    blank = steps[at].rpartition(" ")[0] + f" {BOX}"
    return Help("blank", lines([*steps[:at], blank])), Help("steps", lines(steps))


EITHER_ORDER = re.compile(rf"(\S+) ([{PLUS}{TIMES}]) (\S+)")
STEP = re.compile(r"(\S+) (more|less) than (\S+)")


def without_echo(prompt: str, helps: Iterable[Help]) -> tuple[Help, ...]:
    """A blank that says what the prompt said is no help, and is left out: "19 + 1 = □" under "19 + 1 =" or
    under "1 more than 19 is"."""
    return tuple(
        help for help in helps if help.step != "blank" or _calculation(help.text) != _calculation(prompt)
    )


def _calculation(text: str) -> str:
    """What stands before the gap, in signs; sums and products in one order, for 1 + 409 is 409 + 1."""
    before = re.sub(rf"( {EQUALS}| is|:)?( {BOX}\.?)?$", "", text)
    step = STEP.fullmatch(before)
    written = f"{step[3]} {PLUS if step[2] == 'more' else MINUS} {step[1]}" if step else before
    pair = EITHER_ORDER.fullmatch(written)
    return f" {pair[2]} ".join(sorted((pair[1], pair[3]))) if pair else written
