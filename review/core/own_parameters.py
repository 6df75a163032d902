"""Which parameters a child's memory goes by: the published defaults, or those of the last fit that stands."""

from collections.abc import Iterable

from review.core import curve, strength
from review.core.amendments import amended
from review.core.model import Event
from review.core.strength import Parameters


def standing(events: Iterable[Event]) -> Parameters:
    """The parameters of memory by the last fit that was not taken back, else the defaults. `events` may leave
    out what neither fits nor undoes."""
    return last(amended(events)) or curve.PARAMETERS


def last(amended: Iterable[Event]) -> Parameters:
    """The same of events that count as they stand, in their order; () where they are the defaults."""
    fits = [event.body.get("numbers") for event in amended if event.kind == "fit"]
    found = read(fits[-1]) if fits else curve.PARAMETERS
    return () if found == curve.PARAMETERS else found


def millionths(parameters: Parameters) -> list[int]:
    """Parameters as whole numbers, as an event keeps them: the log has no fractions."""
    return [round(value * 1_000_000) for value in parameters]


def read(numbers: object) -> Parameters:
    """Parameters as an event keeps them; the defaults where it names none, or not as many as there are."""
    if not isinstance(numbers, list | tuple) or len(numbers) != len(curve.PARAMETERS):
        return curve.PARAMETERS
    if not all(isinstance(number, int) for number in numbers):
        return curve.PARAMETERS
    return strength.clamped(number / 1_000_000 for number in numbers)
