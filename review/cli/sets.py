"""`review set`."""

import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import click

from review import catalogue, gather
from review.app import chosen_money, chosen_words, chosen_years, giving, own_sets
from review.catalogue import Head
from review.cli import authoring
from review.cli.group import Group
from review.cli.options import Call, Number, prompted, with_call, with_clock
from review.core import homes, skills
from review.core.model import AIMS, SkillSet
from review.core.preview import preview
from review.core.school_years import CHOICES, COUNTRIES
from review.core.text import clean
from review.errors import SetMistakes
from review.render import given_lines, kind_lines, set_lines
from review.render.screen import echo, echo_json, table
from review.shell import word


@click.group(name="set", cls=Group)
def sets() -> None:
    """Skill sets: see them, give them to a child, check your own.

    \b
    Examples:
      review set list
      review set show addition-facts-10
      review set add addition-facts-10 Mira
      review set check our-sums.toml
      review set kinds fraction
      review set years england
      review set money pounds
      review set new our-words.toml --title "Our words"
    """


@sets.command("list", short_help="List the sets: the program's, then your own.")
@click.option("--all", "every", is_flag=True, help="Also those for other money and measures than yours.")
@with_call(json=True)
def list_sets(call: Call, every: bool) -> None:
    """List the skill sets: those that come with the program, then your own.

    A set of your own is here once it was given to a child: the book keeps it.

    \b
    Examples:
      review set list
      review set list --all
    """
    heads, own = catalogue.heads(), own_sets.heads(call.outside)
    if call.as_json:
        echo_json([*map(set_lines.head_row, [*heads, *own])])
        return
    fitting = chosen_money.Fitting() if every else chosen_money.fitting(call.outside)
    shown = [head for head in heads if fitting.shows(head.id)]
    told = set_lines.in_words_of(shown, chosen_words.chosen(call.outside))
    show_heads(told, own, chosen_years.chosen(call.outside), call.plain)
    echo(set_lines.below_heads(len(heads) - len(shown)))


def show_heads(heads: Sequence[Head], own: Sequence[Head], choice: str, plain: bool) -> None:
    """One table, or the same in sentences: by ages, or under the school years the family reads."""
    if choice not in COUNTRIES:
        cells = [*map(set_lines.head_cells, heads), *set_lines.own_cells(own)]
        sentences = [*map(set_lines.head_sentence, heads), *set_lines.own_sentences(own)]
        table(set_lines.SET_HEADS, cells, sentences, plain)
    else:
        groups = set_lines.by_year(heads, own, choice)
        said = set_lines.year_sentences(groups, choice)[1:]
        table(set_lines.year_heads(choice), set_lines.year_cells(groups, choice), said, plain)


@sets.command()
@click.argument("name", metavar="SET")
@with_call(json=True)
def show(call: Call, name: str) -> None:
    """Show a set: what it is for, its skills, a problem of each.

    SET is a name from the list, or a file of your own.

    \b
    Example:
      review set show place-value-to-99
    """
    wanted = own_sets.wanted(call.outside, name)
    if call.as_json:
        echo_json(set_lines.set_whole(wanted.found))
        return
    words = chosen_words.chosen(call.outside)
    found = wanted.found if wanted.text else gather.own_words(wanted.found, words)
    echo(set_lines.set_shown(found, wanted.name, chosen_years.chosen(call.outside), words))


@sets.command()
@click.argument("kind", required=False)
@with_call(json=True)
def kinds(call: Call, kind: str | None) -> None:
    """Show what skills can ask, for a set of your own.

    With a KIND: what it takes, and an example to copy.

    \b
    Examples:
      review set kinds
      review set kinds fraction
    """
    found = None if kind is None else catalogue.guide(kind, fits_at_home(call))
    if call.as_json:
        echo_json(kind_lines.guide_row(found) if found else kind_lines.rows(skills.KINDS))
    elif found:
        echo(kind_lines.shown(found))
    else:
        every = skills.KINDS
        table(kind_lines.HEADS, kind_lines.cells(every), kind_lines.sentences(every), call.plain)
        echo(kind_lines.BELOW)


def fits_at_home(call: Call) -> Callable[[str], bool]:
    money = chosen_money.fitting(call.outside).money
    return lambda set_id: homes.fits(set_id, money)


@sets.command()
@click.argument("name", metavar="SET")
@click.argument("child", required=False)
@click.option("--taught", is_flag=True, help="All its skills have been taught already.")
@click.option("--aim", type=click.Choice(AIMS), help="To be met, right, or right from memory.")
@with_call(on=True)
def add(call: Call, name: str, child: str | None, taught: bool, aim: str | None) -> None:
    """Give a set to a child. It asks which of the skills are taught already.

    \b
    Examples:
      review set add times-2-5-10 Mira
      review set add our-sums.toml Mira --taught
    """
    asks = asked_taught if sys.stdin.isatty() else none_taught
    known = all_skills if taught else asks
    given = with_clock(call.outside, lambda outside: giving.give_set(outside, name, child, aim or "", known))
    echo(given_lines.set_given(given, asked=taught or sys.stdin.isatty()))


def all_skills(found: SkillSet) -> list[str]:
    return [skill.id for skill in found.skills]


def none_taught(found: SkillSet) -> list[str]:
    return []


def asked_taught(found: SkillSet) -> list[str]:
    """Ask at the terminal: numbers, `all`, or Enter for none; asks again until it can be read."""
    echo([f"{found.title}. Which of these have been taught already?"])
    echo([f"  {n}  {skill.title}" for n, skill in enumerate(found.skills, 1)])
    while True:
        typed = prompted("Numbers, all, or Enter for none")
        chosen = picked(typed, len(found.skills))
        if chosen is not None:
            return [found.skills[n - 1].id for n in chosen]
        echo([f"Type {some_of(len(found.skills))}, or all, or only Enter."])


def some_of(count: int) -> str:
    return "1" if count == 1 else f"numbers from 1 to {count}, like 1 2"


def picked(typed: str, count: int) -> Sequence[int] | None:
    words = typed.replace(",", " ").split()
    if words == ["all"]:
        return range(1, count + 1)
    if all(word.isdecimal() and len(word) < 4 and 1 <= int(word) <= count for word in words):
        return sorted({int(word) for word in words})
    return None


@sets.command()
@click.argument("child", required=False)
@with_call(on=True)
def pick(call: Call, child: str | None) -> None:
    """Give a child what has been taught already, from one list.

    It shows what is likely at that age, part by part: Enter takes it, a
    number changes its part. The first run does the same.

    \b
    Example:
      review set pick Mira
    """
    from review.cli.set_up import picked_for  # which needs what stands here

    with_clock(call.outside, lambda outside: picked_for(outside, child))


@sets.command()
@click.argument("name", metavar="SET")
@click.argument("child", required=False)
@with_call(on=True)
def drop(call: Call, name: str, child: str | None) -> None:
    """Take a set from a child. What was learned is kept and comes back with the set.

    \b
    Example:
      review set drop roman-early Mira
    """
    found, set_id = with_clock(call.outside, lambda outside: giving.drop_set(outside, name, child))
    echo(given_lines.set_dropped(found.name, set_id))


@sets.command()
@click.argument(
    "country", type=click.Choice(CHOICES, case_sensitive=False), metavar="[england|us|ages]", required=False
)
@with_call(on=True, json=True)
def years(call: Call, country: str | None) -> None:
    """Choose whose school years order the sets, once for all.

    England's, those of the US, or ages alone.

    With nothing behind it, it tells what is chosen.

    \b
    Examples:
      review set years
      review set years england
    """
    if country:
        with_clock(call.outside, lambda outside: chosen_years.choose(outside, country))
    found = country or chosen_years.chosen(call.outside)
    if call.as_json:
        echo_json({"years": found})
    else:
        echo(set_lines.years_chosen(found))


@sets.command(short_help="Choose whose money and measures the list shows.")
@click.argument(
    "choice",
    type=click.Choice(homes.CHOICES, case_sensitive=False),
    metavar="[pounds|dollars|euros|all]",
    required=False,
)
@with_call(on=True, json=True)
def money(call: Call, choice: str | None) -> None:
    """Choose whose money and measures the list of sets shows, once for all.

    With dollars come customary units, Fahrenheit and numbers without
    “and”; with pounds imperial units. Sets that a child has are always
    shown, and every other can still be given by its name.

    With nothing behind it, it tells what is chosen.

    \b
    Examples:
      review set money
      review set money pounds
    """
    if choice:
        with_clock(call.outside, lambda outside: chosen_money.choose(outside, choice))
    found = choice or chosen_money.fitting(call.outside).money
    if call.as_json:
        echo_json({"money": found})
    else:
        echo(set_lines.money_chosen(found))


@sets.command()
@click.argument("file")
@click.option("--minutes", type=Number(1, 30), default=5.0, help="A day, 1 to 30, to tell how long it takes.")
@with_call(json=True)
def check(call: Call, file: str, minutes: float) -> None:
    """Check a set of your own: its mistakes, or a preview.

    Every mistake is told with its line and what to write.

    \b
    Example:
      review set check our-sums.toml
    """
    found, mistakes = catalogue.check(Path(file))
    seen = preview(found, minutes) if found and not mistakes else None
    if call.as_json:
        echo_json(set_lines.check_row(seen, found, mistakes))
    if found is None or seen is None:
        head = set_lines.mistakes_head(Path(file).name, len(mistakes))
        raise SetMistakes("\n".join([head, *catalogue.mistake_lines(mistakes)]))
    if not call.as_json:
        echo(set_lines.set_sound(word(file), found, seen, chosen_words.chosen(call.outside)))


@sets.command()
@click.argument("file", type=click.Path(path_type=Path), required=False)
@click.option("--title", help="What the set is called.")
@click.option("--ages", type=(int, int), metavar="FROM TO", help="The ages it is for, like 6 8.")
@click.option("--kind", type=click.Choice(authoring.KINDS), help="What is in it.")
@with_call()
def new(
    call: Call, file: Path | None, title: str | None, ages: tuple[int, int] | None, kind: str | None
) -> None:
    """Begin a set of your own: a few questions, then a file.

    Nothing is asked that an option has told.

    \b
    Examples:
      review set new our-words.toml --title "Our words"
      review set new --title "Our trips" --kind template --ages 8 10
    """
    start = authoring.asked(title, ages, kind)
    path = authoring.written(start, file)
    echo(
        [
            f"Written: {clean(str(path))}",
            "Change it in any editor.",
            f"Then: review set check {word(str(path))}",
        ]
    )
