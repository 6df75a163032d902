"""What `review pacing` does: many simulated children, on as many processors as there are."""

import multiprocessing
import os
import signal
import sys
from collections.abc import Callable, Iterator, Sequence

from review import gather
from review.book.store import Book
from review.core import days, pacing, sheets
from review.core.model import Child
from review.core.pacing import Pacing, Season, Start, Wish
from review.errors import Mendable
from review.gather import Outside, of_children

MOST_WEEKS = 40  # a school year: farther ahead nothing can be said (our judgement)
Task = tuple[Start, Wish, int]


def pacing_of(
    outside: Outside,
    name: str | None,
    until: int | None,
    everything: bool,
    done: Callable[[int, int], None] = lambda so_far, of: None,
) -> list[Pacing]:
    """For one child, or for each. `everything`: as if all of the child's sets were taught. `done` is told how
    many of all simulated children have come to their end."""
    starts = of_children(outside, name, lambda book, child, day: start(book, child, day, until, everything))
    tasks = [
        (begun, wish, seed)
        for begun in starts
        for wish in pacing.wishes(begun.pupil)
        for seed in range(pacing.CHILDREN if begun.pupil.cards else 0)
    ]
    found: dict[str, list[Season]] = {begun.pupil.child.key: [] for begun in starts}
    for n, (task, season) in enumerate(zip(tasks, all_seasons(tasks), strict=True)):
        found[task[0].pupil.child.key].append(season)
        done(n + 1, len(tasks))
    return [pacing.pacing(begun, found[begun.pupil.child.key]) for begun in starts]


def start(book: Book, child: Child, today: int, until: int | None, everything: bool) -> Start:
    last = weeks_on(today, pacing.WEEKS) if until is None else until
    if not today < last <= weeks_on(today, MOST_WEEKS):
        raise Mendable(
            f"--until {days.date_of(last)} is not ahead, or too far: choose a day from tomorrow to "
            f"{days.date_of(weeks_on(today, MOST_WEEKS))}."
        )
    pupil = gather.pupil(book, child, today)
    if everything:
        pupil = pupil._replace(settings=pupil.settings._replace(taught=None))
    sittings = gather.sittings_up_to(book, child, today)
    return pacing.start(pupil, (row.day for row in sittings if sheets.was_practised(row)), last)


def weeks_on(today: int, weeks: int) -> int:
    """So many weeks later, or the last day there is."""
    return min(today + weeks * pacing.WEEK, days.LAST_DAY)


def all_seasons(tasks: Sequence[Task]) -> Iterator[Season]:
    """The season of each task, in their order. Where a process can safely be forked, several run at once."""
    workers = min(len(tasks), os.cpu_count() or 1)
    if workers < 2 or sys.platform == "darwin" or "fork" not in multiprocessing.get_all_start_methods():
        yield from map(one, tasks)
        return
    with multiprocessing.get_context("fork").Pool(workers, quiet) as pool:
        yield from pool.imap(one, tasks)


def quiet() -> None:
    """In a process of our own: Ctrl-C is the main one's to tell, and it ends these."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)


def one(task: Task) -> Season:
    return pacing.season(*task)
