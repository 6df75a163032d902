"""From memory, or worked out? Where the time of an answer leaves it open, the child is asked now and then."""

from random import Random
from typing import Literal

from review.core import marking, skills
from review.core.model import Answer

MOST = 2  # such questions in a sitting (our judgement)
ASKED = 1 / 4  # of the answers whose time leaves it open (our judgement)
WORDS: dict[str, Literal["yes", "no"]] = {"m": "yes", "w": "no"}  # by the first letter of what is typed


def leaves_open(row: Answer) -> bool:
    """A fact whose time counts, right at once and unaided, in 2 to 4 s net: two to four thirds of the time
    that is slow at the child's age. Quicker is memory, slower is working out, for nearly all."""
    limit, net = row.slow_ms, row.end_ms - row.copy_ms
    return (
        limit > 0
        and row.role == "ask"
        and marking.unaided(row)
        and not (row.recalled or row.slipped or row.untimed)
        and marking.is_believable(row.first_ms, row.end_ms)
        and 2 * limit <= 3 * net <= 4 * limit
        and skills.traits(row.card).fact
    )


def drawn(row: Answer, so_far: int, misses_running: int, random: Random) -> bool:
    """Whether this is one to ask of. What the child then says changes nothing here, so that a sitting that
    goes on counts its questions as before."""
    open_ = leaves_open(row._replace(recalled=""))
    return open_ and so_far < MOST and not misses_running and random.random() < ASKED


def said(text: str) -> Literal["", "yes", "no"]:
    """yes, no, or "" for whatever else was typed: it is no test."""
    return WORDS.get(text.strip().casefold()[:1], "")
