"""Skill sets as lines for a parent, and as the tables of JSON."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby
from random import Random

from review.catalogue import Head
from review.core import card_sets, homes, school_years, skills
from review.core.model import STANDARD, Mistake, Problem, Skill, SkillSet, Words
from review.core.picture_words import sentence
from review.core.preview import Preview
from review.core.remarks import remarks
from review.core.skills.strategies import STRATEGIES
from review.core.text import clean, ended, in_words, plural
from review.render import lines
from review.shell import word

SET_HEADS = ("set", "what it is", "ages", "skills")


def in_words_of(heads: Sequence[Head], words: Words) -> Sequence[Head]:
    """The list in the family's words."""
    if words == STANDARD:
        return heads
    from review.core.house_words import told  # nobody waits for it who chose nothing

    return [head._replace(title=told(head.title, words)) for head in heads]


def as_shown(problem: Problem, words: Words) -> Problem:
    """A problem as the family's child sees it."""
    if words == STANDARD:
        return problem
    from review.core import house_words  # likewise

    return house_words.problem(problem, words)


def head_row(found: Head) -> dict[str, object]:
    return set_row(found, "skills", found.skills)


def years_row(standards: Sequence[str]) -> dict[str, list[int] | None]:
    """The first and last school year in each country, kindergarten 0; null where it has no code there."""
    found = {country: school_years.years(standards, country) for country in school_years.COUNTRIES}
    return {country: list(span) if span else None for country, span in found.items()}


def head_cells(found: Head) -> tuple[str, ...]:
    low, high = found.ages
    return found.id, found.title, f"{low} to {high}" if low < high else str(low), str(found.skills)


def head_sentence(found: Head) -> str:
    label = lines.capital(school_years.label((), found.ages, school_years.AGES))
    return f"{found.id}: {ended(found.title)} {label}, {plural(found.skills, 'skill')}."


def year_heads(choice: str) -> tuple[str, ...]:
    return ("set", "what it is", school_years.COUNTRIES[choice].word.casefold())


def by_year(found: Iterable[Head], own: Sequence[Head], choice: str) -> dict[str, list[Head]]:
    """Sets under the year in which they begin, youngest first; a family's own below."""
    places = {head: school_years.place(head.standards, head.ages, choice) for head in found}
    ordered = sorted(places, key=lambda head: (places[head], head.id))
    groups = groupby(ordered, key=lambda head: school_years.heading(places[head].first, choice))
    return {**{heading: [*heads] for heading, heads in groups}, **({OWN: [*own]} if own else {})}


OWN = "Your own"


def own_cells(found: Sequence[Head]) -> list[tuple[str, ...]]:
    """Below the shipped ones, where sets go by ages."""
    return [(OWN, "", "", ""), *map(head_cells, found)] if found else []


def own_sentences(found: Sequence[Head]) -> list[str]:
    return ["", OWN, *(f"  {head_sentence(head)}" for head in found)] if found else []


def year_cells(groups: Mapping[str, Sequence[Head]], choice: str) -> list[tuple[str, ...]]:
    return [
        row
        for heading, heads in groups.items()
        for row in ((heading, "", ""), *(year_row_cells(head, choice) for head in heads))
    ]


def year_row_cells(found: Head, choice: str) -> tuple[str, ...]:
    years = school_years.short_label(found.standards, found.ages, choice)
    return f"  {found.id}", found.title, years


def year_sentences(groups: Mapping[str, Sequence[Head]], choice: str) -> list[str]:
    """Each heading with its sets below, an empty line before it."""
    return [
        line
        for heading, heads in groups.items()
        for line in ("", heading, *(year_sentence(head, choice) for head in heads))
    ]


def year_sentence(found: Head, choice: str) -> str:
    years = school_years.bare_label(found.standards, found.ages, choice)
    return f"  {found.id}: {ended(found.title)} {lines.capital(years)}, {plural(found.skills, 'skill')}."


def below_heads(hidden: int) -> list[str]:
    """What to do next; and how many sets are for families elsewhere."""
    others = f"{plural(hidden, 'set')} for other money and measures: review set list --all"
    next_step = "See one: review set show SET. Give one: review set add SET CHILD"
    return ["", *([others] if hidden else []), next_step]


def money_chosen(choice: str) -> list[str]:
    """Whose money and measures the list shows now, and how to change it."""
    others = [name for name in homes.CHOICES if name != choice]
    told = (
        "all money and measures" if choice == homes.EVERY else f"sets that fit families who pay in {choice}"
    )
    return [f"The list shows {told}.", f"To change it: review set money {in_words(others, 'or')}"]


def years_chosen(choice: str) -> list[str]:
    """What orders the sets now, and how to change it."""
    others = [name for name in school_years.CHOICES if name != choice]
    return [*years_words(choice), f"To change it: review set years {in_words(others, 'or')}"]


def years_words(choice: str) -> list[str]:
    if choice not in school_years.COUNTRIES:
        return ["Sets are ordered by the ages they are for."]
    country = school_years.COUNTRIES[choice]
    return [
        f"Sets are ordered by the school years of {country.name}, as {country.standard} has them.",
        "A set that stands in none of them goes by its ages.",
    ]


def set_row(found: Head | SkillSet, what: str, count: int) -> dict[str, object]:
    return {
        "set": found.id,
        "title": found.title,
        "about": found.about,
        "aim": found.aim,
        "ages": list(found.ages),
        "standards": list(found.standards),
        what: count,
        "years": years_row(found.standards),
    }


def set_whole(found: SkillSet) -> dict[str, object]:
    whole = set_row(found, "cards", len(card_sets.cards([found])))
    whole["skills"] = [
        {
            "id": skill.id,
            "title": skill.title,
            "kind": skill.kind,
            "aim": skill.aim,
            "strategies": list(skill.strategies),
            "example": example(found, skill),
            "note": skill.note,
        }
        for skill in found.skills
    ]
    return whole


AIM_WORDS = {
    "familiarity": "to be met and recognised",
    "accuracy": "right, in one's own time",
    "fluency": "right, and from memory",
}


def set_shown(
    found: SkillSet, name: str, choice: str = school_years.AGES, words: Words = STANDARD
) -> list[str]:
    """`name`: by which it is given, of the set or of a file."""
    cards = len(card_sets.cards([found]))
    label = lines.capital(school_years.label(found.standards, found.ages, choice))
    return [
        f"{found.id}: {found.title}",
        *([found.about] if found.about else []),
        f"Aim: {AIM_WORDS[found.aim]}. {label}. {plural(cards, 'card')}.",
        *([f"Standards: {'; '.join(found.standards)}"] if found.standards else []),
        "",
        *(line for skill in found.skills for line in skill_lines(found, skill, words)),
        "",
        f"Give it: review set add {word(name)} CHILD",
    ]


def skill_lines(found: SkillSet, skill: Skill, words: Words) -> list[str]:
    after = f" After: {in_words(skill.after)}." if skill.after else ""
    ways = [f"{STRATEGIES[name].parent.partition(':')[0]} ({name})" for name in skill.strategies]
    return [
        f"  {skill.id}: {ended(skill.title)}{after}",
        f"    for example: {example(found, skill, words)}",
        *([f"    help goes by: {'; '.join(ways)}"] if ways else []),
        *([f"    to remember it: {clean(skill.note)}"] if skill.note else []),
    ]


def example(found: SkillSet, skill: Skill, words: Words = STANDARD) -> str:
    """One problem with its answer, always the same one."""
    cards = card_sets.cards([found._replace(skills=(skill,))])
    key = cards[len(cards) // 2].key
    problem = as_shown(skills.problem(key, skills.draw(key, Random(0))), words)
    return clean(f"{problem.prompt}  ({skills.shown_answer(problem)})")


def check_row(seen: Preview | None, found: SkillSet | None, mistakes: Sequence[Mistake]) -> dict[str, object]:
    """For an editor: what the set would bring, or its mistakes; nothing is seen of it while there are any."""
    return {
        "set": found.id if found and seen else None,
        "mistakes": [one._asdict() for one in mistakes],
        "cards": seen and seen.cards,
        "new_a_day": seen and seen.new_a_day,
        "weeks_to_meet": seen and seen.weeks_to_meet,
        "remarks": [one._asdict() for one in remarks(found)] if found and seen else [],
    }


def set_sound(file: str, found: SkillSet, seen: Preview, words: Words = STANDARD) -> list[str]:
    """What one would get: the first, the last and some problems, and how long it takes."""
    some = ["  Some between:", *(f"    {shown(one, words)}" for one in seen.some)] if seen.some else []
    return [
        f"{clean(file)} can be used: {plural(len(found.skills), 'skill')}, {plural(seen.cards, 'card')}.",
        f"  First: {shown(seen.first, words)}",
        f"  Last: {shown(seen.last, words)}",
        *some,
        f"At {lines.minutes(seen.minutes)} a day all of it is met in about "
        f"{plural(seen.weeks_to_meet, 'week')}, and holds about {plural(seen.weeks_to_hold, 'week')} later.",
        f"Reckoned from {seen.days_a_week} days a week, {plural(seen.new_a_day, 'new card')} a day at most, "
        f"and {seen.askings} askings of each. Children differ.",
        *remark_lines(found),
        f"Give it: review set add {clean(file)} CHILD",
    ]


def remark_lines(found: SkillSet) -> list[str]:
    """What is hardly meant, under a head of its own."""
    told = [f"  {one.skill}: {clean(one.text)}" for one in remarks(found)]
    return ["Worth a look:", *told] if told else []


def shown(problem: Problem, words: Words) -> str:
    """On one line: a story, its question, the answer."""
    problem = as_shown(problem, words)
    before = f"{sentence(problem.picture)} " if problem.picture else ""
    return clean(f"{before}{problem.prompt}  ({skills.shown_answer(problem)})")


def mistakes_head(file: str, count: int) -> str:
    return f"{clean(file)} cannot be used yet. {plural(count, 'place')} to mend:"
