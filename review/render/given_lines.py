"""What came of giving a set to a child, or of taking it back, in words."""

from collections.abc import Sequence

from review import replies
from review.core import family
from review.core.card_sets import keys_of
from review.core.edited_sets import Edited
from review.core.looks import traits_of
from review.core.model import Words
from review.core.text import clean, ended, in_words, plural
from review.render.phrases import named
from review.render.set_lines import AIM_WORDS
from review.shell import word


def set_given(given: replies.Given, asked: bool) -> list[str]:
    name, who, found = clean(given.child.name), word(given.child.name), given.found
    head = f"{name} has {found.id} now: {plural(given.cards, 'card')}, {plural(len(found.skills), 'skill')}."
    begun = [head, *own_aims(given), *aim_lost(given), *edits(given), *elsewhere(given)]
    left = [] if asked else untaught(given)
    if given.taught:
        return [*begun, f"Taught already: {in_words(given.taught)}.", *left, f"Start: review warmup {who}"]
    silent = "" if asked else " (Nobody could be asked: this is not a terminal.)"
    return [
        *begun,
        f"None of it is marked as taught yet, so no card comes.{silent}",
        *left,
        f"When the first idea has been taught: review taught {found.skills[0].id} {who}",
    ]


def untaught(given: replies.Given) -> list[str]:
    """What a terminal would have asked about."""
    names = [clean(skill.id) for skill in given.found.skills if skill.id not in given.taught]
    return [f"Not taught yet: {in_words(names)}."] if names else []


def own_aims(given: replies.Given) -> list[str]:
    """Skills that keep the aim of their set, and why."""
    guessed = "; ".join(clean(skill.title) for skill in given.guessed)
    why = "With two or three answers to choose from, knowing and guessing look alike"
    return [f"{why}, so here right is enough: {guessed}."] if guessed else []


def aim_lost(given: replies.Given) -> list[str]:
    """The family had chosen an aim when the set was given before, and has not named it now."""
    found, before = given.found, given.aim_before
    if not before:
        return []
    again = f"review set add {word(found.id)} {word(given.child.name)} --aim {before}"
    return [f"Its aim was “{AIM_WORDS[before]}”, by your choice. Now it has its own. As it was: {again}"]


def edits(given: replies.Given) -> list[str]:
    """What is not in the set as it was given before; a skill of another name is not taught by itself."""
    if given.edited is None:
        return []
    told = [
        *skills_gone(given.edited),
        *renamed(given.edited, word(given.child.name)),
        *changed_cards(given.edited, family.words_of(given.child)),
    ]
    return told or ["It was given before, and nothing in it has changed."]


def skills_gone(found: Edited) -> list[str]:
    gone = in_words([clean(skill.id) for skill in found.gone])
    them = "it" if len(found.gone) == 1 else "them"
    return [f"No longer in it: {gone}. What was learned of {them} is kept."] if gone else []


def renamed(found: Edited, who: str) -> list[str]:
    return [
        f"{clean(new.id)} has cards of {clean(old.id)}, which was taught. If it has only another name: "
        f"review taught {clean(new.id)} {who}"
        for old, new in found.moved
    ]


def changed_cards(found: Edited, words: Words) -> list[str]:
    """Cards that came and went. One that has gone and come under the same title has another answer, or other
    numbers: it is another card, and what was learned of the old one says nothing of it."""
    came, left = (titles(keys, words) for keys in (found.came, unsaid(found)))
    before, after = frozenset(titles(found.went, words)), frozenset(came)
    sorts = {
        "New in it": [title for title in came if title not in before],
        "Changed, so begun anew": [title for title in came if title in before],
        "Asked no more": [title for title in left if title not in after],
    }
    return [ended(f"{head}: {named(some)}") for head, some in sorts.items() if some]


def unsaid(found: Edited) -> list[str]:
    """Cards that went, but those of a skill that is told to be gone whole."""
    told = {key for skill in found.gone for key in keys_of(skill)}
    return [key for key in found.went if key not in told]


def titles(keys: Sequence[str], words: Words) -> list[str]:
    return [traits_of(key, words).title for key in keys]


def elsewhere(given: replies.Given) -> list[str]:
    """A set that was edited is edited for the child it is given to alone."""
    whose = in_words([clean(name) for name in given.others])
    has = "still has" if len(given.others) == 1 else "still have"
    again = [f"review set add {word(given.name)} {word(name)}" for name in given.others]
    return [f"{whose} {has} it otherwise. To give this one there too: {', '.join(again)}"] if whose else []


def set_dropped(name: str, set_id: str) -> list[str]:
    return [
        f"{clean(name)} no longer has {clean(set_id)}. What was learned is kept.",
        f"To have it back: review set add {word(set_id)} {word(name)}",
    ]
