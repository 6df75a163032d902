"""The log as a record of days, for a portfolio: what was done when, with samples, and what a parent noted."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from review.core import amendments, days, family, skills, tries
from review.core.model import Answer, Event, Pupil, Skill, Words
from review.core.text import in_words, plural
from review.core.tries import Tally, Try

SAMPLES = 3  # problems shown of a day, each of another skill (our judgement)


class Sample(NamedTuple):
    """A problem as it was shown, and what was given."""

    problem: str
    given: str
    mark: str


class Day(NamedTuple):
    """One practice day, or one on which a parent noted something."""

    day: int
    ms: int  # of all answers
    problems: int  # shown; a copy is none of its own
    tally: Tally
    taken: tuple[str, ...]  # typed, aloud, on paper
    skills: tuple[str, ...]  # titles, most practised first
    samples: tuple[Sample, ...]
    notes: tuple[str, ...]


class Diary(NamedTuple):
    """One child's record between two dates."""

    child: str
    since: int
    until: int
    days: tuple[Day, ...]
    practised: int  # days
    ms: int
    tally: Tally
    subject: str = "maths"  # as the family calls it


def diary(pupil: Pupil, rows: Iterable[Event], since: int, until: int) -> Diary:
    told = [row for row in amendments.amended(rows) if since <= row.day <= until]
    answers = [row for row in told if row.kind == "answer"]
    by_day: dict[int, list[Event]] = defaultdict(list)
    for row in told:
        by_day[row.day].append(row)
    titles = card_titles(pupil)
    words = family.words_of(pupil.child)
    made = (in_words_of(one_day(day, some, titles, pupil.skills), words) for day, some in by_day.items())
    return Diary(
        pupil.child.name,
        since,
        until,
        tuple(one for one in made if one.problems or one.notes),
        len({row.day for row in answers}),
        tries.spent_ms(answers),
        tries.tally(tries.first_tries(answers)),
        words.maths,
    )


def one_day(day: int, rows: Sequence[Event], titles: Mapping[str, str], known: Mapping[str, Skill]) -> Day:
    answers = [row for row in rows if row.kind == "answer"]
    shown = [row for row in answers if row.body.get("role") != "copy" and row.body["mark"] != "void"]
    first = list(tries.first_tries(answers))
    counted = Counter(titles.get(row.card) or title(row.card) for row in shown)
    return Day(
        day,
        tries.spent_ms(answers),
        len(shown),
        tries.tally(first),
        tuple(sorted({str(row.body.get("taken", "typed")) for row in shown})),
        tuple(name for name, _ in counted.most_common()),
        samples(first, titles),
        tuple(dict.fromkeys(note for row in rows for note in notes(row, known))),
    )


def in_words_of(day: Day, words: Words) -> Day:
    """Its problems and what was given, as the family writes them."""

    def shown(one: Sample) -> Sample:
        problem, given = family.as_written(one.problem, words), family.as_written(one.given, words)
        return Sample(problem, given, one.mark)

    return day._replace(samples=tuple(map(shown, day.samples)))


def card_titles(pupil: Pupil) -> dict[str, str]:
    """The title of the skill of each card the child has now."""
    return {card.key: pupil.skills[card.skill].title for card in pupil.cards}


def title(card: str) -> str:
    """Of a card whose set was dropped since: its own."""
    try:
        return skills.traits(card).title
    except (LookupError, ValueError):
        return card


# --- samples ------------------------------------------------------------------------------------------


def samples(first: Iterable[Try], titles: Mapping[str, str]) -> tuple[Sample, ...]:
    """The first answered problem of a few skills, from the beginning, the middle and the end of the day."""
    found: dict[str, Answer] = {}
    for one in first:
        if one.answer.given:
            found.setdefault(titles.get(one.card, one.card), one.answer)
    every = tuple(found.values())
    places = sorted({n * (len(every) - 1) // (SAMPLES - 1) for n in range(SAMPLES)}) if every else []
    return tuple(sample(every[place]) for place in places)


def sample(answer: Answer) -> Sample:
    return Sample(problem_words(answer), answer.given, answer.mark)


def problem_words(answer: Answer) -> str:
    """The prompt; in words where it was a picture; as it was asked, where it cannot be shown any more."""
    try:
        problem = skills.problem(answer.card, answer.asked)
    except (LookupError, ValueError):
        return answer.asked
    return problem.say if problem.picture else problem.prompt


# --- what a parent noted ------------------------------------------------------------------------------


def notes(row: Event, known: Mapping[str, Skill]) -> list[str]:
    """What an event of another kind says, in words."""
    body: Mapping[str, Any] = row.body
    if row.kind == "taught":
        named = [str(name) for name in body.get("skills", ())]
        titles = [known[name].title if name in known else name for name in named]
        return [f"Taught: {'; '.join(titles)}"] if titles else []
    if row.kind == "set_add":
        return [f"Set given: {body['set']}"]
    if row.kind == "set_drop":
        return [f"Set taken back: {body['set']}"]
    if row.kind == "away":
        span = dict.fromkeys((int(body["from"]), int(body["to"])))
        return [f"Days off: {in_words([days.words(day) for day in span], 'to')}"]
    return [f"Known already: {title(row.card)}"] if row.kind == "known" else []


def total_words(found: Diary) -> str:
    return f"{plural(found.practised, 'day')} with practice, {plural(round(found.ms / 60_000), 'minute')}"
