"""The first run: name, age, where you live, one pick a strand, then two minutes of warm-up at once."""

import sys
from collections.abc import Callable, Collection, Mapping, Sequence
from contextlib import suppress
from typing import NamedTuple

import click

from review import catalogue, config
from review.app import chosen_money, chosen_words, chosen_years, giving, profiles, sittings
from review.cli import fronts
from review.cli.options import WAY_BACK, Back, Call, in_turn, prompted, stopping, unless_back
from review.cli.sets import all_skills, picked, some_of
from review.core import family, homes
from review.core.homes import Home
from review.core.model import STANDARD, SkillSet
from review.core.school_years import AGES, COUNTRIES, bare_label, is_over, is_over_everywhere, place
from review.core.text import clean
from review.errors import Interrupted, Mendable
from review.gather import Outside
from review.render.invoked import bare
from review.render.screen import echo, fitted
from review.shell import word

FIRST_MINUTES = 2.0
BEGINS = 6  # the sets are made from that age on: a younger child is offered what one of six is
# Below it only what every country teaches first, and has behind a child of that age, is likely: one Enter
# marks it as taught, and at six some children have not been to school (our judgement)
YOUNGEST = 7


class Strand(NamedTuple):
    title: str
    kinds: frozenset[str]
    ladder: tuple[str, ...]  # sets one after the other: the last a child has left behind is suggested


# The strands of elementary number work, by the kinds that belong to them (common practice, no source)
STRANDS = (
    Strand(
        "Adding and taking away", frozenset({"sum", "difference", "bond", "double", "half"}),
        ("number-bonds-10", "addition-facts-10", "addition-facts-20"),
    ),
    Strand(
        "Multiplying and dividing", frozenset({"product", "quotient"}),
        ("times-2-5-10", "times-3-4-8", "times-6-7-9"),
    ),
    Strand(
        "Counting and numbers", frozenset({"count-by", "sequence", "quantity", "number-name"}),
        ("dots-to-10", "counting-2-5-10", "counting-3-4-8", "number-names-to-999999"),
    ),
    Strand(
        "Place value", frozenset({"place-value", "compare", "order", "rounding"}),
        ("place-value-to-99", "place-value-to-999", "place-value-to-9999", "place-value-to-999999"),
    ),
    Strand(
        "In the head",
        frozenset({"mental-sum", "mental-difference", "mental-product", "mental-quotient"}),
        ("mental-sums-to-99", "mental-sums-to-999", "mental-products-to-999"),
    ),
    Strand(
        "Money and time", frozenset({"money", "clock", "duration", "timetable"}),
        ("telling-time-hours", "telling-time-five-minutes", "telling-time-minutes", "time-24-hour"),
    ),
    Strand(
        "Measures", frozenset({"convert", "temperature", "shape-measure"}), ("time-units", "metric-length"),
    ),
    Strand(
        "Parts of a whole", frozenset({"fraction", "decimal", "percent"}),
        ("fractions-first", "fractions-parts", "fractions-equal", "decimals-tenths", "decimals-hundredths"),
    ),
)  # fmt: skip
FEW = 5  # sets at first sight; a list of one more is shown whole (our judgement)
BEHIND = 1  # years: what was taught last year may be what is known (our judgement)

Picks = Mapping[str, Sequence[SkillSet]]
"""By the title of a strand."""


def set_up(call: Call) -> None:
    """Ask for one child, give the picked sets as taught, and begin. Nothing is kept before all is asked, so
    who stops on the way is asked again."""
    echo(["This makes a record book for your family. It stays on this computer.", WAY_BACK])
    with stopping(f"Stopped. Nothing is kept yet. To begin again: {bare()}"):
        name, age, home, parts = asked(QUESTIONS)
    picks = [found for sets in parts.values() for found in sets]
    child = profiles.add_child(call.outside, name, age, profiles.USUAL_MINUTES, "", False)
    if home.years != AGES:
        chosen_years.choose(call.outside, home.years)
    if home.money != homes.EVERY:
        chosen_money.choose(call.outside, home.money)
    if home.subject != STANDARD.maths:
        chosen_words.choose(call.outside, {"maths": home.subject})
    for found in picks:
        giving.give_set(call.outside, found.id, child.name, "", all_skills)
    if not picks:
        echo(nothing_taught(child.name))
        return
    way = "You read out." if family.is_aloud(child, age) else "Let the child type."
    echo(["", f"{child.name} starts with a warm-up of two minutes. {way}"])
    sittings.warmup(call.outside, child.name, FIRST_MINUTES, False, True, fronts.chosen(call.plain, False))


def picked_for(outside: Outside, name: str | None) -> None:
    """The same list for a child who is in the book, without the sets that child has."""
    child, age = profiles.child_and_age(outside, name)
    home = Home("", chosen_years.chosen(outside), chosen_money.fitting(outside).money)
    try:
        had = frozenset(one.set_id for one in child.sets)
        picks = asked([lambda told: told._replace(picks=asked_picks(age, home, had))]).picks
    except click.Abort:
        if sys.stdin.isatty():
            raise Interrupted("Stopped. Nothing was given.") from None
        who = word(child.name)
        raise Mendable(
            f"The answers ended early, so nothing was given. One set: review set add SET {who}"
        ) from None
    if not picks:
        echo([f"{clean(child.name)} has every set of this list. All sets: review set list"])
        return
    found = [found for sets in picks.values() for found in sets]
    for one in found:
        giving.give_set(outside, one.id, child.name, "", all_skills)
    told = "; ".join(one.title for one in found) or "nothing new"  # titles have commas
    echo([f"Taught to {clean(child.name)} already: {told}.", f"Start: review warmup {word(child.name)}"])


class Told(NamedTuple):
    """What a parent has said so far at the first run."""

    name: str
    age: int
    home: Home
    picks: Picks


Question = Callable[[Told], Told]
QUESTIONS: Sequence[Question] = (
    lambda told: told._replace(name=asked_name()),
    lambda told: told._replace(age=asked_age(told.name)),
    lambda told: told._replace(home=asked_home(homes.suggested(config.locale_name()))),
    lambda told: told._replace(picks=asked_picks(told.age, told.home)),
)


def asked(questions: Sequence[Question]) -> Told:
    return in_turn(Told("", 0, homes.HOMES[-1], {}), questions)


def asked_name() -> str:
    while not is_usable(name := clean(prompted("The child's first name", None)), YOUNGEST):
        pass
    return name


def asked_age(name: str) -> int:
    while not is_usable(name, age := years_typed(unless_back(prompted("Age in whole years", None)))):
        pass
    return age


def is_usable(name: str, age: int) -> bool:
    """Whether a child may be called so, and be so old; if not, it is told why."""
    try:
        profiles.check_profile(name, age, profiles.USUAL_MINUTES)
    except Mendable as mistake:
        echo([f"{str(mistake).partition(': --')[0].rstrip('.')}."])  # nobody has typed an option here
        return False
    return True


def years_typed(typed: str) -> int:
    """A number of years as it is typed; -1, which is nobody's age, where it is none."""
    word = typed.strip()
    return int(word) if word.isdecimal() and len(word) < 4 else -1


def asked_home(likely: Home) -> Home:
    """What settles school years, money and measures at once; asks again until it is one of the list."""
    known = homes.HOMES.index(likely) + 1
    echo(["", "Where do you live? It settles money, measures and school years."])
    echo(f"  {n}  {home.name}" for n, home in enumerate(homes.HOMES, 1))
    while True:
        typed = unless_back(prompted(f"Number, or Enter for {known}")) or str(known)
        chosen = picked(typed, len(homes.HOMES))
        if chosen is not None and len(chosen) == 1:
            return homes.HOMES[chosen[0] - 1]
        echo([f"Type {one_of(len(homes.HOMES))}, or only Enter."])


def asked_picks(age: int, home: Home, had: frozenset[str] = frozenset()) -> Picks:
    """What is likely at that age, in one list; a number changes its part, Enter takes it as it stands."""
    every = {one.title: offered(one.kinds, age, home.years, one.ladder) for one in STRANDS}
    left = {title: [found for found in sets if found.id not in had] for title, sets in every.items()}
    offers = {title: sets for title, sets in left.items() if sets}
    if not offers:
        return {}
    past = {
        one.title: behind(above(one, had), offers[one.title], age, home)
        for one in STRANDS
        if one.title in offers
    }
    picks: Picks = {title: sets[-1:] for title, sets in past.items()}
    likely_now = f"At {age} this is likely" if age >= BEGINS else f"The sets begin at {BEGINS}, with these"
    echo(["", f"What has been taught already? {likely_now}:"])
    while True:
        echo(pick_lines(picks, "nothing more" if had else "nothing yet"))
        numbers = asked_parts(len(picks))
        if not numbers:
            return picks
        for title in [[*picks][n - 1] for n in numbers]:
            with suppress(Back):  # it stays as it was
                picks = {**picks, title: picked_sets(title, offers[title], age, home, past[title])}
        echo(["", "Taught already:"])


def above(strand: Strand, had: frozenset[str]) -> Strand:
    """With what is left of its ladder for a child who has some of it: a rung below is suggested to nobody."""
    climbed = max((n for n, name in enumerate(strand.ladder, 1) if name in had), default=0)
    return strand._replace(ladder=strand.ladder[climbed:])


def behind(strand: Strand, sets: Sequence[SkillSet], age: int, home: Home) -> Sequence[SkillSet]:
    """What is on the ladder whose years that child has left behind: the furthest, the last, is suggested."""
    by_id = {found.id: found for found in sets}
    climbed = [by_id[name] for name in strand.ladder if name in by_id]
    return [found for found in climbed if is_behind(found, age, home.years)]


def is_behind(found: SkillSet, age: int, choice: str) -> bool:
    if age < YOUNGEST:
        return is_over_everywhere(found.standards, YOUNGEST)
    return is_over(found.standards, found.ages, choice, age)


def pick_lines(picks: Picks, nothing: str) -> list[str]:
    rows = enumerate(picks.items(), 1)
    return [
        f"  {n}  {title}: {'; '.join([one.title for one in found]) or nothing}" for n, (title, found) in rows
    ]


def asked_parts(count: int) -> Sequence[int]:
    """Numbers of the parts to change; none at Enter."""
    echo(["Enter takes it as it is. A number changes its part."])
    while True:
        typed = unless_back(prompted("Number, or Enter"))
        chosen = picked(typed, count)
        if chosen is not None:
            return chosen
        echo([f"Type {some_of(count)}, or only Enter."])


def nothing_taught(name: str) -> list[str]:
    who = word(name)
    return [
        f"{clean(name)} is in the book. Nothing is marked as taught yet, so there is no warm-up.",
        f"The same list again: review set pick {who}",
        f"All sets: review set list. Give one: review set add SET {who}",
    ]


def offered(
    kinds: frozenset[str], age: int, choice: str = AGES, always: Collection[str] = ()
) -> list[SkillSet]:
    """Sets of these kinds for that age and a little younger, youngest first; those that are `always` for
    every older child too, as a ladder is: sums to 20 fade at ten as well, and what came last may be long
    past."""
    old = max(age, BEGINS)
    found = [
        one
        for one in catalogue.whole()
        if one.skills[0].kind in kinds
        and one.ages[0] <= old
        and (old <= one.ages[1] + BEHIND or one.id in always)
        and one.aim != "familiarity"
    ]
    return sorted(found, key=lambda one: place(one.standards, one.ages, choice))


def picked_sets(
    title: str,
    sets: Sequence[SkillSet],
    age: int,
    home: Home = homes.HOMES[-1],
    past: Sequence[SkillSet] = (),
) -> Sequence[SkillSet]:
    """Some of what that child has behind and of the few nearest in age that fit where one lives, or of all
    once a parent asks for more; none at Enter."""
    shown = nearest([found for found in sets if homes.fits(found.id, home.money)], age, past)
    echo(["", f"{title}: which of these have been taught? Enter: none.", *numbered(shown, home.years)])
    while True:
        more = " “more”," if len(shown) < len(sets) else ""
        typed = unless_back(prompted(fitted(f"Numbers,{more} or Enter"))).strip()
        if more and typed.casefold() == "more":
            shown = sets
            echo(numbered(shown, home.years))
            continue
        chosen = picked(typed, len(shown))
        if chosen is not None:
            return [shown[n - 1] for n in chosen]
        echo([f"Type {some_of(len(shown))},{more} or only Enter."])


def one_of(count: int) -> str:
    return "1" if count == 1 else f"one number from 1 to {count}"


def nearest(sets: Sequence[SkillSet], age: int, past: Sequence[SkillSet] = ()) -> Sequence[SkillSet]:
    """What that child has behind, and the few made for about that age, in the order they stand in."""
    if len(sets) <= FEW + 1:
        return sets
    near = sorted(sets, key=lambda one: abs(sum(one.ages) / 2 - age))[:FEW]
    return [one for one in sets if one in near or one in past]


def numbered(sets: Sequence[SkillSet], choice: str) -> list[str]:
    return [f"  {n}  {found.title}{year_of(found, choice)}" for n, found in enumerate(sets, 1)]


def year_of(found: SkillSet, choice: str) -> str:
    """Behind a title, where the family reads school years."""
    return f" ({bare_label(found.standards, found.ages, choice)})" if choice in COUNTRIES else ""
