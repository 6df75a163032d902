"""What a parent sees who reads the problems out, and the keys that say what the child answered.

From memory, worked out, not yet: one key of three, pressed without looking. Nothing is timed.
"""

from collections.abc import Iterator, Mapping, Sequence
from textwrap import wrap
from typing import NamedTuple

from review.core import skills
from review.core.model import Help, HelpStep
from review.core.text import clean, held, let_go
from review.core.warmup import Show, Word
from review.terminal import WIDTH, YOUR_TURN, apart, dots_lines, picture_lines, text_lines

KEYS: Mapping[str, Word] = {
    **dict.fromkeys(("m", "1", "left"), "memory"),
    **dict.fromkeys(("w", "2", "down"), "worked"),
    **dict.fromkeys(("n", "3", "right"), "not_yet"),
}  # fmt: skip
"""By first letter, by position on either row of numbers, and the three arrow keys that lie side by side."""

HELPS: Mapping[HelpStep, str] = {
    "written": "the problem once more",
    "question": "a question to ask",
    "build": "something to build",
    "neighbour": "a fact that is near",
    "picture": "a picture to show",
    "exchange": "the swap of ten for one",
    "blank": "the steps, with a gap",
    "steps": "the steps",
}
"""What is offered next, named only: what it says is shown, and kept, once it is asked for."""

MEMORY, GLANCE = ("from memory", "worked out"), ("at once", "counted")
GLANCED = "quantity:dots/"
"""How an answer came, by the first two keys: dots are seen at once or counted, never known by heart."""

MEETING = "It may be new: not yet is fine."
BACK_OR_STOP = "b  take back   s  stop"
HIDDEN = "Answer: type a to see it"
BESIDE = "   "  # between two steps on one row
ALL_HELPED = "That was all the help."


class View(NamedTuple):
    """One showing, as the parent has it before them."""

    show: Show
    helps: bool = True  # whether help may be offered at all
    given: tuple[Help, ...] = ()  # help since it was shown
    answer: bool = False  # the answer of a problem with a picture was asked for


def next_help(view: View) -> Help | None:
    """The step to offer next, one further than the last, by the way that help follows."""
    show = view.show
    if not view.helps or show.copying:
        return None
    problem = skills.problem(show.problem.card, show.problem.asked)  # with the steps that are pictures
    steps = skills.helps(problem, show.named, show.liked)
    return next(iter(steps[show.helped + len(view.given) :]), None)


def is_open(view: View) -> bool:
    """Whether the answer stands on the screen: not beside a picture that the child looks at."""
    return view.answer or not view.show.problem.picture


def problem_lines(view: View, in_words: bool = False) -> list[str]:
    """The problem, and its answer where it may stand there; a prompt that is read out as it stands, once."""
    problem = view.show.problem
    prompt = [] if problem.say.endswith(problem.prompt) else hanging("", problem.prompt)
    return [
        "",
        *dots_lines(*view.show.dots, in_words),
        *([YOUR_TURN] if view.show.copying else []),
        *([MEETING] if view.show.first_meeting else []),
        *apart(picture_lines(problem.picture)),
        *hanging("Read out: ", problem.say),
        *prompt,
        *answer_lines(view),
    ]


def answer_lines(view: View) -> list[str]:
    return hanging("Answer: ", skills.shown_answer(view.show.problem)) if is_open(view) else []


def help_lines(view: View) -> list[str]:
    return [line for help in view.given for line in ("", *step_lines(help))]


def step_lines(help: Help) -> list[str]:
    return [*picture_lines(help.picture), *text_lines(help.text)]


def offer(view: View) -> str:
    """What help there is next, in a few words."""
    following = next_help(view)
    return HELPS[following.step] if following else ""


def hanging(label: str, text: str) -> list[str]:
    """A text behind its label, over as many lines as it takes."""
    found = wrap(held(label + clean(text), WIDTH - len(label)), WIDTH, subsequent_indent=" " * len(label))
    return let_go(found) or [label.rstrip()]


def key_lines(view: View) -> list[str]:
    """The keys, a line for each that is pressed often; close together below a picture, so that all of it fits
    on a terminal of 24 rows."""
    if view.show.problem.picture:
        return close_keys(view)
    known, found = said_of(view)
    return ["", f"1  {known}", f"2  {found}", "3  not yet", *help_key(view), BACK_OR_STOP]


def close_keys(view: View) -> list[str]:
    known, found = said_of(view)
    answer = "a  answer   " if view.show.problem.picture else ""
    return [f"1 {known}  2 {found}  3 not yet", *help_key(view), f"{answer}{BACK_OR_STOP}"]


def closest_keys(view: View) -> list[str]:
    """In two lines, and help without its name."""
    known, found = said_of(view)
    others = (
        "a answer" * bool(view.show.problem.picture),
        "? help" * bool(offer(view)),
        "b take back",
        "s stop",
    )
    return [f"1 {known}  2 {found}  3 not yet", "  ".join(filter(None, others))]


def said_of(view: View) -> tuple[str, str]:
    """What the first two keys say."""
    return GLANCE if view.show.problem.card.startswith(GLANCED) else MEMORY


def help_key(view: View) -> list[str]:
    return [f"?  help: {offered}"] if (offered := offer(view)) else []


# --- the page, as it fits -----------------------------------------------------------------------------


def page(view: View, above: Sequence[str], rows: int) -> list[str]:
    """What was said before, the problem, help and keys: all where the terminal has the rows (0: nobody
    knows), else the first that fits of ever shorter ones. Of the shortest, the top may leave the screen."""
    found = list[str]()
    for lines in shorter(view):
        found = [*above, *lines]
        if not rows or len(found) < rows:  # the last line ends on a row of its own
            break
    return found


def shorter(view: View) -> Iterator[list[str]]:
    """The whole page; then without the first steps of help, which were read before the last; then with less
    around the problem, and with its picture alone; at the end beside a picture with two short steps a row, or
    with no other picture than that of the help."""
    for first in range(max(1, len(view.given))):
        given = view._replace(given=view.given[first:])
        yield [*problem_lines(view), *help_lines(given), *key_lines(view)]
    last = [line for help in view.given[-1:] for line in step_lines(help)]
    yield [*close_lines(view), *last, *close_keys(view)]
    yield [*brief_lines(view), *last, *closest_keys(view)]
    if view.show.problem.picture:
        packed = [line for help in view.given[-1:] for line in packed_lines(help)]
        yield [*brief_lines(view), *packed, *closest_keys(view)]
        if any(help.picture for help in view.given[-1:]):
            problem = hanging("", view.show.problem.say)
            yield [*problem, *answer_lines(view), *packed, *closest_keys(view)]


def packed_lines(help: Help) -> list[str]:
    """A step of help with as many of its lines beside each other as a row has room for, where it has no
    columns."""
    lines, rows = text_lines(help.text), list[str]()
    if any(line != " ".join(line.split()) for line in lines):
        return step_lines(help)
    for line in lines:
        beside = f"{rows[-1]}{BESIDE}{line}" if rows else line
        rows = [*rows[:-1], beside] if len(beside) <= WIDTH else [*rows, line]
    return [*picture_lines(help.picture), *rows]


def close_lines(view: View) -> list[str]:
    """The problem without the row of dots."""
    return [
        *([YOUR_TURN] if view.show.copying else []),
        *([MEETING] if view.show.first_meeting else []),
        *picture_lines(view.show.problem.picture),
        *read_lines(view),
        *answer_lines(view),
    ]


def brief_lines(view: View) -> list[str]:
    """The same without what a picture says, once it was read out."""
    picture = picture_lines(view.show.problem.picture)
    read = [] if picture and (view.given or view.answer) else read_lines(view)
    return [*picture, *read, *answer_lines(view)]


def read_lines(view: View) -> list[str]:
    """What is read out, over the whole width; after help, which comes later, as it is written."""
    problem = view.show.problem
    return hanging("", problem.prompt if view.given else f"Read out: {problem.say}")


def how_by_keys(name: str) -> Sequence[str]:
    """How it goes, in two lines."""
    return *hanging("", f"You read out, {name} answers."), "Then press 1, 2 or 3 (or m, w, n)."


def how_by_lines(name: str) -> Sequence[str]:
    return (
        *hanging("", f"You read out, {name} answers."),
        "Type m from memory, w worked out,",
        "n not yet, and Enter. s stops, b takes",
        "the last one back.",
    )
