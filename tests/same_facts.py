"""The same fact is told alike everywhere: what a parent reads in one command is held against the others.

python -m tests.same_facts BOOK DAY        (of a book that is there, on a day like 2026-11-25)
"""

import contextlib
import io
import json
import re
import sys
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from functools import cache
from typing import Any

from review.cli import run

Tell = Callable[..., str]
"""What a command says, as it stands on the screen: tell("overdue", "Mira", "--all")."""
Row = dict[str, Any]
Facts = dict[str, dict[str, object]]
"""By fact, what each command says of it."""

AT_THE_TABLE = 5  # things to practise at most, as the design has it
LEEWAY = 2  # days past its planned day at which no card is overdue yet
DATELESS = ("child", "verify")


def contradictions(tell: Tell) -> Iterator[str]:
    """Of every child of the book; none, where all commands agree. What is told twice is asked once: a report
    changes nothing."""
    tell = cache(tell)
    names = [row["name"] for row in rows(tell, "child", "list")]
    for name in names:
        found = standing(tell, name) | tried(tell, name) | to_teach(tell, name)
        apart = ((fact, said) for fact, said in found.items() if len({*map(repr, said.values())}) > 1)
        yield from (f"{name}, {fact}: {said}" for fact, said in apart)
        yield from (f"{name}: {one}" for one in amiss(tell, name))
    answers = sum(number(r"Your answers: ([\d,]+)", tell("child", "show", name)) for name in names)
    if answers != one_row(tell, "verify")["answers"]:
        yield f"{answers} answers of the children; verify counts others"


# --- what each says ------------------------------------------------------------------------------------


def standing(tell: Tell, name: str) -> Facts:
    """How many cards stand how."""
    late, brief = rows(tell, "overdue", name, "--all"), one_row(tell, "brief", name)
    cards, states = one_row(tell, "progress", name)["cards"], brief["states"]
    tomorrow = (date.fromisoformat(brief["day"]) + timedelta(days=1)).isoformat()
    ahead = one_row(tell, "pacing", name, "--until", tomorrow)
    in_words, progress = joined(tell("brief", name)), joined(tell("progress", name))
    return {
        "overdue": {
            "overdue --all": sum(row["state"] == "overdue" for row in late),
            "overdue": len(rows(tell, "overdue", name)),
            "brief": states["overdue"],
            "brief in words": number(r"(\d+) overdue", in_words),
            "progress": cards["overdue"],
            "progress in words": number(r"Cards: [^.]* (\d+) overdue\.", progress),
        },
        "fading": {"overdue": sum(row["state"] == "fading" for row in late), "brief": states["fading"]},
        "holding": {
            "brief": states["holding"],
            "progress": cards["holding"],
            "progress in words": number(r"Cards: [^.]* ([\d,]+) holding", progress),
            "pacing": sum(one["holding"] for one in ahead["sets"].values()),
        },
        "met": {
            "brief": min(sum(states.values()), cards["met"]),
            "progress": cards["met"],
        },  # or said to be known
    }


def tried(tell: Tell, name: str) -> Facts:
    """First tries and days of the last four weeks."""
    brief, progress = one_row(tell, "brief", name), one_row(tell, "progress", name)
    log = rows(tell, "log", name)
    practised = sum(day["problems"] > 0 for day in log)
    return {
        "days": {"brief": brief["days"], "progress": progress["days"], "log": practised},
        **{
            key: {"brief": brief[key], "progress": progress[key], "log": sum(day[key] for day in log)}
            for key in ("first_tries", "right")
        },
    }


def to_teach(tell: Tell, name: str) -> Facts:
    brief, stuck = one_row(tell, "brief", name), rows(tell, "stuck", name)
    lessons, said = rows(tell, "teach", name, "--all"), joined(tell("overdue", name))
    again = {row["skill"]: row for row in lessons if row["why"] == "stuck"}
    ready = [row for row in lessons if row["why"] == "ready"]
    return {
        "did not stick": {
            "stuck": sorted(row["skill"] for row in stuck),
            "teach": sorted(again),
            "brief": sorted(brief["stuck"]),
        },
        "how many did not stick": {
            "stuck": len(stuck),
            "overdue": skills_named(said) + number(r"(\d+) more did not stick", said),
            "brief in words": things(tell("brief", name), "Did not stick"),
        },
        "where to begin": {
            "stuck": [row["begin_with"] for row in stuck],
            "teach": [again[row["skill"]]["begin_with"] for row in stuck if row["skill"] in again],
        },
        "ready to teach": {"teach": [row["skill"] for row in ready], "brief": brief["ready"]},
        "the first that is ready": {
            "teach": "".join(row["title"] for row in ready[:1]),
            "overdue": "".join(re.findall(r"Ready to teach: (.*?)\. Then", said)),
        },
    }


# --- what cannot be true together ----------------------------------------------------------------------


def amiss(tell: Tell, name: str) -> Iterator[str]:
    late, said = rows(tell, "overdue", name, "--all"), joined(tell("overdue", name))
    overdue = [row for row in late if row["state"] == "overdue"]
    todays = {row["card"] for row in rows(tell, "warmup", name, "--explain")}
    for words, true in (
        ("Nothing is waiting", not overdue),
        ("Nothing is overdue", not overdue),
        ("to catch up", bool(overdue)),
        (": 1 short warm-up", all(row["card"] in todays for row in overdue)),
        ("Every card that has faded", bool(late)),
    ):
        if words in said and not true:
            yield f"“{words}” with {len(overdue)} overdue"
    soon = [row["card"] for row in overdue if row["days_overdue"] <= LEEWAY]
    yield from (f"{card} is overdue already" for card in soon)
    yield from amiss_at_the_table(one_row(tell, "brief", name)["at_the_table"], said)
    yield from amiss_in_squares(rows(tell, "overdue", name, "--square"), {row["card"] for row in late})
    again = {row["skill"]: len(row["cards"]) for row in rows(tell, "stuck", name)}
    for skill in one_row(tell, "progress", name)["skills"]:  # a card of two skills counts in both
        if skill["holding"] + again.get(skill["skill"], 0) > skill["met"]:
            yield f"{skill['skill']}: what did not stick is holding"
        if skill["overdue"] < sum(row["skill"] == skill["skill"] for row in overdue):
            yield f"{skill['skill']}: fewer overdue in progress than in overdue"


def amiss_at_the_table(table: list[str], said: str) -> Iterator[str]:
    if len(table) > AT_THE_TABLE:
        yield f"{len(table)} things to practise at the table"
    missing = (one for one in table if one.casefold() not in said.casefold())
    yield from (f"{one} is in brief and not in overdue" for one in missing)


def amiss_in_squares(cells: list[Row], faded: set[str]) -> Iterator[str]:
    """What did not stick is that first of all, whether it has faded or not."""
    for cell in cells:
        if cell["sign"] != "?" and (cell["sign"] == "o") != (cell["card"] in faded):
            yield f"{cell['card']} is {cell['sign']} in the square"


# --- what is told, read --------------------------------------------------------------------------------


def rows(tell: Tell, *words: str) -> list[Row]:
    found = json.loads(tell(*words, "--json"))
    return found if isinstance(found, list) else [found]


def one_row(tell: Tell, *words: str) -> Row:
    (row,) = rows(tell, *words)
    return row


def joined(text: str) -> str:
    """Lines that were broken made one."""
    return " ".join(text.split())


def number(pattern: str, text: str) -> int:
    """The number in a sentence; 0 where the sentence does not stand there."""
    found = re.search(pattern, text)
    return int(found[1].replace(",", "")) if found else 0


def skills_named(text: str) -> int:
    """Skills that `overdue` says did not stick: between them stand semicolons."""
    named = re.findall(r" Did not stick: (.*?)\. [A-Z]", text)
    return sum(line.count("; ") + 1 for line in named)


def things(text: str, head: str) -> int:
    """How many things a line of `brief` names or counts."""
    (told,) = re.findall(rf"^{head}: (.*)\.$", text, re.MULTILINE)
    *named, last = told.split("; ")
    more = re.fullmatch(r"(\d+) more", last)
    return 0 if told == "nothing" else len(named) + (int(more[1]) if more else 1)


def main(book: str, day: str) -> None:
    def tell(*words: str) -> str:
        on = () if words[0] in DATELESS else ("--on", day)
        out = io.BytesIO()
        with contextlib.redirect_stdout(io.TextIOWrapper(out, encoding="utf-8", write_through=True)):
            run(["--book", book, *words, *on])
            return out.getvalue().decode()

    found = [*contradictions(tell)]
    print(*found, f"{len(found)} contradictions", sep="\n")


if __name__ == "__main__":
    main(*sys.argv[1:3])
