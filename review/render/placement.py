"""What a placement found, as lines for a parent and as a table of JSON."""

from collections.abc import Iterable, Sequence

from review.app.placed import Result
from review.app.placing import Said
from review.core import family
from review.core.looks import traits_of
from review.core.model import Child, SkillSet, Words
from review.core.placement_result import Found, rest_likely, seems_taught
from review.core.text import clean, kept_apart, plural
from review.shell import word

MOST_NAMED = 12  # cards of a list that are written out (our judgement)

TICK_CHOICES = "s = surely known, n = not taught yet, Enter = ask"
AS_IT_IS = "Enter takes it as it is"
GATE = "A parent may type show to see what it found. Enter leaves it for later."


def shown(found: Result, asks: bool) -> list[str]:
    """Skill by skill; then what seems so, unless it is asked next, and how to put it right."""
    name, where = clean(found.child.name), f"{found.found.id} {word(found.child.name)}"
    if not found.begun:
        return [
            f"{name} has had no placement of {found.found.id} yet.",
            f"Begin one: review placement {where}",
        ]
    return [
        f"{name}: {clean(found.found.title)}",
        *(line for one in found.skills for line in skill_lines(one, family.words_of(found.child))),
        *typing(found),
        "",
        *([] if asks else suggested(found)),
        f"Not so? review placement {where} --show --known CARD, or --not CARD",
    ]


def typing(found: Result) -> list[str]:
    """What is taken off an answer's time, where the child's own is known."""
    own = f"{found.copy_ms / 1000:.1f}"
    return [f"  Types a number of two digits in about {own} seconds."] if found.copy_ms else []


def skill_lines(one: Found, words: Words) -> list[str]:
    """ "Table of 6: 6 of 8 asked known." and under it which are not yet, worked out, said, not asked."""
    return [f"  {clean(one.skill.title)}: {head(one)}", *(f"    {line}" for line in details(one, words))]


def head(one: Found) -> str:
    if one.asked:
        return f"{one.right} of {one.asked} asked known."
    if one.said:
        return "known, you said."
    if one.tick == "untaught":
        return "not taught yet, so not asked."
    return "in the warm-ups already." if one.practised else "not asked yet."


def details(one: Found, words: Words) -> Iterable[str]:
    """Lists of cards; nothing that the first line has said already."""
    wholly_said = not one.asked and bool(one.said)
    lists = (
        ("Not yet", one.not_yet),
        ("Known, but worked out", one.worked_out),
        ("Known, you said", () if wholly_said else one.said),
        ("In the warm-ups already", one.practised if one.asked or one.said else ()),
        ("Not asked", one.unasked if one.asked or one.said else ()),
    )
    return (f"{label}: {listed(keys, words)}." for label, keys in lists if keys)


def listed(keys: Sequence[str], words: Words) -> str:
    """Titles of cards; of many the first ones and how many more."""
    titles = [clean(traits_of(key, words).title) for key in keys]
    left = len(titles) - MOST_NAMED
    return kept_apart([*titles[:MOST_NAMED], f"{left} more"] if left > 0 else titles)


# --- what is suggested --------------------------------------------------------------------------------


def suggested(found: Result) -> list[str]:
    """Nothing is marked by itself: what to type, where something seems so."""
    who = word(found.child.name)
    lines = [
        f"Most of “{clean(one.skill.title)}” is known. When it has been taught: review taught "
        f"{one.skill.id} {who}"
        for one in found.skills
        if seems_taught(one)
    ]
    rest = [
        f"The rest of “{clean(one.skill.title)}” is likely known too. To count it as known: review placement "
        f"{found.found.id} {who} --show --rest {one.skill.id}"
        for one in found.skills
        if rest_likely(one)
    ]
    return [*lines, *rest]


def ask_taught(one: Found) -> str:
    return f"Most of “{clean(one.skill.title)}” is known. Has it been taught, so that its cards may come?"


def ask_rest(one: Found, words: Words) -> str:
    return f"Of “{clean(one.skill.title)}” was not asked: {listed(one.unasked, words)}. Count it as known?"


def tick_head(found: SkillSet, child: Child) -> list[str]:
    """Before the child sits down: what need not be asked."""
    cards = plural(len(found.skills), "idea")
    return [
        f"{clean(found.title)}: {cards}. First you: what does {clean(child.name)} know surely, "
        "what was not taught yet?",
        TICK_CHOICES,
    ]


def copying(child: Child) -> list[str]:
    """What the copying exercise is for, before a parent is asked."""
    name = clean(child.name)
    return [
        f"{name}'s time to type a number is taken off every answer that is judged by time. It goes by age "
        f"until {name} has copied a few numbers.",
    ]


def handed_over(child: Child, reads_out: bool) -> list[str]:
    name = clean(child.name)
    how = f"Now you read out to {name}." if reads_out else f"Now {name} types."
    return ["", f"{how} It takes four minutes at most."]


def is_here(child: Child) -> str:
    return f"Enter when {clean(child.name)} sits here"


def said(kept: Said) -> list[str]:
    """Where the parent's own words leave nothing to ask: what is in the book, and what comes next."""
    who = word(kept.child.name)
    titles = {skill.id: clean(skill.title) for skill in kept.found.skills}
    known, untaught = (kept_apart([titles[skill] for skill in some]) for some in kept.ticks)
    told = (
        (True, f"It is in the book, and nothing is left to ask {clean(kept.child.name)}."),
        (known, f"Known, you said: {known}."),
        (untaught, f"Not taught yet: {untaught}."),
        (known, f"The warm-ups keep what is known: review warmup {who}"),
        (
            untaught,
            f"When an idea has been taught: review taught {next(iter(kept.ticks.untaught), '')} {who}",
        ),
        (known, f"Not so? review placement {kept.found.id} {who} --show --not CARD"),
    )
    return [line for holds, line in told if holds]


def after(child: Child, found: SkillSet) -> list[str]:
    return [f"For a parent: review placement {found.id} {word(child.name)} --show"]


# --- JSON ---------------------------------------------------------------------------------------------


def row(found: Result) -> dict[str, object]:
    """The keys are a promise; they are only ever added to."""
    return {
        "child": found.child.name,
        "set": found.found.id,
        "begun": found.begun,
        "copy_ms": found.copy_ms,
        "skills": [skill_row(one) for one in found.skills],
    }


def said_row(kept: Said) -> dict[str, object]:
    """As a placement ends that asked nothing."""
    nothing = dict.fromkeys(("first_tries", "right", "new", "overdue_left"), 0)
    return {"type": "summary", "minutes": 0.0, **nothing, "finished": True, "lines": said(kept)}


def skill_row(one: Found) -> dict[str, object]:
    return {
        "skill": one.skill.id,
        "title": one.skill.title,
        "said": one.tick,
        "taught": one.taught,
        "asked": one.asked,
        "known": list(one.known),
        "worked_out": list(one.worked_out),
        "not_yet": list(one.not_yet),
        "said_known": list(one.said),
        "practised": list(one.practised),
        "unasked": list(one.unasked),
        "seems_taught": seems_taught(one),
        "rest_likely": rest_likely(one),
    }
