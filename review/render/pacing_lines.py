"""What so many minutes a day bring, as lines for a parent and as tables of JSON."""

from itertools import pairwise

from review.core import days, family, new_cards, pacing
from review.core.pacing import Brought, Pacing, Range
from review.core.text import clean, plural
from review.render.lines import minutes, unready
from review.render.phrases import date
from review.shell import word

FOOT = (
    f"From {pacing.CHILDREN} simulated children who begin with this child's memory and pace, and the real "
    "plan; real children differ more. Later: not within these weeks. Holding: known on three days, and "
    "trusted for two weeks."
)
FEW_RIGHT = 5  # of the last ten first tries: with fewer no weeks will mend it by themselves (our judgement)
CHANCE = "Fewer cards with more minutes is chance: one simulated child differs so much from the next."


def lines(found: Pacing) -> list[str]:
    child = found.pupil.child
    name, who = clean(child.name), word(child.name)
    if not found.brought:
        return unready(name, who, len(child.sets))
    told = [
        f"{name}: what so many minutes a day bring by {days.words(found.until)}",
        f"  {sum(found.holding.values())} of {plural(sum(found.cards.values()), 'card')} hold now. "
        f"Reckoned with {days_words(found.days_a_week)} a week{taught_words(found)}.",
        "",
        *(f"  {brought_line(one)}" for one in found.brought),
        f"  {enough_words(found)}",
        *(f"  {line}" for line in (*chance_lines(found), *lately_lines(found))),
        *set_lines(found),
    ]
    return family.reported(told, family.words_of(child))


def days_words(days_a_week: float) -> str:
    """To the half: a quarter of a day is no day."""
    near = round(2 * days_a_week) / 2
    return f"{'' if near == days_a_week else 'about '}{near:g} {'day' if near == 1 else 'days'}"


def enough_words(found: Pacing) -> str:
    least = pacing.enough(found.brought)
    return f"{minutes(least)} a day bring about as much as more." if least else "More minutes bring more."


def chance_lines(found: Pacing) -> list[str]:
    """Why more minutes may show fewer cards: so few simulated children leave much to chance."""
    held = [one.held for one in found.brought if not one.wish.pause]
    falls = any(more.low < less.low or ends(more) < ends(less) for less, more in pairwise(held))
    return [CHANCE] if falls else []


def lately_lines(found: Pacing) -> list[str]:
    """Of a child to whom little comes just now, as to no simulated one: the ranges are not for it yet."""
    right = new_cards.of_ten(found.pupil.recent)
    if right is None or right >= FEW_RIGHT:
        return []
    came = f"Of the last ten first tries {right or 'none'} {'were' if right > 1 else 'was'} right."
    first = f"See first what to teach: review stuck {word(found.pupil.child.name)}"
    return [f"{came} Simulated children do better. {first}"]


def ends(held: Range) -> float:
    return held.low if held.high is None else held.high


def set_lines(found: Pacing) -> list[str]:
    """Sets that hold now, then those that do not, with the weeks until they do."""
    open_ = [name for name in found.cards if found.holding[name] < pacing.HELD * found.cards[name]]
    held = "; ".join(set_title(found, name) for name in found.cards if name not in open_)
    head = "  Weeks until nine in ten of a set's cards hold:"
    later = ["", head, *(f"    {set_line(found, name)}" for name in open_)]
    return [*(["", f"  Hold now: {held}."] if held else []), *(later if open_ else [])]


def taught_words(found: Pacing) -> str:
    every = found.pupil.settings.taught is None
    return ", as if all of the sets were taught" if every else " and what is taught now"


def brought_line(one: Brought) -> str:
    first = "After a pause of two weeks, " if one.wish.pause else ""
    misses = Range(*(round(100 * (share or 0)) for share in one.misses))
    return (
        f"{first}{minutes(one.wish.minutes)} a day: {words(one.held)} cards holding; "
        f"{words(misses)} of 100 first tries not right."
    )


def set_line(found: Pacing, name: str) -> str:
    now = f"{set_title(found, name)} ({found.holding[name]} of {plural(found.cards[name], 'card')} hold)"
    told = [(one.wish.minutes, one.weeks[name]) for one in found.brought if not one.wish.pause]
    if len(set(alike := [weeks_words(weeks) for _, weeks in told])) == 1:
        return f"{now}: {alike[0]}, whatever the minutes."
    return f"{now}: {'; '.join(f'{time:g} min: {weeks_words(weeks)}' for time, weeks in told)}."


def set_title(found: Pacing, name: str) -> str:
    return clean(found.pupil.sets.get(name, name))


def weeks_words(found: Range | None) -> str:
    if found is None:
        return "later"
    return f"{found.low:g} or later" if found.high is None else words(found)


def words(found: Range) -> str:
    same = found.low == found.high
    return f"{found.low:g}" if same else f"{found.low:g} to {found.high:g}"


def row(found: Pacing) -> dict[str, object]:
    return {
        "child": found.pupil.child.name,
        "until": date(found.until),
        "days_a_week": found.days_a_week,
        "simulated_children": pacing.CHILDREN,
        "sets": {
            name: {"cards": count, "holding": found.holding[name]} for name, count in found.cards.items()
        },
        "ways": [way_row(one) for one in found.brought],
    }


def way_row(one: Brought) -> dict[str, object]:
    return {
        "minutes": one.wish.minutes,
        "pause_days": pacing.PAUSE if one.wish.pause else 0,
        "holding": list(one.held),
        "not_right": [None if end is None else round(end, 4) for end in one.misses],
        "weeks_until_held": {
            name: None if weeks is None else list(weeks) for name, weeks in one.weeks.items()
        },
    }
