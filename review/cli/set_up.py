"""The first run: name, age, one pick a strand, then two minutes of warm-up at once."""

from collections.abc import Sequence

import click

from review import app, catalogue, chosen_years, sittings
from review.cli import fronts
from review.cli.options import Call
from review.cli.sets import all_skills, picked
from review.core import family
from review.core.model import SkillSet
from review.core.school_years import AGES, CHOICES, COUNTRIES, bare_label, place
from review.core.text import in_words
from review.errors import Mendable
from review.render.screen import echo, fitted

FIRST_MINUTES = 2.0

# The strands of elementary number work, by the kinds that belong to them (common practice, no source)
STRANDS: tuple[tuple[str, frozenset[str]], ...] = (
    ("Adding and taking away", frozenset({"sum", "difference", "bond", "double", "half"})),
    ("Multiplying and dividing", frozenset({"product", "quotient"})),
    ("Counting and numbers", frozenset({"count-by", "sequence", "quantity", "number-name"})),
    ("Place value", frozenset({"place-value", "compare", "order", "rounding"})),
    ("In the head", frozenset({"mental-sum", "mental-difference", "mental-product", "mental-quotient"})),
    ("Money and time", frozenset({"money", "clock", "duration", "timetable"})),
    ("Measures", frozenset({"convert", "temperature", "shape-measure"})),
    ("Parts of a whole", frozenset({"fraction", "decimal", "percent"})),
)
PICK = "Pick what has been taught already, one for each part. Enter leaves it out."
FEW = 5  # sets at first sight; a list of one more is shown whole (our judgement)
BEHIND = 1  # years: what was taught last year may be what is known (our judgement)


def set_up(call: Call) -> None:
    """Ask for one child, give the picked sets as taught, and begin."""
    echo(["This makes a record book for your family. It stays on this computer."])
    while True:
        name = click.prompt("The child's first name")
        age = click.prompt("Age in whole years", type=int)
        try:
            child = app.add_child(call.outside, name, age, app.USUAL_MINUTES, "", False)
            break
        except Mendable as mistake:
            echo([str(mistake)])
    choice = asked_years()
    if choice != AGES:
        chosen_years.choose(call.outside, choice)
    echo(["", PICK])
    given = [
        app.give_set(call.outside, found.id, child.name, "", all_skills)
        for title, kinds in STRANDS
        for found in picked_set(title, offered(kinds, age, choice), age, choice)
    ]
    if not given:
        echo(["Nothing was picked. See the sets: review set list"])
        return
    way = "You read out." if family.is_aloud(child, age) else "Let the child type."
    echo(["", f"{child.name} starts with a warm-up of two minutes. {way}"])
    sittings.warmup(call.outside, child.name, FIRST_MINUTES, False, True, fronts.chosen(call.plain, False))


def asked_years() -> str:
    """Whose school years the family reads; asks again until it is one of them, or nothing."""
    names = in_words([*COUNTRIES], "or")
    echo(["Whose school years do you go by? Only Enter: by age."])
    while True:
        typed = click.prompt(names.capitalize(), default=AGES, show_default=False)
        if typed.strip().casefold() in CHOICES:
            return str(typed).strip().casefold()
        echo([f"Type {names}, or only Enter."])


def offered(kinds: frozenset[str], age: int, choice: str = AGES) -> list[SkillSet]:
    """Sets of these kinds for that age and a little younger, youngest first."""
    found = [
        one
        for one in catalogue.whole()
        if one.skills[0].kind in kinds
        and one.ages[0] <= age <= one.ages[1] + BEHIND
        and one.aim != "familiarity"
    ]
    return sorted(found, key=lambda one: place(one.standards, one.ages, choice))


def picked_set(title: str, sets: Sequence[SkillSet], age: int, choice: str = AGES) -> Sequence[SkillSet]:
    """One of the few nearest in age, or of all once a parent asks for more; none at Enter."""
    if not sets:
        return ()
    shown = nearest(sets, age)
    echo(["", title, *numbered(shown, choice)])
    while True:
        more = " “more”," if len(shown) < len(sets) else ""
        typed = click.prompt(fitted(f"Number,{more} or Enter"), default="", show_default=False).strip()
        if more and typed.casefold() == "more":
            shown = sets
            echo(numbered(shown, choice))
            continue
        chosen = picked(typed, len(shown))
        if chosen is not None and len(chosen) <= 1:
            return [shown[n - 1] for n in chosen]
        echo([f"Type one number from 1 to {len(shown)},{more} or only Enter."])


def nearest(sets: Sequence[SkillSet], age: int) -> Sequence[SkillSet]:
    """The few made for about that age, in the order they stand in."""
    if len(sets) <= FEW + 1:
        return sets
    near = sorted(sets, key=lambda one: abs(sum(one.ages) / 2 - age))[:FEW]
    return [one for one in sets if one in near]


def numbered(sets: Sequence[SkillSet], choice: str) -> list[str]:
    return [f"  {n}  {found.title}{year_of(found, choice)}" for n, found in enumerate(sets, 1)]


def year_of(found: SkillSet, choice: str) -> str:
    """Behind a title, where the family reads school years."""
    return f" ({bare_label(found.standards, found.ages, choice)})" if choice in COUNTRIES else ""
