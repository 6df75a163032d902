"""Classes of conversions: which numbers of which units are asked, and how long they take."""

from fractions import Fraction
from math import ceil, floor, lcm
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.skills.units import factor

# --- a class ------------------------------------------------------------------------------------------


class Class(NamedTuple):
    source: str
    target: str
    mixed: bool  # some of the smaller unit stands beside the greater one: 3 m 20 cm
    low: int
    high: int
    step: Fraction  # 0: every number that has a whole answer
    beside: tuple[int, int] | None = None  # the least and the most of the smaller unit; None: any

    @property
    def ratio(self) -> Fraction:
        return factor(self.source, self.target)

    @property
    def apart(self) -> int:
        """How many of the smaller unit make one of the greater."""
        return int(max(self.ratio, 1 / self.ratio))

    @property
    def decimal(self) -> bool:
        return 0 < self.step < 1


def class_of(key: str) -> Class:
    units, span, *more = content_of(key).split("/")
    source, _, target = units.partition(">")
    low, high = ends(span)
    mixed = "+" in units
    every = next((Fraction(part) for part in more if ".." not in part), Fraction(0))
    beside = next((ends(part) for part in more if ".." in part), None)
    return Class(source.partition("+")[0], target.partition("+")[0], mixed, low, high, every, beside)


def ends(span: str) -> tuple[int, int]:
    low, _, high = span.partition("..")
    return int(low), int(high)


class Numbers(NamedTuple):
    """So many times a step, without the multiples of another number."""

    counts: range
    step: Fraction
    without: Fraction  # 0: nothing is left out

    def __contains__(self, number: object) -> bool:
        times = Fraction(str(number)) / self.step
        return times.denominator == 1 and int(times) in self.counts and self._kept(int(times))

    def _kept(self, times: int) -> bool:
        return not self.without or (times * self.step / self.without).denominator > 1

    def first(self) -> Fraction | None:
        """The least; None where there is none. No two in a row are left out, unless all are."""
        near = (times for times in self.counts[:2] if self._kept(times))
        return next((times * self.step for times in near), None)

    def any(self, random: Random) -> Fraction:
        """Each equally likely."""
        while not self._kept(times := random.choice(self.counts)):
            pass
        return times * self.step


def firsts(of: Class) -> Numbers:
    """The numbers of the unit that is given."""
    if of.decimal:
        great = of.ratio if of.ratio < 1 else Fraction(1)  # one of what is given, in the greater unit
        return _between(of.low, of.high, of.step / great, 1 / great)
    if of.mixed and of.ratio < 1:
        return _between(max(of.low, of.apart), of.high, of.step or Fraction(1), Fraction(of.apart))
    every = lcm(of.ratio.denominator, 1 if of.mixed else int(of.step) or 1)
    return _between(of.low, of.high, Fraction(every), Fraction(0))


def _between(low: int, high: int, step: Fraction, without: Fraction) -> Numbers:
    return Numbers(range(max(1, ceil(low / step)), floor(high / step) + 1), step, without)


def seconds(of: Class) -> range:
    """The numbers beside it: more than none, less than one of the unit given. Without a second unit, 0."""
    if not of.mixed or of.ratio < 1:
        return range(1)
    step = int(of.step) or 1
    low, high = of.beside or (1, of.apart - 1)
    return range(max(1, ceil(low / step)) * step, min(high, of.apart - 1) + 1, step)


# --- how long it takes --------------------------------------------------------------------------------

# Expected seconds, by the arithmetic a class needs; our judgement. Times ten is writing zeros, a table to
# 12 is recalled (as facts are, with their units read first); a number beyond it is taken in two parts.
ZEROS, TABLE, TWO_PARTS = 7.0, 9.0, 15.0
OUTSIDE = 4.0  # more, where the other number goes beyond the tables
ADDED, LEFT_OVER, DECIMAL = 5.0, 8.0, 4.0  # more: a second amount is added, a rest is found, places shift
LARGEST_IN_TABLES = 12


def _figures(number: int) -> int:
    """Without the zeros at its end, which are written, not worked out."""
    return int(str(number).rstrip("0"))


def expected_seconds(of: Class) -> float:
    by, most = _figures(of.apart), of.high if of.ratio > 1 else of.high // of.apart
    base = ZEROS if by == 1 else TABLE if by <= LARGEST_IN_TABLES else TWO_PARTS
    outside = OUTSIDE * (by > 1 and most > LARGEST_IN_TABLES)
    beside = (ADDED if of.ratio > 1 else LEFT_OVER) if of.mixed else 0.0
    return base + outside + beside + DECIMAL * of.decimal
