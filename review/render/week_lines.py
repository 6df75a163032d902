"""What a parent said and what is to be taught, in words: known, away, focus, teach."""

from collections.abc import Mapping, Sequence

from review.core import days, family
from review.core.card_names import short
from review.core.looks import traits_of
from review.core.model import Card, Skill
from review.core.reports import TOO_MUCH
from review.core.teaching import Lesson, Why
from review.core.text import clean, ended, in_words, plural
from review.render.lines import capital, unready
from review.render.phrases import CAUTION, named
from review.replies import Away, Focus, Known, Lessons
from review.shell import word

LISTED = 5  # lessons of a child shown without --all (our judgement)


def titles(found: Sequence[Skill]) -> list[str]:
    return [skill.title for skill in found]


# --- known ----------------------------------------------------------------------------------------------


def known(done: Known) -> list[str]:
    name, who = clean(done.child.name), word(done.child.name)
    cards = named([traits_of(card.key, family.words_of(done.child)).title for card in done.cards])
    if not done.known:
        return [
            ended(f"Not known to {name} after all: {cards}"),
            "Warm-ups ask it again in its turn.",
            *still_taught(done, who),
        ]
    begun = ended(f"Known to {name} already: {cards}") if done.cards else f"Nothing new for {name}."
    left = f"Left as they are, for they were answered or said to be known: {plural(done.measured, 'card')}."
    first = next(iter(done.cards), None)
    return [
        begun,
        *([left] if done.measured else []),
        *([ended(f"Marked as taught with it: {named(titles(done.taught))}")] if done.taught else []),
        *(not_taught(skill, who) for skill in done.untaught[:1]),
        *([first_asked(done, first, who)] if first else []),
    ]


def first_asked(done: Known, card: Card, who: str) -> str:
    """How the word is taken back: of what it was said of."""
    written = word(short(card.key, family.words_of(done.child)))
    name = skill_name(done.named) if done.named else f"--card {written}"
    return f"Warm-ups ask it now and then. Not so after all: review known {name} --not {who}"


def skill_name(skills: Sequence[Skill]) -> str:
    """As a parent types it: the skill, or the set of them."""
    return skills[0].id if len(skills) == 1 else skills[0].set_id


def still_taught(done: Known, who: str) -> list[str]:
    """A skill that was said to be known was marked as taught with it, and that stands."""
    taught = [one for one in done.named if one.id in done.child.taught]
    if not taught:
        return []
    back = f"Not so either: review taught {skill_name(done.named)} {who} --not"
    return [f"{ended(f'Still marked as taught: {named(titles(taught))}')} {back}"]


def not_taught(skill: Skill, who: str) -> str:
    title = clean(skill.title)
    return f"{title} is not marked as taught, so it does not come yet: review taught {skill.id} {who}"


def known_row(done: Known) -> dict[str, object]:
    return {
        "child": done.child.name,
        "known": done.known,
        "cards": [card.key for card in done.cards],
        "taught": [skill.id for skill in done.taught],
        "untaught": [skill.id for skill in done.untaught],
        "left": done.measured,
    }


# --- days off -------------------------------------------------------------------------------------------


def away(found: Away) -> list[str]:
    name, who = clean(found.child.name), word(found.child.name)
    spans = [span_words(first, last) for first, last in found.spans]
    if found.back:
        return [f"{name} is not away any more: {in_words(spans)}."]
    if not spans:
        return [f"{name}: no days off are coming.", f"  review away --from DATE --to DATE {who}"]
    return [
        f"{name} is away: {in_words(spans)}.",
        "What falls due in that time may come just before it. After a week or more away, the first two "
        "warm-ups ask what is due and nothing new.",
        f"Plans changed: review away --back {who}",
    ]


def span_words(first: int, last: int) -> str:
    return days.words(first) if first == last else f"{days.words(first)} to {days.words(last)}"


def away_row(found: Away) -> dict[str, object]:
    spans = [
        {"from": days.date_of(first).isoformat(), "to": days.date_of(last).isoformat()}
        for first, last in found.spans
    ]
    return {"child": found.child.name, "away": [] if found.back else spans}


# --- focus ----------------------------------------------------------------------------------------------


def focus(found: Focus) -> list[str]:
    name, who = clean(found.child.name), word(found.child.name)
    if found.skill is None:
        return [f"{name}: no focus this week.", f"  review focus SKILL {who}"]
    behind = ended(f" It stands on: {named(titles(found.stands_on))}") if found.stands_on else ""
    return [
        f"{name}, until Sunday {days.words(found.until)}: {clean(found.skill.title)} comes first.{behind}",
        *([untaught(found, who)] if found.untaught else []),
        "A third of each sitting is for it; the rest goes on as ever.",
        f"No longer: review focus --off {who}",
    ]


def untaught(found: Focus, who: str) -> str:
    """What of it cannot come yet."""
    out, first = named(titles(found.untaught)), found.untaught[0].id
    return f"{ended(f'Not taught yet, so left out: {out}')} When it is: review taught {first} {who}"


def focus_off(found: Focus) -> list[str]:
    return [f"{clean(found.child.name)}: no focus any more. Warm-ups go on as ever."]


def focus_row(found: Focus) -> dict[str, object]:
    skill = found.skill
    return {
        "child": found.child.name,
        "skill": skill.id if skill else None,
        "stands_on": [one.id for one in found.stands_on],
        "untaught": [one.id for one in found.untaught],
        "until": days.date_of(found.until).isoformat() if skill else None,
    }


# --- what to teach --------------------------------------------------------------------------------------

HEADS: Mapping[Why, str] = {
    "stuck": "Once more, for it did not stick",
    "ready": "Ready to teach",
    "behind": "Wait with these: what they stand on is not known yet",
}


def lessons(found: Lessons, everything: bool) -> list[str]:
    name, who = clean(found.child.name), word(found.child.name)
    if not found.child.sets:
        return unready(name, who, 0)
    lines = [name]
    for why, head in HEADS.items():
        mine = [one for one in found.found if one.why == why]
        shown = mine if everything else mine[:LISTED]
        lines += [f"  {head}:"] if shown else []
        lines += [f"    {lesson(one, who)}" for one in shown]
        lines += [f"    {more(len(mine) - len(shown), who)}"] if len(mine) > len(shown) else []
    if all(one.why == "stuck" for one in found.found):
        what = "Nothing else" if found.found else "Nothing"
        lines += [f"  {what} is waiting to be taught. More sets: review set list"]
    if found.too_much:
        lines += [f"  {TOO_MUCH}"]
    return lines


def more(count: int, who: str) -> str:
    return f"and {plural(count, 'more skill')}: review teach {who} --all"


def lesson(one: Lesson, who: str) -> str:
    return f"{ended(clean(one.skill.title))}{REASONS[one.why](one, who)}"


def stuck(one: Lesson, who: str) -> str:
    facts = f" {capital(named(one.cards))} did not stick." if one.cards else ""
    begin = "; ".join(map(clean, titles(one.begin)))
    return facts + (ended(f" Begin with: {begin}") if begin else " Begin with the objects.")


def ready(one: Lesson, who: str) -> str:
    base = f" It stands on {named(titles(one.back))}: {one.known} of {plural(one.of, 'card')} known."
    return f"{base if one.back else ''} Taught? review taught {one.skill.id} {who}"


def behind(one: Lesson, who: str) -> str:
    return f" {named(titles(one.back))}: {one.known} of {plural(one.of, 'card')} known."


REASONS = {"stuck": stuck, "ready": ready, "behind": behind}


def lessons_foot() -> list[str]:
    return ["", CAUTION]


def lesson_row(child: str, one: Lesson) -> dict[str, object]:
    """The keys are a promise; they are only ever added to."""
    return {
        "child": child,
        "skill": one.skill.id,
        "title": one.skill.title,
        "set": one.skill.set_id,
        "why": one.why,
        "cards": list(one.cards),
        "stands_on": [skill.id for skill in one.back],
        "known": one.known,
        "of": one.of,
        "begin_with": [skill.id for skill in one.begin],
    }
