"""The last two steps of help: the worked steps with one blank, then the worked steps."""

from review.core.model import Help
from review.core.skills.wording import BOX, lines


def worked(*steps: str, at: int = -1) -> tuple[Help, Help]:
    """Each step is an equation or a short sentence. Step `at` is the one whose result is left blank;
    those after it are held back with it."""
    at %= len(steps)
    blank = steps[at].rpartition(" ")[0] + f" {BOX}"
    return Help("blank", lines([*steps[:at], blank])), Help("steps", lines(steps))
