"""Reports as lines for a parent, and as the tables of JSON. One function a screen."""

from collections.abc import Collection, Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from review.core import days, family
from review.core.model import Child, Skill
from review.core.skills.strategies import STRATEGIES
from review.core.text import clean, ended, in_words, plural
from review.shell import word

if TYPE_CHECKING:
    from review import replies


def capital(text: str) -> str:
    return text[:1].upper() + text[1:]


# --- children ------------------------------------------------------------------------------------------


def child_added(child: Child, book: Path) -> list[str]:
    name = clean(child.name)
    return [
        f"{name} is in the book: {plural(child.age, 'year')} old, {minutes(child.minutes)} a day.",
        f"The book: {book}",
        f"Next, what has been taught already: review set pick {word(child.name)}",
        f"Or one by one: review set list, then review set add SET {word(child.name)}",
    ]


def child_edited(child: Child) -> list[str]:
    """What is kept now, and from when it counts."""
    pace = f"{plural(child.pace, 'new card')} a day" if child.pace else "new cards a day by age"
    time = "time is never judged by" if child.untimed else "time counts for skills you name"
    who = f"{clean(child.name)}: {plural(child.age, 'year')} old"
    ways = {"aloud": "; you read out, the child answers", "typed": "; the child types", "": ""}
    zone = f"; days go by the time of {child.zone}" if child.zone else ""
    told = f"{who}, {minutes(child.minutes)} a day, {pace}; {time}{ways[child.mode]}{zone}."
    return [
        *family.reported([told], family.words_of(child)),
        *likings(child),
        "A warm-up that was begun today keeps its plan.",
    ]


def likings(child: Child) -> list[str]:
    """Each strategy that help follows, in words and by its name."""
    liked = [name for name in dict.fromkeys(child.likes.values()) if name in STRATEGIES]
    return [f"Where it suits, help goes by this: {STRATEGIES[name].parent} ({name})." for name in liked]


def children(found: Sequence[Child]) -> list[str]:
    if not found:
        return ["There is no child in the book yet. Add one: review child add NAME --age 7"]
    return [child_line(child) for child in found]


def child_line(child: Child) -> str:
    sets = in_words([chosen.set_id for chosen in child.sets]) or "none yet"
    pace = f", {plural(child.pace, 'new card')} a day" if child.pace else ""
    timed = ", never judged by time" if child.untimed else ""
    age = plural(child.age, "year")
    told = (
        f"{clean(child.name)}: {age} old, {minutes(child.minutes)} a day{pace}{timed}. Sets: {clean(sets)}."
    )
    return family.reported([told], family.words_of(child))[0]


def child_row(child: Child) -> dict[str, object]:
    return {
        "name": child.name,
        "age": child.age,
        "minutes": child.minutes,
        "zone": child.zone,
        "untimed": child.untimed,
        "mode": child.mode,
        "pace": child.pace or None,
        "sets": [chosen.set_id for chosen in child.sets],
        "taught": list(child.taught),
        "likes": dict(child.likes),
        "words": family.words_of(child)._asdict(),
    }


def minutes(count: float) -> str:
    return plural(int(count), "minute") if count == int(count) else f"{count:g} minutes"


def spent(ms: int, taken: Sequence[str]) -> str:
    """The time of answers, "" where none was taken, as on paper. Where only some was, it is said of which."""
    whole = round(ms / 60_000)
    told = plural(whole, "minute") if whole else "under a minute" if ms else ""
    return f"{told} typed" if told and {*taken} - {"typed"} else told


# --- what was taught -----------------------------------------------------------------------------------


def taught(done: "replies.Taught") -> list[str]:
    name, who = clean(done.child.name), word(done.child.name)
    if done.back:
        return [
            ended(f"Not taught to {name} yet: {by_title(done.skills)}"),
            "No card of it comes until you say so again. What was answered is kept.",
        ]
    new = [skill for skill in done.skills if skill.id not in done.child.taught]
    if not new:
        return [
            ended(f"Taught to {name} already: {by_title(done.skills)}") + timing(done),
            f"Which of its cards come today, and why: review warmup {who} --explain",
        ]
    before = [skill for skill in done.skills if skill not in new]
    return [
        ended(f"Taught to {name}: {by_title(new)}") + timing(done),
        *([ended(f"Taught already: {by_title(before)}")] if before else []),
        f"Its cards come with the next warm-up that begins: review warmup {who}",
    ]


def by_title(skills: Iterable[Skill]) -> str:
    return "; ".join(clean(skill.title) for skill in skills)


def timing(done: "replies.Taught") -> str:
    if done.timed and done.child.untimed:
        return " Time is off for this child, so it does not count."
    if done.timed and not done.from_memory:
        return " Time does not count: it need not come from memory."
    return {True: " Answers are asked from memory from now on.", False: " Time does not count.", None: ""}[
        done.timed
    ]


# --- the front door ------------------------------------------------------------------------------------


def front_door(rows: Sequence["replies.Today"]) -> list[str]:
    if not rows:
        return children(())
    return [line for row in rows for line in today_lines(row)]


def today_row(row: "replies.Today") -> dict[str, object]:
    return {
        "child": row.child.name,
        "done": row.done,
        "sets": row.sets,
        "taught": row.taught,
        "scribbled": row.scribbled,
        "away_until": days.date_of(row.away_until).isoformat() if row.away_until else None,
    }


def today_lines(row: "replies.Today") -> list[str]:
    name, who = clean(row.child.name), word(row.child.name)
    if not row.sets or not row.taught:
        return unready(name, who, row.sets)
    odd = [SCRIBBLED.format(who=who)] if row.scribbled else []
    if row.done:
        return [f"{name}: done today", *odd, f"  for you: review overdue {who}"]
    if row.away_until:
        return [f"{name}: away until {days.words(row.away_until)}", *odd]
    return [f"{name}: ready", *odd, f"  review warmup {who}"]


SCRIBBLED = (
    "  Some answers could not be read, one after the other. "
    "If they were not the child's own: review undo --sitting {who}"
)


def is_ready(child: Child, skills: Collection[str]) -> bool:
    """Whether any card can come. `skills`: of the sets the child has now; what was taught of one that was
    dropped asks nothing."""
    return not set(skills).isdisjoint(child.taught)


def unready(name: str, who: str, sets: int) -> list[str]:
    """A child for whom no card can come yet, and what to type."""
    if not sets:
        return [
            f"{name}: no skill set yet",
            f"  review set pick {who}",
            f"  Or one by one: review set list, then review set add SET {who}",
        ]
    return [f"{name}: nothing taught yet", f"  review teach {who}, then review taught SKILL {who}"]


# --- the demo ------------------------------------------------------------------------------------------


def demo_intro(path: Path) -> list[str]:
    return [
        "An invented family that keeps a lighthouse has practised for 90 days.",
        "Their answers come from simulated children; the plan, the sittings and the book are the real ones.",
        f"Their book, and nobody else's: {path}",
    ]


def demo_end(path: Path, name: str, alone: bool) -> list[str]:
    """`alone`: nothing else stands in the book's folder. What does may be dear to a family."""
    trial = f"review warmup {word(name)} --try --typed"
    what = "the folder" if alone else f"what begins with {path.name} in"
    return [
        "",
        f"Sit down in {name}'s place (nothing is kept): {trial}",
        f"When you have seen enough, delete {what} {path.parent}",
    ]


# --- proof ---------------------------------------------------------------------------------------------


def proof_row(found: "replies.Proof") -> dict[str, object]:
    return {
        "sound": not found.problems,
        "problems": list(found.problems),
        "children": found.children,
        "answers": found.answers,
        "others": found.others,
        "book": str(found.path),
    }


def proof(found: "replies.Proof") -> list[str]:
    counts = (
        f"The book is sound. Children: {found.children}. Answers: {found.answers:,}. "
        f"Other entries: {found.others:,}."
    )
    return [
        *family.reported([counts], found.words),
        "Every entry is chained to the one before, and memory rebuilds to the same bits.",
        f"The book: {found.path}",
    ]
