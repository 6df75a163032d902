"""What `review sheet` does: from the book, or the catalogue, to a sheet that can be printed."""

import secrets
from collections.abc import Iterable, Sequence
from random import Random
from typing import NamedTuple

from review import catalogue, files, gather, writes
from review.app import chosen_words, own_sets, sittings
from review.book.store import Book
from review.core import (
    blanks,
    card_sets,
    fact_slips,
    fact_square,
    house_words,
    pages,
    paper_plan,
    reports,
    seeds,
    sheets,
)
from review.core.model import STANDARD, Card, Child, Pupil, Skill, SkillSet, Words
from review.core.paper import FOOT_TEXT, WIDTH, Sheet, width_of
from review.core.sheets import FIRST, LAST, Made, Part, Task
from review.core.text import in_words, nearest
from review.errors import Mendable, UnknownName
from review.gather import Outside
from review.render import svg
from review.shell import word

COUNTS = (1, 60)  # problems of a practice sheet: more is no practice but a wall (our judgement)
USUAL_COUNT = 20
PLACES = (2, 4)
HIGHEST = {"products": (5, 12), "sums": (5, 20)}


class Ready(NamedTuple):
    """A sheet that can be printed."""

    sheet: Sheet
    stem: str  # of a file's name
    number: int = 0  # 0: it needs none
    child: str = ""  # whose it is; "": nobody's
    enters: bool = False  # its marks can be entered
    again: str = ""  # how to make it again


def in_own_words(sheet: Sheet, outside: Outside) -> Sheet:
    """The finished pages as the family writes numbers and signs: each takes no more room than before."""
    words = chosen_words.chosen(outside)
    if words == STANDARD:
        return sheet
    shown: Sheet = house_words.each_text(sheet, lambda text: house_words.written(text, words))
    return shown


# --- a child's own ------------------------------------------------------------------------------------


def warmups(outside: Outside, sort: sheets.Sort, child_name: str | None, large: bool) -> Ready:
    """Today's warm-up on paper, or five short ones."""
    with writes.writing(outside) as book:
        child = gather.child_named(gather.family_of(book), child_name)
        day = gather.writing_day(outside, child)
        pupil = gather.pupil(book, child, day)
        sittings.check_ready(pupil)
        made = planned(book, pupil, sort)
        if not made.parts:
            raise Mendable(
                f"There is nothing to ask {child.name} on paper now: "
                "what is due had its turn, and new cards wait for another day."
            )
        return own(kept(book, outside, child, made), child, large)


def planned(book: Book, pupil: Pupil, sort: sheets.Sort) -> Made:
    """The sheet without its number, and without days on which there is nothing to ask."""
    week = sort == "week"
    days = paper_plan.week_days(pupil.day) if week else [pupil.day]
    most = paper_plan.MOST_WEEK if week else paper_plan.MOST_TODAY
    minutes = sittings.minutes_left(book, pupil.child, pupil.day)
    length = min(minutes, paper_plan.WEEK_MINUTES) if week else minutes
    found = paper_plan.sittings(pupil, days, length, most, book.id)
    plans = [sittings.settled(pupil, one.plan) for one in found]
    timed = dict.fromkeys(key for plan in plans for key in plan.timed)
    asked = set(paper_plan.keys_of([one.part for one in found]))
    return Made(
        0,
        sort,
        pupil.child.key,
        pupil.day,
        tuple(one.part for one in found if one.part.tasks),
        timed=tuple(key for key in timed if key in asked),
        slow_ms=plans[0].slow_ms,
    )


def kept(book: Book, outside: Outside, child: Child, made: Made) -> Made:
    """The sheet with its number, in the log: the one of today that asks the same, or a new one."""
    every = sheets.all_made(book.events(kinds=("sitting",)))
    same = (one for one in every if one.child == child.key and one._replace(number=0) == made)
    found = next(same, None)
    if found is not None:
        return found
    taken = {one.number for one in every}
    source = seeds.source(book.id, book.device, child.key, made.day, len(every))
    numbered = made._replace(number=made.number or sheets.new_number(source, taken))
    writes.write(book, outside, child, "sitting", sheets.made_body(numbered), made.day)
    return numbered


def own(made: Made, child: Child, large: bool) -> Ready:
    return Ready(
        pages.sheet(made._replace(title=title_in_words(made.title, child)), child.name, large, svg.extent),
        f"sheet-{made.number}",
        made.number,
        child.name,
        made.sort in sheets.WARMUPS,
        f"review sheet --number {made.number}",
    )


def again(outside: Outside, number: int, child_name: str | None, large: bool) -> Ready:
    """A child's own sheet once more, as it was."""
    with gather.reading(outside) as book:
        child, made = numbered(book, number, child_name)
        return own(made, child, large)


def numbered(book: Book, number: int, child_name: str | None) -> tuple[Child, Made]:
    """A sheet by its number. Two computers of a family may have given the same one: the child tells."""
    known = gather.family_of(book)
    wanted = {gather.child_named(known, child_name).key} if child_name else {child.key for child in known}
    every = sheets.all_made(book.events(kinds=("sitting",)))
    found = [made for made in every if made.number == number and made.child in wanted]
    owners = {made.child for made in found}
    if len(owners) > 1:
        names = [child.name for child in known if child.key in owners]
        raise Mendable(f"There are two sheets {number}. Add the name at the end: {in_words(names, 'or')}.")
    others = [made.child for made in every if made.number == number and made.child not in wanted]
    if not found and (owner := next((child for child in known if child.key in others), None)):
        raise UnknownName(
            f"Sheet {number} is {owner.name}'s. Write that name at the end, or the number of another sheet."
        )
    if not found:
        raise UnknownName(unknown_number(number, [made.number for made in every if made.child in wanted]))
    return next(child for child in known if child.key == found[-1].child), found[-1]


def unknown_number(number: int, known: Sequence[int]) -> str:
    last = f" The last ones: {in_words([*map(str, known[-3:])])}." if known else ""
    return f"There is no sheet {number} in the book. The number stands at the foot of the page.{last}"


# --- practice of one skill ----------------------------------------------------------------------------


def practice(
    outside: Outside, skill: str, child_name: str | None, count: int, number: int, large: bool
) -> Ready:
    """For a child by what that child needs most; for nobody, every card in turns."""
    if not COUNTS[0] <= count <= COUNTS[1]:
        raise Mendable(f"Write how many problems, from {COUNTS[0]} to {COUNTS[1]}: --count {USUAL_COUNT}")
    child = practising(outside, skill, child_name)
    if child is None:
        number = number or FIRST + secrets.randbelow(LAST - FIRST + 1)
        return nobodys(skill, count, number, large, chosen_words.chosen(outside))
    with writes.writing(outside) as book:
        return childs(book, outside, child, skill, count, number, large)


def practising(outside: Outside, skill: str, child_name: str | None) -> Child | None:
    """The child that is named; else the only one of the book, where one of its sets has that skill."""
    if child_name is None and not files.is_there(outside.book):
        return None
    with gather.reading(outside) as book:
        known = gather.family_of(book)
        if child_name is not None:
            return gather.child_named(known, child_name)
        mine = skills_of(known[0]) if len(known) == 1 else []
        fits = any(skill.casefold() in (one.id, one.set_id) for one in mine)
        return known[0] if fits else None


def skills_of(child: Child) -> list[Skill]:
    return [skill for found in catalogue.chosen_sets(child.sets) for skill in found.skills]


def childs(
    book: Book, outside: Outside, child: Child, skill: str, count: int, number: int, large: bool
) -> Ready:
    day = gather.writing_day(outside, child)
    pupil = gather.pupil(book, child, day)
    wanted = gather.skills_named(skills_of(child), skill)
    cards = paper_plan.by_need(pupil, cards_of(pupil.cards, wanted))
    every = sheets.all_made(book.events(kinds=("sitting",)))
    taken = {one.number for one in every}
    if number in taken:
        raise Mendable(f"Sheet {number} is made already. Print it again: review sheet --number {number}")
    number = number or sheets.new_number(
        seeds.source(book.id, book.device, child.key, day, len(every)), taken
    )
    tasks = tasks_of(cards, count, seeds.source("practice", number), large)
    made = Made(number, "practice", child.key, day, (Part(day, tasks),), title_of(wanted))
    writes.write(book, outside, child, "sitting", sheets.made_body(made), day)
    return own(made, child, large)


def nobodys(skill: str, count: int, number: int, large: bool, said: Words = STANDARD) -> Ready:
    """Practice that is no child's own: it follows from the skill, the count and its number alone."""
    wanted = catalogue_skills(skill)
    found = [catalogue.shipped(set_id) for set_id in dict.fromkeys(one.set_id for one in wanted)]
    source = seeds.source("practice", wanted[0].id, count, number)
    cards = list(cards_of(card_sets.cards(found), wanted))
    source.shuffle(cards)
    part = Part(0, tasks_of(cards, count, source, large))
    size = " --large" if large else ""
    many = "" if count == USUAL_COUNT else f" --count {count}"
    typed = f"review sheet --practice {skill}{many} --number {number}{size}"
    title = house_words.named(title_of(wanted), said)
    words = pages.Printed(title, "", f"Sheet {number}", (f"To make it again: {typed}",))
    return Ready(
        pages.problem_sheet((part,), words, large, svg.extent, strips=False, dots=False),
        f"sheet-{number}",
        number,
        again=typed,
    )


def tasks_of(cards: Sequence[Card], count: int, source: Random, large: bool) -> tuple[Task, ...]:
    """In the order in which they are numbered: one that fills the pages of that print."""
    return pages.filling(paper_plan.practice(cards, count, source), large, svg.extent)


def cards_of(cards: Iterable[Card], wanted: Sequence[Skill]) -> tuple[Card, ...]:
    """Each card once that one of the skills holds."""
    ids = {skill.id for skill in wanted}
    once = {card.key: card for card in cards if ids.intersection(card.skills)}
    return tuple(once.values())


def title_of(wanted: Sequence[Skill]) -> str:
    """What the page is called: the skill, or the set whose skills all are asked."""
    if len(wanted) == 1:
        return wanted[0].title
    set_id = wanted[0].set_id
    whole = catalogue.shipped(set_id) if set_id in catalogue.names() else None
    return whole.title if whole and list(whole.skills) == list(wanted) else "Practice"


def title_in_words(title: str, child: Child) -> str:
    """The book keeps the title as the set has it; it is printed as the family says it."""
    sets = catalogue.chosen_sets(child.sets)
    pairs = zip(titles(sets), titles(gather.in_words_of(child, sets)), strict=True)
    return dict(pairs).get(title, title)


def titles(sets: Iterable[SkillSet]) -> list[str]:
    return [title for found in sets for title in (found.title, *(skill.title for skill in found.skills))]


def catalogue_skills(name: str) -> list[Skill]:
    """A skill of any shipped set by its id, or all the skills of a set."""
    asked = name.casefold().strip()
    if asked in catalogue.names():
        return list(catalogue.shipped(asked).skills)
    every = [skill for found in catalogue.whole() for skill in found.skills]
    chosen = [skill for skill in every if skill.id == asked]
    if chosen:
        return chosen
    near = nearest(asked, [*(skill.id for skill in every), *catalogue.names()])
    hint = f" Did you mean {in_words(near, 'or')}?" if near else ""
    raise UnknownName(
        f"No set has a skill called “{name}”.{hint} `review set show SET` lists a set's skills."
    )


# --- slips, squares, blanks ---------------------------------------------------------------------------


def slips(outside: Outside, name: str, child_name: str | None, number: int, large: bool) -> Ready:
    """The facts of a set, front and back; of a child who is named, those that do not hold yet."""
    number = number or FIRST + secrets.randbelow(LAST - FIRST + 1)
    if child_name is None:
        found = own_sets.wanted(outside, name).found
        cards, title = fact_slips.facts(card_sets.cards([found])), found.title
        none = f"{title} has no facts: what it asks changes each time. Try review sheet --practice {found.id}"
    else:
        cards, title, none = slips_for(outside, name, child_name)
    if not cards:
        raise Mendable(none)
    problems = fact_slips.problems(cards, seeds.source("slips", number))
    again = f"review sheet --slips {word(name)} --number {number}{' --large' if large else ''}"
    short = width_of(again) * FOOT_TEXT <= WIDTH * 0.75  # a parent's own file may have a long name
    foot = again if child_name is None and short else f"Slips {number}"
    return Ready(
        fact_slips.sheet(problems, title, foot, large),
        f"slips-{number}",
        number,
        again=again if child_name is None else "",
    )


def slips_for(outside: Outside, name: str, child_name: str) -> tuple[list[Card], str, str]:
    with gather.reading(outside) as book:
        child = gather.child_named(gather.family_of(book), child_name)
        pupil = gather.pupil(book, child, gather.today(outside, child))
    wanted = name.casefold().strip()
    mine = {one.id: one.title for one in gather.in_words_of(child, catalogue.chosen_sets(child.sets))}
    if wanted not in mine:
        raise UnknownName(
            f"{child.name} has no set “{name}”. {child.name}'s sets: {in_words([*mine]) or 'none'}."
        )
    cards = fact_slips.wanted(pupil, fact_slips.facts(c for c in pupil.cards if c.set_id == wanted))
    none = f"Every fact of {wanted} that was taught holds: {child.name} needs no slips of it."
    return cards, mine[wanted], none


def square(
    outside: Outside,
    facts: fact_square.Facts,
    fill: fact_square.Fill,
    high: int,
    child_name: str | None,
    large: bool,
) -> Ready:
    lowest, highest = HIGHEST[facts]
    if not lowest <= high <= highest:
        raise Mendable(f"Write how far the {facts} go, from {lowest} to {highest}: --to 10")
    table = fact_square.TABLES[facts]
    if fill != "overdue":
        return Ready(fact_square.sheet(facts, fill, high, table.title, "", (), large), f"{facts}-{fill}")
    with gather.reading(outside) as book:
        child = gather.child_named(gather.family_of(book), child_name)
        pupil = gather.pupil(book, child, gather.today(outside, child))
    cells = fact_square.overdue(pupil, facts, high)
    if not cells:
        late = reports.count_overdue(pupil)
        raise Mendable(
            f"None of {child.name}'s {facts} is overdue{', though other cards are' if late else ''}."
        )
    return Ready(
        fact_square.sheet(facts, fill, high, table.title, child.name, cells, large),
        f"{facts}-overdue",
        child=child.name,
    )


def blank(sort: blanks.Sort, places: int, large: bool) -> Ready:
    if not PLACES[0] <= places <= PLACES[1]:
        raise Mendable(f"Write how many places a mat has, from {PLACES[0]} to {PLACES[1]}: --places 3")
    return Ready(blanks.sheet(sort, places, large), sort)
