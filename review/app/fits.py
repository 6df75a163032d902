"""`review fit`: from a child's own answers to what their memory goes by from today."""

from collections.abc import Sequence
from typing import NamedTuple

from review import gather, writes
from review.app import full_fit
from review.core import calibration, curve, own_parameters, parameter_search
from review.core.histories import histories
from review.core.model import Child, Event, Habits
from review.gather import Outside


class Fit(NamedTuple):
    """What came of a fit, for one child."""

    child: Child
    found: parameter_search.Fitted
    fuller: bool = False  # there are answers enough for a fit of all numbers, and the extra is not installed

    @property
    def changed(self) -> bool:
        return self.found.how in ("three", "all")


class Reset(NamedTuple):
    """Back to the published figures."""

    child: Child
    changed: bool


def fit(outside: Outside, child_name: str | None, progress: parameter_search.Progress) -> Fit:
    """Fit memory to the child, and keep it only if it does better on days it was not fitted to."""
    with writes.writing(outside) as book:
        child = gather.child_named(gather.family_of(book), child_name)
        day = gather.writing_day(outside, child)
        found = fitted_to(list(book.events(child=child.key)), progress)
        result = Fit(child, found, fuller=not full_fit.is_installed() and many(found))
        if result.changed:
            writes.write(book, outside, child, "fit", parameter_search.body(found), day)
    return result


def fitted_to(events: Sequence[Event], progress: parameter_search.Progress) -> parameter_search.Fitted:
    """Judged by what the plan would have promised, corrections and all, not by the curve alone."""
    full = full_fit.every_parameter if full_fit.is_installed() else None
    present = own_parameters.standing(events)
    steps = histories(events, ways=Habits(parameters=present))
    return parameter_search.fit(steps, present, foretell=foretell(events), full=full, progress=progress)


def foretell(events: Sequence[Event]) -> parameter_search.Foretell:
    return lambda parameters: calibration.promises(events, ways=Habits(parameters=parameters))


def many(found: parameter_search.Fitted) -> bool:
    return parameter_search.enough(found.tries, found.misses, parameter_search.ALL_NUMBERS)


def reset(outside: Outside, child_name: str | None) -> Reset:
    """Let memory go by the published figures again."""
    with writes.writing(outside) as book:
        child = gather.child_named(gather.family_of(book), child_name)
        day = gather.writing_day(outside, child)
        present = own_parameters.standing(book.events(child=child.key, kinds=("fit", "undo")))
        changed = present != curve.PARAMETERS
        if changed:
            writes.write(book, outside, child, "fit", parameter_search.DEFAULT_BODY, day)
    return Reset(child, changed)
