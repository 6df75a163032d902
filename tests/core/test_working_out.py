"""Steps of working a fact out, their share of the longest time, and whether a child does."""

from itertools import pairwise

import pytest

from review.core import working_out
from review.core.model import Answer, CardMemory, Habits, Mark


# The smaller addend: Groen & Parkman (1972). The others are our judgement.
@pytest.mark.parametrize(
    ("asked", "steps"),
    [
        ("9+2", 2), ("2+9", 2), ("13-6", 6), ("13-11", 2), ("20=_+18", 2), ("20=_+3", 3),
        ("4x5", 8), ("6x7", 24), ("42/6", 28), ("56=_x7", 32), ("7/0", 4), ("14", 4),
    ],
)  # fmt: skip
def test_steps_of_working_out_are_counted_from_the_numbers(asked: str, steps: int) -> None:
    assert working_out.steps(asked) == steps


def test_the_code_of_a_space_is_no_number() -> None:
    assert working_out.steps("Days%20in%20a%20week%3A=7") == working_out.steps("14")


def test_the_share_rises_by_the_step_and_ends_at_one() -> None:
    shares = [working_out.share(f"9+{n}") for n in range(1, 9)]
    rises = [after - before for before, after in pairwise(shares)]
    assert rises == pytest.approx([rises[0]] * len(rises))
    assert 0 < shares[0] < shares[-1] < working_out.share("6x7") == working_out.share("12x12") == 1.0


# --- whether this child does ---

KEY = "sum:3+4"
UNMET, MET = CardMemory(KEY), CardMemory(KEY, met_day=5, seen_day=5)
ASKED, TRIED = CardMemory(KEY, met_day=4, seen_day=4), CardMemory(KEY, met_day=4, seen_day=5, tries=1)


def first(mark: Mark = "not_yet") -> Answer:
    return Answer(KEY, "3+4", "7", "7", mark, "intro", 900, 4000, aim="fluency", age=9)


def again(mark: Mark = "not_yet") -> Answer:
    return first(mark)._replace(role="ask")


def seen(right: int, missed: int) -> tuple[float, float]:
    return float(right), float(missed)


def test_before_anything_was_seen_most_is_worked_out() -> None:
    assert working_out.likely(Habits()) == pytest.approx(working_out.MOSTLY)


@pytest.mark.parametrize("kind", ["at_sight", "soon"])
def test_who_misses_what_has_little_to_count_does_not_count(kind: str) -> None:
    """Of either sort of facts by itself, the other saying that it does not."""
    never = Habits(at_sight=seen(0, 40), soon=seen(0, 40))
    shares = [working_out.likely(never._replace(**{kind: seen(40 - n, n)})) for n in range(41)]  # type: ignore[arg-type]
    assert shares == sorted(shares, reverse=True)
    assert shares[0] == working_out.MOSTLY
    assert shares[-1] == working_out.SELDOM


@pytest.mark.parametrize("share", [0.3, 0.45, 0.6])
@pytest.mark.parametrize("known", [0.25, 0.8])
def test_the_share_of_a_child_who_works_some_of_it_out(share: float, known: float) -> None:
    """By the chance of a miss: slips, and what is neither known nor worked out."""
    missed = round(100_000 * (working_out.SLIPS + (1 - known) * (1 - share)))
    of = seen(100_000 - missed, missed)
    never = seen(0, 100_000)
    found = Habits(at_sight=of, soon=never) if known < 0.5 else Habits(at_sight=never, soon=of)
    assert working_out.likely(found) == pytest.approx(share, abs=0.01)


def test_a_child_who_learns_to_count_is_believed_in_time() -> None:
    ways = Habits()
    for n in range(200):
        ways = working_out.noticed(ways, UNMET, MET, first("not_yet" if n < 100 else "right"))
        ways = working_out.noticed(ways, ASKED, TRIED, again("not_yet" if n < 100 else "right"))
        if n == 99:
            assert working_out.likely(ways) == working_out.SELDOM
    assert working_out.likely(ways) > 0.6


def test_what_is_noticed() -> None:
    missed, right = Habits(at_sight=(0.0, 1.0)), Habits(at_sight=(1.0, 0.0))
    assert working_out.noticed(Habits(), UNMET, MET, first()) == missed
    assert working_out.noticed(Habits(), UNMET, MET, first()._replace(asked="")) == missed
    assert working_out.noticed(Habits(), UNMET, MET, first("right_helped")) == missed
    assert working_out.noticed(Habits(), UNMET, MET, first("right")) == right
    assert working_out.noticed(Habits(), ASKED, TRIED, again()) == Habits(soon=(0.0, 1.0))
    once = ASKED._replace(right_days=1), TRIED._replace(right_days=2)
    assert working_out.noticed(Habits(), *once, again("right")) == Habits(soon=(1.0, 0.0))


@pytest.mark.parametrize(
    ("old", "new", "answer"),
    [
        (UNMET, MET, first()._replace(asked="7x8")),  # much to count
        (UNMET, MET, first()._replace(asked="0+4")),  # nothing
        (UNMET, MET, first()._replace(aim="accuracy")),
        (UNMET, MET, first("void")),
        (UNMET, MET, first()._replace(role="copy")),
        (UNMET._replace(seen_day=5), MET, first()),  # it was shown after the first
        (UNMET._replace(known=True), MET, first()),
        (ASKED, ASKED._replace(seen_day=5), again()),  # a second look
        (ASKED._replace(right_days=2), TRIED, again()),
        (ASKED, TRIED, first()),  # back after it was set aside
    ],
)
def test_what_says_nothing_of_counting(old: CardMemory, new: CardMemory, answer: Answer) -> None:
    assert working_out.noticed(Habits(), old, new, answer) == Habits()
