"""`review set new`: a few questions, then a commented file that passes `review set check`."""

import re
import sys
import unicodedata
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple, TypeVar

from review import catalogue, files
from review.cli.options import prompted
from review.core.set_tables import OLDEST, YOUNGEST
from review.core.text import clean
from review.core.toml_text import quoted
from review.errors import Mendable
from review.render.screen import echo

LONGEST_TITLE = 60
USUAL_AGES = (6, 9)
KINDS = ("pairs", "template", "times-table")

T = TypeVar("T")
Pair = tuple[str, str]


class Start(NamedTuple):
    """What a set begins with."""

    title: str
    ages: tuple[int, int]
    kind: str
    pairs: tuple[Pair, ...] = ()  # none: an example stands in their place

    @property
    def id(self) -> str:
        """Of the title, in small letters and hyphens; never the name of a shipped set."""
        letters = unicodedata.normalize("NFKD", self.title.casefold()).encode("ascii", "ignore").decode()
        name = "-".join(re.findall(r"[a-z0-9]+", letters))[:45].strip("-") or "our-set"
        return f"{name}-ours" if name in catalogue.names() else name


# --- questions ----------------------------------------------------------------------------------------


def asked(title: str | None, ages: tuple[int, int] | None, kind: str | None) -> Start:
    """What the options have not told is asked at the terminal; where nobody is there, a title is needed."""
    person = sys.stdin.isatty()
    if title is None and not person:
        raise Mendable(
            "Nobody can be asked here: this is not a terminal. "
            'Give at least a title: review set new our-words.toml --title "Our words"'
        )
    wanted = as_title(title) if title is not None else asked_until_read(as_title, "What is it called?")
    start = Start(wanted, as_ages(ages or USUAL_AGES), kind or KINDS[0])
    if title is not None or not person:
        return start
    start = start._replace(ages=start.ages if ages else asked_ages(), kind=kind or asked_kind())
    return start._replace(pairs=tuple(asked_pairs())) if start.kind == "pairs" else start


def asked_ages() -> tuple[int, int]:
    return asked_until_read(read_ages, "For which ages?", "{} {}".format(*USUAL_AGES))


def asked_kind() -> str:
    echo(["What is in it?", "  1  questions and answers", "  2  sums with letters", "  3  times tables"])
    return asked_until_read(read_kind, "Number", "1")


def asked_until_read(read: Callable[[str], T], question: str, usual: str | None = None) -> T:
    """What was typed, read; asked again until it can be. `usual`: what Enter alone stands for."""
    while True:
        try:
            return read(prompted(question, usual))
        except Mendable as mistake:
            echo([str(mistake)])


def as_title(text: str) -> str:
    title = clean(text)[:LONGEST_TITLE].strip()
    if not title:
        raise Mendable("A set needs a title. A few words will do.")
    return title


def as_ages(ages: tuple[int, int]) -> tuple[int, int]:
    if not YOUNGEST <= ages[0] <= ages[1] <= OLDEST:
        raise Mendable(f"Write two ages from {YOUNGEST} to {OLDEST}, the younger one first, like 6 9.")
    return ages


def read_ages(text: str) -> tuple[int, int]:
    numbers = re.findall(r"[0-9]{1,3}", text) or ["0"]
    return as_ages((int(numbers[0]), int(numbers[-1])))


def read_kind(text: str) -> str:
    if text.strip() in KINDS:
        return text.strip()
    if text.strip() not in {"1", "2", "3"}:
        raise Mendable("Type 1, 2 or 3.")
    return KINDS[int(text) - 1]


def asked_pairs() -> list[Pair]:
    """Questions with their answers until Enter alone."""
    echo(["Type each question, then its answer. Enter alone ends."])
    pairs: list[Pair] = []
    while True:
        prompt = clean(prompted("Question"))
        answer = clean(prompted("Answer")) if prompt else ""
        if not answer:
            return pairs
        pairs = kept(pairs, (prompt, answer))


def kept(pairs: Sequence[Pair], pair: Pair) -> list[Pair]:
    """With one more, where the set would still be one that can be used; else why not."""
    text = set_text(Start("A", USUAL_AGES, "pairs", (*pairs, pair)))
    try:
        catalogue.checked(text, "this one")
    except Mendable as mistake:
        echo([str(mistake).partition(": ")[2]])
        return [*pairs]
    return [*pairs, pair]


# --- the file -----------------------------------------------------------------------------------------


def written(start: Start, file: Path | None) -> Path:
    """The new file; nothing that is there is written over."""
    path = file or Path(f"{start.id}.toml")
    if path.suffix != ".toml":
        raise Mendable(f"The name of a set ends in .toml: {clean(path.name)}.toml")
    if files.is_there(path):
        raise Mendable(f"{clean(str(path))} is there already. Choose another name.")
    text = set_text(start)
    catalogue.checked(text, path.name)
    try:
        files.write_whole(path, text.encode())
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise Mendable(f"{clean(str(path))} cannot be written ({reason}). Choose another folder.") from error
    return path


def set_text(start: Start) -> str:
    return HEAD.format(
        id=quoted(start.id), title=quoted(start.title), low=start.ages[0], high=start.ages[1]
    ) + BODIES[start.kind](start)


def pairs_text(start: Start) -> str:
    pairs = start.pairs or (("Legs of two hens:", "4"), ("The month after June:", "July"))
    rows = "".join(f"  [{quoted(prompt)}, {quoted(answer)}],\n" for prompt, answer in pairs)
    return PAIRS.format(id=quoted(f"{start.id}-words"), rows=rows)


HEAD = """\
# A skill set. Lines that begin with # are notes; change whatever you like.
# When you are done: review set check THIS-FILE, then review set add THIS-FILE CHILD

[set]
id = {id}  # the name in commands: small letters, digits, hyphens
title = {title}
about = ""  # what it is for, in a sentence
aim = "accuracy"  # or "fluency": from memory; or "familiarity": to have met it
ages = [{low}, {high}]

# A skill is one idea. Its cards come once you say: review taught SKILL
# Write [[skill]] again, with another id, for the next idea.
"""
PAIRS = """
[[skill]]
id = {id}
title = "Questions and answers"
kind = "pairs"
# Each question with its answer, 40 and 30 characters at most. A number may stand without quotes.
# A list of your own beside this file does as well: take the list out and write file = "words.csv"
# "g or kg? An apple: 150" with "g" asks for a unit; “°C” or “°F” in a question, for degrees.
pairs = [
{rows}]
"""
TEMPLATE = """
[[skill]]
id = {id}
title = "A sum with letters"
kind = "template"
show = "a × b + c"  # or words and letters: ["Boxes:", "a", ", in each:", "b", ". In all:"]
letters = {{ a = [2, 9], b = [2, 5], c = [1, 9] }}  # from and to
answer = "a * b + c"  # with + - * / and brackets; a // b and a % b: the whole part, and what is over
where = "a > b"  # only such numbers; leave it out where any will do
# as = "fraction"  # where the answer is one, like "a / b": also "simplest" or "mixed", for 1 1/2
"""
TABLE = """
[[skill]]
id = {id}
title = "Times facts"
kind = "product"
tables = [2, 5]  # add others
times = [2, 10]  # from and to
"""

BODIES: dict[str, Callable[[Start], str]] = {
    "pairs": pairs_text,
    "template": lambda start: TEMPLATE.format(id=quoted(f"{start.id}-sums")),
    "times-table": lambda start: TABLE.format(id=quoted(f"{start.id}-times")),
}
