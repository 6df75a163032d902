"""Weeks ahead: what simulated children begin with, how they go on, and what is told of them."""

from statistics import mean

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import pacing
from review.core.learner import Learner
from review.core.model import CardMemory, Pupil
from review.core.pacing import Brought, Range, Season, Wish
from review.render import pacing_lines
from tests.core.test_reports import DAY, learned, pupil

SETS = ("times-2-5-10", "times-3-4-8")
KEY = "product:6x7"


def grown(count: int) -> Pupil:
    """Some cards recalled yesterday, all others new."""
    new = pupil(*SETS)
    return new._replace(memory={card.key: learned(card.key, 1, 9.0) for card in new.cards[:count]})


# --- the beginning ---


@given(st.integers(1, 7), st.integers(1, 20))
def test_as_many_days_a_week_as_lately(often: int, weeks: int) -> None:
    days = pacing.days_ahead(DAY, often, DAY + 7 * weeks)
    assert len(days) == often * weeks
    assert all(DAY < day <= DAY + 7 * weeks for day in days)
    assert pacing.days_a_week(DAY, range(DAY - 27, DAY + 1), DAY - 90) == 7
    assert pacing.days_a_week(DAY, [DAY - n for n in range(4)], DAY - 90) == pacing.USUAL_DAYS


def test_a_child_who_began_lately_is_not_taken_for_one_who_seldom_practises() -> None:
    ten = [DAY - n for n in range(14) if n % 7 not in (0, 1)]
    assert pacing.days_a_week(DAY, ten, begun=DAY - 13) == 5
    assert pacing.days_a_week(DAY, ten, begun=DAY - 90) == 2.5


@given(st.integers(1, 40), st.integers(0, 300))
def test_practice_before_lies_between_the_first_meeting_and_the_last_try(tries: int, span: int) -> None:
    found = pacing.practised_days(CardMemory(KEY, 5.0, 5.0, DAY, DAY - span, DAY, tries=tries))
    assert found == sorted(found)
    assert found[-1] == DAY
    assert found[0] >= DAY - span
    assert len(found) == min(tries, pacing.MOST_TRACES)


@given(st.floats(0.3, 0.97))
def test_a_simulated_child_recalls_what_this_child_is_expected_to(chance: float) -> None:
    """On the named day, on the mean of many; after it by its own forgetting, earlier more."""
    many = [Learner(seed, 8) for seed in range(60)]
    for one in many:
        one.recalls(KEY, [DAY - 30, DAY - 20, DAY], chance, DAY + 14, True)
    assert mean(one.chance(KEY, DAY + 14) for one in many) == pytest.approx(chance, abs=0.06)
    assert all(
        one.chance(KEY, DAY + 3) >= one.chance(KEY, DAY + 14) >= one.chance(KEY, DAY + 60) for one in many
    )


def test_right_and_seconds_without_a_text_are_those_with_one() -> None:
    """The quick way that pacing takes, against the way of the demo: same shares, same times."""
    from review.core import skills

    problem = skills.problem(KEY, "6x7")
    shares: dict[str, list[tuple[bool, float]]] = {"text": [], "quick": []}
    for seed in range(400):
        one, other = Learner(seed, 9), Learner(seed, 9)
        typed = one.answer(problem, KEY, DAY, True)
        shares["text"].append((typed.text == problem.expected, typed.end_ms / 1000))
        shares["quick"].append(other.tried(KEY, "6x7", DAY, True))
    right, seconds = ({name: mean(one[n] for one in some) for name, some in shares.items()} for n in (0, 1))
    assert right["text"] == pytest.approx(right["quick"], abs=0.05)
    assert seconds["text"] == pytest.approx(seconds["quick"], rel=0.15)  # what is left empty is typed sooner


def test_pace_and_what_is_known_at_sight_are_the_childs_own() -> None:
    slow, quick = (
        {key: one._replace(passed_ms=ms, passed_n=5) for key, one in grown(20).memory.items()}
        for ms in (9000, 2500)
    )
    assert pacing.pace(grown(20)._replace(memory=slow)) < pacing.pace(grown(20)._replace(memory=quick))
    assert pacing.pace(grown(0)) == 1.0
    known = {key: one._replace(placed=1) for key, one in grown(20).memory.items()}
    assert pacing.prior(grown(20)._replace(memory=known)) > pacing.prior(grown(0)) > pacing.prior(grown(20))


# --- weeks ahead ---


def gone(some: Pupil, minutes: float, seed: int = 0, weeks: int = 4, pause: bool = False) -> Season:
    begun = pacing.start(some, range(DAY - 27, DAY + 1), DAY + 7 * weeks)
    return pacing.season(begun, Wish(minutes, pause), seed)


def test_the_same_seed_is_the_same_child() -> None:
    assert gone(grown(10), 3) == gone(grown(10), 3)
    assert gone(grown(10), 3) != gone(grown(10), 3, seed=1)


def test_more_minutes_ask_more() -> None:
    """Of a course as small as this one a minute a day holds as much as five."""
    few, many = (mean(gone(grown(10), minutes, seed, 6).tries for seed in (0, 1)) for minutes in (1, 5))
    assert many > few


def test_more_minutes_hold_more_while_much_is_new() -> None:
    names = ("number-bonds-10", "addition-facts-10", "subtraction-facts-10", *SETS)
    few, many = (mean(gone(pupil(*names), minutes, seed).held[-1] for seed in (0, 1)) for minutes in (1, 8))
    assert many > 1.5 * few


def test_a_pause_is_two_weeks_without_practice() -> None:
    whole, paused = gone(grown(20), 3), gone(grown(20), 3, pause=True)
    assert len(paused.held) == len(whole.held) == 4
    assert 0 < paused.tries < whole.tries
    assert gone(grown(20), 3, weeks=2, pause=True).tries == 0


def test_what_was_not_taught_does_not_come() -> None:
    some = grown(0)
    some = some._replace(settings=some.settings._replace(taught=frozenset({"table-of-2"})))
    begun = pacing.start(some, (), DAY + 28)
    assert {"table-of-2"} <= {skill for card in begun.pupil.cards for skill in (card.skill, *card.also)}
    assert len(begun.pupil.cards) < len(some.cards)


# --- what is told ---


def test_weeks_until_a_set_holds() -> None:
    assert pacing.weeks_until(9, 10, [8, 9]) == 0
    assert pacing.weeks_until(9, 5, [8, 9]) == 2
    assert pacing.weeks_until(9, 5, [8, 8]) is None
    assert pacing.weeks_range([2, 5]) == Range(2, 5)
    assert pacing.weeks_range([2, None]) == Range(2, None)
    assert pacing.weeks_range([None, None]) is None


def test_a_range_holds_every_simulated_child() -> None:
    some = grown(20)
    begun = pacing.start(some, (), DAY + 14)
    seasons = [
        Season(Wish(5.0), (10, held), {"times-2-5-10": (5, held), "times-3-4-8": (0, 0)}, 100, misses)
        for held, misses in ((20, 7), (25, 12))
    ]
    (one,) = pacing.pacing(begun, seasons).brought
    assert one.held == (20, 25)
    assert one.misses == (0.07, 0.12)
    assert one.weeks["times-3-4-8"] is None


@pytest.mark.parametrize(
    ("held", "told"), [((50, 80, 100), None), ((98, 99, 100), 3.0), ((80, 99, 98), 5.0), ((), None)]
)
def test_the_fewest_minutes_that_are_enough(held: tuple[int, ...], told: float | None) -> None:
    ways = [
        Brought(Wish(minutes), Range(count, count), Range(0, 0), {})
        for minutes, count in zip((3.0, 5.0, 8.0), held, strict=False)
    ]
    assert pacing.enough([*ways, Brought(Wish(3.0, True), Range(0, 0), Range(0, 0), {})]) == told


@pytest.mark.parametrize(("held", "told"), [((5, 8, 9), False), ((5, 5, 9), False), ((5, 9, 8), True)])
def test_fewer_cards_with_more_minutes_are_not_left_without_a_word(held: tuple[int, ...], told: bool) -> None:
    ways = [
        Brought(Wish(minutes), Range(count, count + 2), Range(0, 0), {})
        for minutes, count in zip((3.0, 5.0, 8.0), held, strict=True)
    ]
    paused = Brought(Wish(3.0, True), Range(0, 0), Range(0, 0), {})
    found = pacing.Pacing(grown(2), 21_000, 5, {}, {}, (*ways, paused))
    assert pacing_lines.chance_lines(found) == ([pacing_lines.CHANCE] if told else [])


@pytest.mark.parametrize(
    ("right", "told"),
    [
        (0, "Of the last ten first tries none was right."),
        (1, "Of the last ten first tries 1 was right."),
        (4, "Of the last ten first tries 4 were right."),
        (5, ""),
    ],
)
def test_a_child_to_whom_little_comes_is_not_promised_the_same_unsaid(right: int, told: str) -> None:
    lately = grown(2)._replace(recent=(True,) * right + (False,) * (10 - right))
    lines = pacing_lines.lately_lines(pacing.Pacing(lately, 21_000, 5, {}, {}, ()))
    assert bool(lines) == bool(told)
    assert all(line.startswith(told) and "review stuck" in line for line in lines)
    assert pacing_lines.lately_lines(pacing.Pacing(grown(2), 21_000, 5, {}, {}, ())) == []
