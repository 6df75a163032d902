"""Why a child misses, as far as the answers tell: as the last sitting left it, else worked out."""

import json
from collections.abc import Mapping
from contextlib import suppress
from typing import TYPE_CHECKING, Any

from review import __version__, gather
from review.book.store import Book
from review.core import days, family, skills
from review.core.digests import sha256
from review.core.model import Child, Event, Pupil
from review.core.warmup import Plan, Suspicion
from review.errors import BookError
from review.gather import Outside

if TYPE_CHECKING:  # a child waits for its first problem, and these are for a report
    from review.core.findings import Findings, Misses

SPAN = 182  # days that are read: half a year, half as long again as the longest gap (our judgement)
READ = 1000  # newest answers in which a warm-up looks for error rules: two months and more (our judgement)

MISSES, SUSPECTED = "misses", "suspected"  # what is kept of an evening
RULES = f"{__version__} 8"  # of what is kept: counted up when the same answers may tell something else
SEAL = 16  # hexadecimal digits: damage goes unseen once in 10^19 times


def of_family(outside: Outside, child_name: str | None, most: int | None = None) -> "list[Misses]":
    """For one child, or for all when no name is given. `most`: answers that are counted."""
    return gather.of_children(outside, child_name, lambda book, child, day: _of(book, child, day, most))


def _of(book: Book, child: Child, day: int, most: int | None) -> "Misses":
    """As things stood on that day."""
    from review.core.findings import Misses

    answers = book.answered(child.key, day, most)
    return Misses(child, family.age_on(child, day), answers, found_by(book, child.key, day))


# --- what is found, and what is suspected -------------------------------------------------------------


def found_by(book: Book, key: str, day: int) -> "Findings":
    """What was found by that day."""
    kept = kept_findings(book, key)
    return kept if kept and kept.day <= day else findings_by(book, key, day)


def findings_by(book: Book, key: str, day: int = days.LAST_DAY) -> "Findings":
    """From the half year up to that day, or to the last answer before it. What was taken back or put right
    since was never otherwise."""
    from review.core import confusions, counted, misses, readings, unsaid
    from review.core.amendments import as_they_count
    from review.core.findings import Findings

    since = max(1, min(day, last_answered(book, key, day) or day) - SPAN)
    rows = [*book.events(key, ("answer",), since_day=since, until_day=day)]
    told = [*as_they_count(book.events(key, gather.NAMING), rows)]
    families = readings.by_family(told)
    return Findings(
        max((row.day for row in rows), default=0),
        misses.found(families),
        confusions.of_answers([*readings.astray(families.get("product", ())).values()]),
        counted.counting(told),
        unsaid.unsaid(told),
        unsaid.helped(told),
    )


def last_answered(book: Book, key: str, day: int) -> int:
    """The day of the last answer up to that day; 0: there is none."""
    newest = book.answers(key, last=1)
    if newest and newest[-1].day > day:
        newest = [*book.events(key, ("answer",), until_day=day)][-1:]
    return newest[-1].day if newest else 0


def suspected(book: Book, pupil: Pupil, todays: Plan) -> dict[str, Suspicion]:
    """What the planned procedure cards may ask so that error rules are told apart."""
    kept = kept_suspicions(book, pupil.child.key)
    return suspected_now(book, pupil, todays) if kept is None else among(kept, pupil, todays)


def among(every: Mapping[str, Suspicion], pupil: Pupil, todays: Plan) -> dict[str, Suspicion]:
    """Of what is suspected by family, what the planned cards can tell."""
    if not every:
        return {}
    from review.core import misses

    return misses.of_cards(every, planned(todays), skills.traits_among(pupil.traits))


def suspected_now(book: Book, pupil: Pupil, todays: Plan) -> dict[str, Suspicion]:
    """Of the families of the planned cards alone."""
    from review.core import misses

    traits = skills.traits_among(pupil.traits)
    return misses.suspected(newest(book, pupil.child.key), planned(todays), traits)


def planned(todays: Plan) -> list[str]:
    return [item.key for item in (*todays.items, *todays.reserve)]


def newest(book: Book, key: str) -> list[Event]:
    """The newest answers, and what may speak of them."""
    recent = book.answers(key, last=READ)
    since = recent[0].day if recent else 0
    return [*recent, *book.events(child=key, kinds=gather.NAMING, since_day=since)]


# --- what is kept of an evening -----------------------------------------------------------------------


def keep(book: Book, key: str) -> None:
    """Leave in the book what the answers tell, where it is not there already: the next start, and the next
    report, need not wait for it. Nothing is lost where that cannot be written."""
    with suppress(BookError):
        ends = book.ends(key)
        if kept_suspicions(book, key) is None or kept_findings(book, key) is None:
            book.keep_evening(key, ends, worked_out(book, key))


def worked_out(book: Book, key: str) -> dict[str, str]:
    """What is to be kept of an evening: name -> text."""
    from review.core import misses

    found = {MISSES: findings_by(book, key), SUSPECTED: misses.suspicions(newest(book, key))}
    return {name: sealed(json.dumps(one, separators=(",", ":"))) for name, one in found.items()}


def sealed(text: str) -> str:
    """The text behind a hash of itself and of the version of the rules: by that one tells what another
    version kept, and damage."""
    return f"{sha256(f'{RULES} {text}'.encode()).hexdigest()[:SEAL]}{text}"


def problems(book: Book) -> list[str]:
    """What is kept of evenings against what the log says, in words; []: it is the same."""
    return [
        "What is kept of why a child misses is not what the log says."
        for key in book.child_keys()
        if any(is_sealed(book.evening(key, name)) for name in (MISSES, SUSPECTED))
        for name, text in worked_out(book, key).items()
        if (kept := book.evening(key, name)) != text and is_sealed(kept)
    ]


def kept_findings(book: Book, key: str) -> "Findings | None":
    """What was found, as it was kept of an evening; None where nothing is kept, or nothing of use."""
    found = stored(book, key, MISSES)
    if found is None:
        return None
    from review.core import findings

    return findings.findings_of(found)


def kept_suspicions(book: Book, key: str) -> dict[str, Suspicion] | None:
    """What is suspected, by family of cards, likewise."""
    found = stored(book, key, SUSPECTED)
    if found is None:
        return None
    return {family: tuple((rule, chance) for rule, chance in one) for family, one in found.items()}


def stored(book: Book, key: str, name: str) -> Any:
    """What is kept under that name by the rules of this version; None: nothing is, or damage changed it."""
    text = book.evening(key, name)
    return json.loads(text[SEAL:]) if is_sealed(text) else None


def is_sealed(text: str) -> bool:
    return bool(text) and sealed(text[SEAL:]) == text
