"""The marks of a sheet as a parent types them, and the answers they stand for.

One line a sitting: the numbers that were not from memory, each with its sign as on the paper; everything else
counts as ticked. Or a sign for each problem, in their order.
"""

import re
from collections.abc import Sequence
from typing import Literal, NamedTuple

from review.core import answers, house_words, marking, skills
from review.core.model import STANDARD, Answer, Mark, Words
from review.core.sheets import Made, Task
from review.core.text import clean, plural

How = Literal["from memory", "worked out", "not yet", "left out"]
HOWS: tuple[How, ...] = ("from memory", "worked out", "not yet", "left out")

SIGNS: dict[str, How] = {
    "v": "from memory", "✓": "from memory", ".": "worked out", "•": "worked out", "·": "worked out",
    "o": "not yet", "○": "not yet", "x": "left out", "-": "left out",
}  # fmt: skip
"""As they are drawn on paper, or typed for it: a tick, a dot, a ring; x for a problem that was left out."""

EVERY_ONE = ("all", "v")
LONGEST = 40  # of what a child wrote
GIVEN = r"""(?:"[^"]*"|[^\s;]*[^\s;,])"""
ONE = re.compile(
    rf"""(?P<n>\d{{1,2}})\s*
    (?: (?P<sign>[v✓.•·x]) | (?P<ring>[o○])?\s*=\s*(?P<given>{GIVEN}) | (?P<alone>[o○]) | (?P<rest>-) )
    (?: [\s,;]+(?:and\s+)? | $ )""",
    re.VERBOSE,
)
NUMBER = re.compile(r"\d{1,3}(?=[\s,;]|$)")
IN_ORDER = re.compile(r"[v✓.•·o○x-]+")
MEANS = "Write 3. for a dot and 7o for a ring, or all where all are ticked."


class Marked(NamedTuple):
    """One problem of a part, counted from 1, with how it was found."""

    n: int
    how: How
    given: str = ""  # what stands on the paper, where the parent typed it: only of what is not known yet


class Unread(ValueError):
    """A line of marks that cannot be read: a sentence that says why, and what is meant."""


def read(line: str, tasks: Sequence[Task], words: Words = STANDARD) -> tuple[Marked, ...]:
    """A mark for every problem, and one at least that was done."""
    found = read_any(line, tasks, words)
    if all(one.how == "left out" for one in found):
        raise Unread("Every problem is left out: there is nothing to keep.")
    return found


def read_any(line: str, tasks: Sequence[Task], words: Words = STANDARD) -> tuple[Marked, ...]:
    text = line.strip().casefold().replace("✔", "✓")
    count = len(tasks)
    if not text:
        raise Unread(f"There are no marks in it. {MEANS}")
    if text in EVERY_ONE:
        return tuple(Marked(n, "from memory") for n in range(1, count + 1))
    if IN_ORDER.fullmatch(text.replace(" ", "")):
        return in_order(text.replace(" ", ""), count)
    return by_number(text, tasks, words)


def in_order(signs: str, count: int) -> tuple[Marked, ...]:
    if len(signs) != count:
        few = "This is" if len(signs) == 1 else "These are"
        raise Unread(f"{few} {plural(len(signs), 'sign')} for {plural(count, 'problem')}. {MEANS}")
    return tuple(Marked(n, SIGNS[sign]) for n, sign in enumerate(signs, 1))


def by_number(text: str, tasks: Sequence[Task], words: Words) -> tuple[Marked, ...]:
    """Numbers with their signs; `11-` leaves out everything from 11 on."""
    count = len(tasks)
    found = {n: Marked(n, "from memory") for n in range(1, count + 1)}
    seen: set[int] = set()
    for one in marks_of(text, count):
        n = int(one["n"])
        if not 1 <= n <= count:
            raise Unread(f"There is no number {n} in this sitting: it has {plural(count, 'problem')}.")
        if n in seen:
            raise Unread(f"Number {n} stands there twice. Write each number once.")
        reached = range(n, count + 1) if one["rest"] else (n,)
        found |= {at: marked(at, one, tasks[at - 1], words) for at in reached}
        seen.update(reached)
    return tuple(found.values())


def marks_of(text: str, count: int) -> list[re.Match[str]]:
    """Each mark of a line, one after the other."""
    found, at = list[re.Match[str]](), 0
    while at < len(text):
        one = ONE.match(text, at)
        if one is None:
            raise Unread(no_sign(text[at:], count) or f"“{clean(text[at:])}” is no mark. {MEANS}")
        found.append(one)
        at = one.end()
    return found


def no_sign(text: str, count: int) -> str:
    """For a problem's number alone, perhaps with a nought for a ring; "" for anything else."""
    number = NUMBER.match(text)
    if number is None:
        return ""
    known = [n for n in (number[0], number[0].removesuffix("0")) if n and 1 <= int(n) <= count]
    if not known:
        return ""
    asked = f"Was it worked out, {known[0]}. with a dot, or not yet, {known[0]}o with the letter o?"
    return f"{number[0]} has no sign. {asked}"


def marked(n: int, one: re.Match[str], task: Task, words: Words) -> Marked:
    stands = clean((one["given"] or "").strip('"'))[:LONGEST]
    asked = skills.problem(task.card, task.asked)
    given = house_words.standard(stands, asked, words)
    if given and answers.judge(asked, given) == "right":
        raise Unread(
            f"Number {n}: {stands} is what is asked for. Mark it as worked out, {n}., or leave it out."
        )
    return Marked(n, SIGNS[one["sign"] or one["rest"] or "o"], given)


# --- answers ------------------------------------------------------------------------------------------

MARKS: dict[How, tuple[Mark, Literal["", "yes", "no"]]] = {
    "from memory": ("right", "yes"),
    "worked out": ("right_slow", "no"),
    "not yet": ("not_yet", ""),
}


def answers_of(made: Made, part: int, some: Sequence[Marked], age: int, untimed: bool) -> list[Answer]:
    """The answers of a part, counted from 1, as they are logged; what was left out is none."""
    tasks = made.parts[part - 1].tasks
    known = (one for one in some if one.how != "left out")
    return [answered(made, part, tasks[one.n - 1], one, age, untimed) for one in known]


def answered(made: Made, part: int, task: Task, one: Marked, age: int, untimed: bool) -> Answer:
    """Without times: nobody measured any. What was ticked or dotted is what was expected."""
    expected = skills.problem(task.card, task.asked).expected
    mark, recalled = MARKS[one.how]
    return Answer(
        task.card,
        task.asked,
        expected,
        one.given if mark == "not_yet" else expected,
        mark,
        task.role,
        taken="paper",
        aim=task.aim,
        age=age,
        slow_ms=made.slow_ms if task.card in made.timed else 0,
        recalled=recalled,
        rule=marking.RULE,
        untimed=int(untimed),
        sheet=made.number,
        part=part,
    )
