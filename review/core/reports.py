"""From memory to what a parent does with it. Reports are data; how they look is the rendering's matter."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from math import ceil
from random import Random
from typing import NamedTuple

from review.core import plan, skills
from review.core.model import Card, CardMemory, Decision, Faded, Pupil, Skill, Traits
from review.core.standing import Standing, standing
from review.core.text import in_words, plural

STUCK_DAYS = 3  # missed on so many days: the skill is taught again rather than asked again (our judgement)
STUCK_HOLDS = 7.0  # and still holds for less than so many days (our judgement)
AT_THE_TABLE = 5  # facts a family can do something about in a week (our judgement)
NAMED = 3  # skills named in a line before it says "and more" (our judgement)

# What to do a kind's cards with: objects and spoken games of the trade (common practice, no source)
TABLE_WORK: Mapping[str, str] = {
    "sum": "Lay both numbers on a ten-frame in two colours of counters, then say the sum.",
    "difference": "Lay counters on a ten-frame, take some away, say what is left.",
    "product": "Lay rows of counters, then say the product.",
    "quotient": "Share counters into equal rows, then say how many are in a row.",
    "bond": "Lay counters in a row, cover some, say how many are hidden.",
    "double": "Lay two equal rows of counters, then say how many.",
    "half": "Share counters into two equal rows, then say how many are in one.",
    "count-by": "Count aloud together, turn about, along a number line.",
    "place-value": "Build the numbers on a place-value mat, or with bundles of ten sticks.",
    "sequence": "Count aloud together along a number line; stop anywhere and say what comes next.",
    "quantity": "Flash a ten-frame with counters for a moment, say how many.",
    "number-name": "One says a number, the other writes it; then turn about.",
    "rounding": "Walk to the nearer end of a number line laid with string.",
    "order": "Write numbers on slips and lay them out, smallest first.",
    "number-property": "Lay counters in pairs and in rows, say what can be made of them.",
    "compare": "Build both numbers side by side on place-value mats.",
    "mental-sum": "Build both numbers with bundles of ten sticks and single ones.",
    "mental-difference": "Lay both numbers on a number line of string, jump from one to the other.",
    "mental-product": "Draw a rectangle of squared paper, split off the tens, say both parts.",
    "mental-quotient": "Share bundles of ten sticks first, then the single ones.",
    "add-several": "Put out counters row by row, say the new total after each row.",
    "true-false": "Balance two plates of counters, say when they hold as many.",
    "column-sum": "Build both numbers on a place-value mat, swap ten for one, write each column beside it.",
    "column-difference": "Build the number on a place-value mat, open one for ten, write each column down.",
    "column-product": "Draw a rectangle, split it by places, write each part, then add the parts.",
    "division-written": "Share place-value counters into equal rows, write each exchange beside it.",
    "roman": "Lay the letters with sticks: one lays, the other reads.",
    "convert": "Measure one thing twice, once in each unit.",
    "money": "Play shop with real coins: one pays, the other counts up the change aloud.",
    "clock": "Set a toy clock for each other, and say the time.",
    "duration": "Say when something begins and how long it takes, then turn a clock to its end.",
    "timetable": "Write a timetable of your own day, ask each other what comes when.",
    "temperature": "Read a thermometer together, indoors and out, morning and evening.",
    "word-problem": "Act the story out with counters, then tell one like it.",
    "vocabulary": "Say a sum and let the child name its parts, turn about.",
    "template": "Write a few such problems on slips and draw them, turn about.",
    "fraction": "Fold strips of paper into equal parts, lay them side by side, say what you see.",
    "decimal": "Shade squares of ten by ten, a column a tenth, and write what is shaded.",
    "percent": "Shade squares of ten by ten, say the part as a fraction and as a percent.",
    "shape-measure": "Measure a book or a box with a ruler, then work it out together.",
    "negative": "Walk up and down a number line on the floor, across zero.",
    "operations": "Put brackets around what comes first with two pencils, then work it out.",
    "estimate": "Say about how much first, then work it out and look how near it was.",
    "pairs": "Ask each other, turn about.",
}


class Looked(NamedTuple):
    """A card with where it stands on the pupil's day."""

    card: Card
    traits: Traits
    memory: CardMemory | None
    found: Standing


class Report(NamedTuple):
    """What has faded, lowest recall first, and what to do about it."""

    decision: Decision
    overdue: tuple[Faded, ...]
    fading: tuple[Faded, ...]


def standings(pupil: Pupil) -> list[Looked]:
    return [
        Looked(card, traits, memory, standing(card, traits, memory, pupil.settings, pupil.day))
        for card in pupil.cards
        for traits, memory in [(skills.traits(card.key), pupil.memory.get(card.key))]
    ]


def report(pupil: Pupil) -> Report:
    """Everything `overdue` tells of one child, from one look at each card."""
    looks = standings(pupil)
    stuck = stuck_skills(looks)
    overdue, fading = (faded(pupil, looks, stuck, state) for state in ("overdue", "fading"))
    decision = Decision(
        pupil.child.name,
        teach_lines(pupil, stuck),
        table_lines([*overdue, *fading]),
        rest_lines(pupil, len(overdue)),
    )
    return Report(decision, overdue, fading)


def count_overdue(pupil: Pupil) -> int:
    return sum(look.found.state == "overdue" for look in standings(pupil))


def faded(
    pupil: Pupil, looks: Iterable[Looked], stuck: Mapping[str, list[str]], state: str
) -> tuple[Faded, ...]:
    """The cards in that state, lowest recall first."""
    rows = [
        faded_row(pupil, look, look.memory, look.card.skill in stuck)
        for look in looks
        if look.memory and look.found.state == state
    ]
    return tuple(sorted(rows, key=lambda row: (row.recall, row.card)))


def faded_row(pupil: Pupil, look: Looked, memory: CardMemory, teach: bool) -> Faded:
    card, found = look.card, look.found
    return Faded(
        child=pupil.child.name,
        card=card.key,
        prompt=look.traits.title,
        skill=card.skill,
        set_id=card.set_id,
        aim=card.aim,
        recall=round(found.recall or 0.0, 4),
        days_overdue=found.days_overdue,
        last_day=memory.last_day,
        last_mark=memory.last_mark,
        teach=teach,
    )


def stuck_skills(looks: Iterable[Looked]) -> dict[str, list[str]]:
    """Skills with cards that were set aside, or missed on three days and still not held: skill id -> the
    facts among those cards."""
    found: dict[str, list[str]] = defaultdict(list)
    for look in looks:
        if look.memory and look.card.aim != "familiarity" and is_stuck(look.memory):
            found[look.card.skill] += [look.traits.title] if look.traits.fact else []
    return dict(found)


def is_stuck(memory: CardMemory) -> bool:
    held = memory.stability is not None and memory.stability >= STUCK_HOLDS
    return bool(memory.aside_day) or (memory.miss_days >= STUCK_DAYS and not held)


def ready_to_teach(pupil: Pupil) -> list[Skill]:
    """Skills that were not taught yet and stand on nothing that was not."""
    taught = set(pupil.child.taught)
    return [
        skill
        for skill in pupil.skills.values()
        if skill.id not in taught and taught.issuperset(set(skill.after) & set(pupil.skills))
    ]


def teach_lines(pupil: Pupil, stuck: Mapping[str, list[str]]) -> tuple[str, ...]:
    again = [
        f"{pupil.skills[skill].title}, once more{with_facts(facts)}.{going_back(pupil, pupil.skills[skill])}"
        for skill, facts in list(stuck.items())[:NAMED]
    ]
    ready = ready_to_teach(pupil)[:1]
    return (*again, *(f"Ready to teach: {skill.title}. Then: review taught {skill.id}" for skill in ready))


def with_facts(facts: list[str]) -> str:
    return f": {in_words(facts[:NAMED])} did not stick" if facts else ": it did not stick"


def going_back(pupil: Pupil, skill: Skill) -> str:
    earlier = [pupil.skills[name].title for name in skill.after if name in pupil.skills]
    return f" Go back to: {in_words(earlier)}." if earlier else ""


def table_lines(rows: Sequence[Faded]) -> tuple[str, ...]:
    """At most five faded facts, each with the objects to do it by, grouped by what is done with them."""
    chosen = [row for row in rows if skills.traits(row.card).fact][:AT_THE_TABLE] or rows[:NAMED]
    groups: dict[str, list[str]] = defaultdict(list)
    for row in chosen:
        groups[TABLE_WORK.get(row.card.partition(":")[0], TABLE_WORK["pairs"])].append(row.prompt)
    return tuple(f"{in_words(prompts)}. {work}" for work, prompts in groups.items())


def rest_lines(pupil: Pupil, late: int) -> tuple[str, ...]:
    """What the warm-ups do by themselves, found by running the plan."""
    todays = plan.for_pupil(pupil, pupil.child.minutes, Random(0))
    planned = sum(item.why == "due" for item in todays.items)
    sittings = ceil((planned + todays.waiting) / max(1, planned)) if planned else 0
    much = "Too much is in play: new cards wait until more of it holds."
    return (rest_line(late, sittings), *([much] if todays.too_much else []))


def rest_line(late: int, sittings: int) -> str:
    if not sittings:
        return "Nothing is waiting. The daily warm-up keeps what is known."
    if not late:
        return "Nothing is overdue. The daily warm-up keeps up."
    return f"The warm-ups bring back the rest: {plural(sittings, 'warm-up')} to catch up."


def by_skill(rows: Iterable[Faded]) -> dict[str, list[Faded]]:
    """Grouped by skill, the skill with the lowest recall first."""
    groups: dict[str, list[Faded]] = defaultdict(list)
    for row in rows:
        groups[row.skill].append(row)
    return dict(groups)
