"""The log as a record of days, for a portfolio: what was done when, with samples, and what a parent noted."""

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, NamedTuple, TypeVar

from review.core import amendments, card_names, days, family, given, judging, marking, skills, tries
from review.core.answer_bodies import event_answer
from review.core.model import STANDARD, Answer, Event, Pupil, Sort, Words
from review.core.text import in_words
from review.core.tries import Tally, Try

Dated = TypeVar("Dated", Event, Try)
SAMPLES = 3  # problems shown of a day, each of another skill (our judgement)


class Sample(NamedTuple):
    """A problem as it was shown, and what was given."""

    problem: str
    given: str
    mark: str
    sitting: Sort = ""
    slip: bool = False  # of the keys, as a parent said: taken as right
    written: str = ""  # what was given, as the problem writes it


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
    gentle: int = 0  # of the problems those that count for nothing, since the day was hard
    extra: int = 0  # and those of a few more of one kind


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
    words: Words = STANDARD
    taken: tuple[str, ...] = ()  # as of a day


def diary(pupil: Pupil, rows: Iterable[Event], since: int, until: int) -> Diary:
    told = [row for row in amendments.amended(rows) if since <= row.day <= until]
    answers = [row for row in told if row.kind == "answer"]
    first = [*tries.first_tries(answers)]
    rows_by, first_by = by_day(told), by_day(first)
    titles = card_titles(pupil)
    words = family.words_of(pupil.child)
    made = (
        in_words_of(one_day(day, some, first_by.get(day, ()), titles, pupil), words)
        for day, some in rows_by.items()
    )
    return Diary(
        pupil.child.name,
        since,
        until,
        tuple(one for one in made if one.problems or one.notes),
        len(tries.practised(answers)),
        tries.spent_ms(answers),
        tries.tally(first),
        words.maths,
        words,
        tries.taken(answers),
    )


def by_day(rows: Iterable[Dated]) -> dict[int, list[Dated]]:
    found: dict[int, list[Dated]] = defaultdict(list)
    for row in rows:
        found[row.day].append(row)
    return found


def one_day(
    day: int, rows: Sequence[Event], first: Sequence[Try], titles: Mapping[str, str], pupil: Pupil
) -> Day:
    answers = [row for row in rows if row.kind == "answer"]
    shown = [*filter(tries.is_problem, answers)]
    sorts = Counter(row.body.get("sitting") for row in shown)
    counted = Counter(titles.get(row.card) or title(row.card, pupil) for row in shown)
    return Day(
        day,
        tries.spent_ms(answers),
        len(shown),
        tries.tally(first),
        tries.taken(answers),
        tuple(name for name, _ in counted.most_common()),
        samples([one.answer for one in first] or map(event_answer, shown), titles),
        notes(rows, pupil),
        sorts["gentle"],
        sorts["extra"],
    )


def in_words_of(day: Day, words: Words) -> Day:
    """Its problems and what was given, as the family writes them."""

    def shown(one: Sample) -> Sample:
        problem, typed, written = (
            family.as_written(text, words) for text in (one.problem, one.given, one.written)
        )
        return one._replace(problem=problem, given=typed, written=written)

    return day._replace(samples=tuple(map(shown, day.samples)))


def card_titles(pupil: Pupil) -> dict[str, str]:
    """The title of the skill of each card the child has now."""
    return {card.key: pupil.skills[card.skill].title for card in pupil.cards}


def title(card: str, pupil: Pupil) -> str:
    """Of a card whose set was dropped since: its own."""
    return card_names.title(card, family.words_of(pupil.child))


# --- samples ------------------------------------------------------------------------------------------


def samples(answers: Iterable[Answer], titles: Mapping[str, str]) -> tuple[Sample, ...]:
    """The first answered problem of a few skills, from the beginning, the middle and the end of the day: of
    its first tries, where it has any."""
    found: dict[str, Answer] = {}
    for one in answers:
        if one.given:
            found.setdefault(titles.get(one.card, one.card), one)
    every = tuple(found.values())
    places = sorted({n * (len(every) - 1) // (SAMPLES - 1) for n in range(SAMPLES)}) if every else []
    return tuple(sample(every[place]) for place in places)


def sample(answer: Answer) -> Sample:
    """The prompt; in words where it was a picture; as it was asked, where it cannot be shown any more.
    What is written in columns stands in its prompt too, and is read sooner there than in words."""
    mark = marking.as_said(answer)
    problem = skills.undrawn_if_known(answer.card, answer.asked)
    if problem is None:
        return Sample(answer.asked, answer.given, mark, answer.sitting, written=answer.given)
    words = problem.say if problem.picture and not problem.prompt.endswith("=") else problem.prompt
    slip, written = judging.was_slip(problem, answer), given.as_written(problem, answer.given)
    return Sample(words, answer.given, mark, answer.sitting, slip, written)


# --- what a parent noted ------------------------------------------------------------------------------


def notes(rows: Iterable[Event], pupil: Pupil) -> tuple[str, ...]:
    """What events of other kinds say, in words: what is said more than once under one label, once."""
    told: dict[str, dict[str, None]] = defaultdict(dict)
    for row in rows:
        if row.kind in NOTED:
            label, of_row = NOTED[row.kind]
            told[label] |= dict.fromkeys(of_row(row, pupil))
    return tuple(f"{label}: {'; '.join(things)}" for label, things in told.items() if things)


def skill_title(name: str, pupil: Pupil) -> str:
    return pupil.skills[name].title if name in pupil.skills else name


def set_title(name: str, pupil: Pupil) -> str:
    return pupil.sets.get(name, name)


def days_off(row: Event, pupil: Pupil) -> list[str]:
    span = dict.fromkeys((int(str(row.body["from"])), int(str(row.body["to"]))))
    return [in_words([days.words(day) for day in span], "to")]


def skill_titles(row: Event, pupil: Pupil) -> list[str]:
    body: Mapping[str, Any] = row.body
    return [skill_title(str(name), pupil) for name in body.get("skills", ())]


NOTED: Mapping[str, tuple[str, Callable[[Event, Pupil], list[str]]]] = {
    "taught": ("Taught", skill_titles),
    "set_add": ("Set given", lambda row, pupil: [set_title(str(row.body["set"]), pupil)]),
    "set_drop": ("Set taken back", lambda row, pupil: [set_title(str(row.body["set"]), pupil)]),
    "away": ("Days off", days_off),
    "known": ("Known already", lambda row, pupil: [title(row.card, pupil)]),
}
"""What is noted of each kind of event: under which label, and of what."""
