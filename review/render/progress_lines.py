"""How a child comes along, as lines for a parent and as tables of JSON."""

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

from review.core import days, family
from review.core.text import clean, ended, plural
from review.render.lines import is_ready, spent, unready
from review.render.phrases import CAUTION, date
from review.shell import word

if TYPE_CHECKING:  # the record of days speaks of tallies too, and of nothing else here
    from review.core.calibration import Band
    from review.core.progress import Grown, Progress, SkillProgress, Week
    from review.core.standing import Look
    from review.core.tries import Tally

NAMED = 8  # cards named in a line before it says "and more" (our judgement)
DIFFERS = 0.02  # from memory and right are told apart from so much on (our judgement)
ENOUGH = 10  # first tries in a band before its share is told (our judgement)


def progress(found: "Progress") -> list[str]:
    child = found.pupil.child
    name, who = clean(child.name), word(child.name)
    if not is_ready(child, found.pupil.skills):
        return unready(name, who, len(child.sets))
    lines = [
        f"{name}, {span(found.since, found.until)}",
        *(f"  {line}" for line in (*whole_lines(found), cards_line(found))),
        *(f"  {line}" for line in grown_lines(found.grown)),
        *set_lines(found),
        "",
        *(f"  {line}" for line in calibration_lines(found.bands)),
    ]
    return family.reported(lines, family.words_of(child))


def span(since: int, until: int) -> str:
    return f"{days.words(since)} to {days.words(until)}"


def whole_lines(found: "Progress") -> list[str]:
    pause = f" The last was on {days.words(found.last)}." if found.last else ""
    if not found.days:
        who = word(found.pupil.child.name)
        return [f"No practice in this time.{pause} The daily warm-up: review warmup {who}"]
    time = f", {spent(found.ms, found.taken)}" if found.ms else ""
    practised = f"Practised on {plural(found.days, 'day')}{time}.{pause}"
    return [practised, *([f"First tries: {tally_words(found.tally)}."] if found.tally.tries else [])]


def cards_line(found: "Progress") -> str:
    """All cards in one line, before the skills one by one, which may add up to more."""
    now = found.now
    overdue = f", {now.overdue:,} overdue" if now.overdue else ""
    return f"Cards: {now.met:,} met, {now.holding:,} holding{overdue}.{shared_words(now.shared)}"


def shared_words(count: int) -> str:
    verb = "stands" if count == 1 else "stand"
    return f" {count:,} of them {verb} with more than one skill below." if count else ""


def tally_words(tally: "Tally", when: str = "") -> str:
    """ "92% of 84 right, 71% from memory, 5 more with help"; what comes second and third only where it tells
    something more."""
    told = f"{tally.right / tally.tries:.0%} of {tally.tries:,} right{when}"
    return ", ".join(one for one in (told, from_memory_words(tally), helped_words(tally)) if one)


def from_memory_words(tally: "Tally") -> str:
    """Where it was asked for and is less. Where that was not of all, so many of how many: two shares beside
    each other are read as shares of the same."""
    memory = tally.from_memory / tally.timed if tally.timed else 1.0
    if memory >= tally.right / tally.tries - DIFFERS:
        return ""
    is_of_all = tally.timed == tally.tries
    share = f"{memory:.0%}" if is_of_all else f"{tally.from_memory:,} of {tally.timed:,}"
    return f"{share} from memory"


def helped_words(tally: "Tally") -> str:
    """Where they are more than a few: little seemed to be known of what was found all the same."""
    return f"{tally.helped:,} more with help" if tally.helped > DIFFERS * tally.tries else ""


def grown_lines(grown: "Grown") -> list[str]:
    """Of the end of the span alone, and said so: the span is four weeks, or twelve, or long ago."""
    told = (("Came to hold", grown.holding), ("Known for the first time", grown.known))
    return [ended(f"{label} in the last 7 days: {titles(cards)}") for label, cards in told if cards]


def titles(cards: Sequence["Look"]) -> str:
    named = "; ".join(clean(look.traits.title) for look in cards[:NAMED])
    return f"{named}; and {len(cards) - NAMED} more" if len(cards) > NAMED else named


def set_lines(found: "Progress") -> list[str]:
    """Skill by skill, under the set each belongs to."""
    groups: dict[str, list[SkillProgress]] = {}
    for one in found.skills:
        groups.setdefault(one.skill.set_id, []).append(one)
    titles = found.pupil.sets
    return [
        line
        for name, some in groups.items()
        for line in ("", f"  {set_head(name, titles)}", *map(skill_line, some))
    ]


def set_head(name: str, titles: Mapping[str, str]) -> str:
    return f"{clean(titles[name])} ({clean(name)})" if name in titles else clean(name)


def skill_line(one: "SkillProgress") -> str:
    known = f" Known since {days.words(one.known_day)}." if one.known_day else ""
    tried = f" {tally_words(one.tally)}{usual(one.tally)}." if one.tally.tries else ""
    return f"    {clean(one.skill.title)}: {states(one)}.{tried}{known}"


def states(one: "SkillProgress") -> str:
    """ "11 cards, all holding, 3 fluent, 1 overdue"; only what was met, where no more is asked."""
    if one.skill.aim == "familiarity":
        return f"{one.met} of {plural(one.cards, 'card')} met"
    met = plural(one.cards, "card") if one.met == one.cards else f"{one.met} of {one.cards} cards met"
    fluent = [] if one.fluent is None else [share(one.fluent, one.met, "fluent")]
    overdue = [f"{one.overdue} overdue"] if one.overdue else []
    return ", ".join([met, share(one.holding, one.met, "holding"), *fluent, *overdue])


def share(count: int, of: int, word: str) -> str:
    if count == 0:
        return f"not {word} yet" if of == 1 else f"none {word} yet"
    return word if of == 1 else f"all {word}" if count == of else f"{count} {word}"


def usual(tally: "Tally") -> str:
    if not tally.net_ms:
        return ""
    return f", usually {tally.net_ms / 1000:.1f} s" if tally.net_ms >= 1000 else ", usually under 1 s"


# --- promised and come ---------------------------------------------------------------------------------


def calibration_lines(bands: Sequence["Band"]) -> list[str]:
    told = [band for band in bands if band.n >= ENOUGH]
    if not told:
        return ["Too few first tries yet to hold what was promised against what came."]
    return [
        "What each morning's plan promised, and what came:",
        *(f"  {band_line(band)}" for band in told),
    ]


def band_line(band: "Band") -> str:
    within = f"between {band.within[0]:.0%} and {band.within[1]:.0%}, allowing for chance"
    return f"Promised {band_range(band)}: {band.right:.0%} of {band.n:,} came ({within})."


def band_range(band: "Band") -> str:
    return f"{band.low * 100:.0f} to {band.high * 100:.0f}%"


def foot(found: Sequence["Progress"]) -> list[str]:
    """What the words mean, where some of them stand above."""
    usually = ["“Usually” is without the time to type."] if has_times(found) else []
    return ["", *usually, "As a page with charts: add --html FILE", CAUTION]


def has_times(found: Iterable["Progress"]) -> bool:
    """Whether a usual time is told anywhere: of what is said aloud or done on paper there is none."""
    return any(one.tally.net_ms for progress in found for one in progress.skills)


# --- JSON ----------------------------------------------------------------------------------------------


def progress_row(found: "Progress") -> dict[str, object]:
    return {
        "child": found.pupil.child.name,
        "since": date(found.since),
        "until": date(found.until),
        "days": found.days,
        "minutes": round(found.ms / 60_000, 1),
        **tally_row(found.tally),
        "skills": [skill_row(one) for one in found.skills],
        "weeks": [week_row(one) for one in found.weeks],
        "calibration": [band_row(one) for one in found.bands],
        "grown": {"holding": keys(found.grown.holding), "known": keys(found.grown.known)},
        "cards": found.now._asdict(),
    }


def tally_row(tally: "Tally") -> dict[str, object]:
    return {
        "first_tries": tally.tries,
        "right": tally.right,
        "asked_from_memory": tally.timed,
        "from_memory": tally.from_memory,
        "net_seconds": tally.net_ms / 1000 if tally.net_ms else None,
        "helped": tally.helped,
    }


def skill_row(one: "SkillProgress") -> dict[str, object]:
    return {
        "skill": one.skill.id,
        "title": one.skill.title,
        "set": one.skill.set_id,
        "aim": one.skill.aim,
        "cards": one.cards,
        "met": one.met,
        "holding": one.holding,
        "overdue": one.overdue,
        "fluent": one.fluent,
        "known_since": date(one.known_day),
        **tally_row(one.tally),
    }


def week_row(week: "Week") -> dict[str, object]:
    minutes = round(week.ms / 60_000, 1)
    return {"monday": date(week.monday), "days": week.days, "minutes": minutes, **tally_row(week.tally)}


def band_row(band: "Band") -> dict[str, object]:
    return {
        "from": band.low,
        "to": band.high,
        "first_tries": band.n,
        "promised": round(band.promised, 4),
        "right": round(band.right, 4),
        "within": [round(end, 4) for end in band.within],
    }


def keys(cards: Iterable["Look"]) -> list[str]:
    return [look.card.key for look in cards]
