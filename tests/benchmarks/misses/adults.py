"""Open data: adults typing products, read as a child's answers would be.

Soh Mei Ling 2025, MIT licence: 122 university students, 26,352 trials, 118 of them with their own time for
copying a number. The three files are no part of the project; `--adults DIR` says where they lie. Trials have
no days: every third of a session counts as one.
"""

import csv
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from itertools import combinations
from pathlib import Path
from typing import NamedTuple

from review.core import confusions, marking, misses, readings
from review.core.findings import Confused
from review.core.model import Answer, Mark
from tests.core.logged import logged

AGE = 11  # the oldest the marking rule tells apart
DAY = 72  # trials of a third of a session
BIN = 0.5  # seconds


class Trial(NamedTuple):
    person: int
    n: int
    a: int
    b: int
    typed: str
    right: bool
    ms: int
    copy_ms: int  # 0: not known

    @property
    def fact(self) -> tuple[int, int]:
        return min(self.a, self.b), max(self.a, self.b)

    @property
    def mark(self) -> Mark:
        return marking.mark(
            "right" if self.right else "other",
            help="",
            first_ms=0,
            end_ms=self.ms,
            copy_ms=self.copy_ms,
            slow_ms=marking.slow_ms(AGE),
            suspended=False,
            fact=True,
        )


def trials(folder: Path) -> list[Trial]:
    own = {
        row["person"]: round(1000 * float(row["typing_median_s"]))
        for row in _rows(folder / "adult_persons.csv")
    }
    found = [
        Trial(
            int(row["person"]),
            int(row["trial"]),
            int(row["a"]),
            int(row["b"]),
            row["typed"].strip(),
            row["correct"] == "1",
            round(1000 * float(row["rt_s"])),
            own.get(row["person"], 0),
        )
        for row in _rows(folder / "adult_production.csv")
    ]
    return sorted(found)


def _rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


# --- marks --------------------------------------------------------------------------------------------


def pairs(found: Iterable[Trial]) -> Iterator[tuple[Trial, Trial]]:
    """Each try of a fact, and the same person's next one of it."""
    last: dict[tuple[int, tuple[int, int]], Trial] = {}
    for trial in found:
        if trial.copy_ms:
            key = (trial.person, trial.fact)
            if key in last:
                yield last[key], trial
            last[key] = trial


def marks(found: Iterable[Trial]) -> Counter[Mark]:
    return Counter(trial.mark for trial in found if trial.copy_ms)


def next_tries(found: Iterable[Trial]) -> Mapping[Mark, tuple[int, int]]:
    """Mark -> next tries of the same fact, and how many of those were not right."""
    seen = [(one.mark, not after.right) for one, after in pairs(found)]
    return {
        mark: (sum(one == mark for one, _ in seen), sum(missed for one, missed in seen if one == mark))
        for mark in dict.fromkeys(one for one, _ in seen)
    }


def next_by_time(found: Iterable[Trial]) -> Iterator[tuple[float, int, int]]:
    """Of right tries, by net seconds in bins from 0 to 10: next tries, and how many were not right."""
    bins: dict[int, list[bool]] = defaultdict(list)
    for one, after in pairs(found):
        if one.right:
            # an end on the edge belongs to the bin below, as the limit itself is not slow
            place = -(-(one.ms - one.copy_ms) // round(1000 * BIN)) - 1
            bins[min(max(place, 0), 20)].append(not after.right)
    return ((BIN * place, len(missed), sum(missed)) for place, missed in sorted(bins.items()))


# --- facts taken for each other -----------------------------------------------------------------------


def as_answers(found: Iterable[Trial]) -> dict[int, list[tuple[int, Answer]]]:
    people: dict[int, list[tuple[int, Answer]]] = defaultdict(list)
    for one in found:
        if one.typed:
            key, right = "product:{}x{}".format(*one.fact), str(one.a * one.b)
            row = Answer(key, f"{one.a}x{one.b}", right, one.typed, one.mark)
            people[one.person].append((one.n // DAY, row._replace(end_ms=one.ms)))
    return people


def confused(found: Iterable[Trial]) -> list[Confused]:
    return [one for rows in as_answers(found).values() for one in confusions.of_answers(rows)]


def named(found: Iterable[Trial]) -> list[tuple[str, ...]]:
    """Error rules named of adults: nobody expects one."""
    people = as_answers(found).values()
    return [one.rules for rows in people for one in misses.of_family("product", readings.read(logged(rows)))]


def repeated(found: Iterable[Trial]) -> tuple[float, float]:
    """How often two wrong answers to one fact are the same: of one person, and of two persons."""
    wrong: dict[tuple[int, int], list[tuple[int, str]]] = defaultdict(list)
    for one in found:
        if not one.right and one.typed:
            wrong[one.fact].append((one.person, one.typed))
    two_of = (pair for rows in wrong.values() for pair in combinations(rows, 2))
    both = [(one[0] == two[0], one[1] == two[1]) for one, two in two_of]
    return tuple(  # type: ignore[return-value]
        sum(same for own, same in both if own is which) / sum(own is which for own, _ in both)
        for which in (True, False)
    )


# --- told ---------------------------------------------------------------------------------------------


def report(folder: Path) -> Iterator[str]:
    found = trials(folder)
    given = marks(found)
    whole = sum(given.values())
    yield f"{len(found):,} trials of {len({one.person for one in found})} adults"
    for mark, (tries, missed) in next_tries(found).items():
        yield (
            f"{mark:10} {given[mark] / whole:6.1%} of {whole:,}; the next try of the fact not right: "
            f"{missed / tries:.1%} of {tries:,}"
        )
    wrong = [one for one in found if not one.right and one.typed]
    of_fact = [one for one in wrong if one.typed.isdecimal() and confusions.others(one.fact, int(one.typed))]
    step = [one for one in wrong if one.typed.isdecimal() and abs(int(one.typed) - one.a * one.b) in one.fact]
    parts = f"another fact's {len(of_fact) / len(wrong):.0%}, one step off {len(step) / len(wrong):.0%}"
    yield f"{len(wrong)} wrong: {parts}"
    own, others = repeated(found)
    yield f"two wrong answers to a fact are the same: {own:.0%} of one person, {others:.0%} of two"
    told = confused(found)
    yield f"facts taken for each other, told: {len(told)}; error rules named: {len(named(found))}"


def write(folder: Path, to: Path) -> None:
    """The two small tables the tests use."""
    found = trials(folder)
    with (to / "adult_next_tries.csv").open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows(
            [("from_net_s", "n", "not_right"), *next_by_time(found)]
        )
    with (to / "adult_wrong_products.csv").open("w", encoding="utf-8", newline="") as file:
        wrong = [(one.person, one.n, one.a, one.b, one.typed) for one in found if not one.right and one.typed]
        csv.writer(file, lineterminator="\n").writerows([("person", "trial", "a", "b", "typed"), *wrong])
