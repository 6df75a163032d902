"""A few more of one kind, and a gentle sitting: what they ask, and that neither ever moves memory."""

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review import catalogue
from review.core import beside_plan, card_sets, memory, skills
from review.core.answer_bodies import answer_body
from review.core.model import Answer, CardMemory, Child, Event, Pupil, Settings, Sort
from review.core.warmup import Heard, Plan, Show, Sitting
from tests.core.sittings import Played, missing, not_yet, play, right, wrong

DAY = 739_700
SET = "place-value-to-99"
FACTS = "addition-facts-10"


def pupil(*sets: str, known: dict[str, CardMemory] | None = None, age: int = 7) -> Pupil:
    found = [catalogue.shipped(name) for name in sets]
    mine = {skill.id: skill for one in found for skill in one.skills}
    child = Child("ab" * 16, "Fenn", age, DAY, taught=tuple(mine))
    return Pupil(child, DAY, card_sets.cards(found), mine, known or {}, Settings(age, taught=frozenset(mine)))


def met(key: str, days: float = 40.0, ago: int = 2) -> CardMemory:
    return CardMemory(
        key, days, 5.0, DAY - ago, DAY - 30, DAY - ago, right_days=4, tries=5, right=5, last_mark="right"
    )


def all_met(*sets: str, **how: float) -> dict[str, CardMemory]:
    return {card.key: met(card.key, **how) for card in pupil(*sets).cards}  # type: ignore[arg-type]


def sitting(one: Pupil, plan: Plan, sort: Sort = "extra") -> Sitting:
    cards = {card.key: card for card in one.cards}
    return Sitting("a-book", one.child.key, "Fenn", one.settings.age, plan, cards, sort=sort)


def an_extra(count: int, skill: str = "1-more-or-less-to-99", seed: int = 1) -> Sitting:
    one = pupil(SET, known=all_met(SET))
    return sitting(one, beside_plan.more(one, {skill}, count, Random(seed)))


# --- a few more of one kind ---------------------------------------------------------------------------


@settings(max_examples=30, deadline=None)
@given(st.integers(1, beside_plan.MOST), st.integers(0, 999))
def test_as_many_come_as_were_asked_for_and_of_that_kind_alone(count: int, seed: int) -> None:
    played = play(an_extra(count, seed=seed))
    skill = {card.key for card in pupil(SET).cards if card.skill == "1-more-or-less-to-99"}
    assert len(played.cards) == count
    assert set(played.cards) <= skill
    assert played.state.tally.answers == count


def test_what_is_kept_for_after_two_misses_is_of_another_kind() -> None:
    one = pupil(SET, FACTS, known=all_met(SET, FACTS))
    mine = {card.key for card in one.cards if card.skill == "1-more-or-less-to-99"}
    kept = {item.key for item in beside_plan.more(one, {"1-more-or-less-to-99"}, 5, Random(1)).reserve}
    assert len(kept) == beside_plan.REST
    assert not kept & mine


def test_the_cards_of_a_kind_take_turns_and_ask_something_fresh() -> None:
    cards = play(an_extra(12)).cards
    assert max(cards.count(key) for key in cards) - min(cards.count(key) for key in cards) <= 1
    shows = [(show.problem.card, show.problem.asked) for show in play(an_extra(12)).shows]
    assert len(set(shows)) == len(shows)


def test_another_round_has_another_order() -> None:
    orders = {tuple(item.key for item in an_extra(4, seed=seed).plan.items) for seed in range(9)}
    assert len(orders) > 1
    assert len({order[0] for order in orders}) == 1  # it opens with the surest


def test_the_least_sure_come_before_the_rest() -> None:
    known = all_met(FACTS) | {key: met(key, days=3.0, ago=9) for key in ("sum:3+4", "sum:2+6", "sum:3+5")}
    one = pupil(FACTS, known=known)
    every = {card.skill for card in one.cards}
    asked = {item.key for item in beside_plan.more(one, every, 3, Random(1)).items}
    assert asked == {"sum:3+4", "sum:2+6", "sum:3+5"}


def test_what_was_missed_comes_again_and_after_two_a_sure_card() -> None:
    one = pupil(SET, FACTS, known=all_met(SET, FACTS))
    plan = beside_plan.more(one, {"1-more-or-less-to-99"}, 6, Random(1))
    first, second = (item.key for item in plan.items[:2])
    played = play(sitting(one, plan), missing({first: 1, second: 1}))
    assert played.cards[2] in {item.key for item in plan.reserve}
    assert all(played.cards.count(key) >= 2 for key in (first, second))
    assert not played.state.later


def test_a_card_missed_too_often_is_left_for_another_day() -> None:
    """A skill of one card: after the second miss at seven it does not come again, and the sitting ends."""
    one = pupil(SET, known=all_met(SET))
    skill = next(name for name in one.skills if sum(card.skill == name for card in one.cards) == 1)
    played = play(sitting(one, beside_plan.more(one, {skill}, 10, Random(1))), lambda show: wrong(show))
    card = next(card.key for card in one.cards if card.skill == skill)
    assert played.cards.count(card) == 2
    assert played.state.ended


def test_what_was_never_met_is_asked_as_such_and_ends_by_the_pace() -> None:
    one = pupil(FACTS)
    played = play(sitting(one, beside_plan.more(one, set(one.skills), 20, Random(1))), not_yet_when_new)
    assert all(
        show.first_meeting for show in played.shows if show.problem.card not in seen_before(played, show)
    )
    assert played.state.tally.new == 2


def not_yet_when_new(show: Show) -> list[Heard]:
    return not_yet(show) if show.first_meeting else right(show)


def seen_before(played: Played, show: Show) -> set[str]:
    return {one.problem.card for one in played.shows[: played.shows.index(show)]}


# --- a gentle sitting ---------------------------------------------------------------------------------


def test_only_sure_cards_come_and_they_fit_two_minutes() -> None:
    known = all_met(FACTS) | {"sum:3+4": met("sum:3+4", days=2.0, ago=9)}
    one = pupil(FACTS, known=known)
    plan = beside_plan.gentle(one, beside_plan.GENTLE_MINUTES, Random(1))
    assert all((item.recall or 0) >= 0.95 for item in plan.items)
    assert "sum:3+4" not in {item.key for item in (*plan.items, *plan.reserve)}
    assert sum(item.seconds for item in plan.items) <= 120
    assert len(plan.items) >= 5


def test_with_next_to_nothing_sure_the_best_remembered_come() -> None:
    known = {key: met(key, days=days, ago=4) for key, days in (("sum:3+4", 3.0), ("sum:2+6", 6.0))}
    plan = beside_plan.gentle(pupil(FACTS, known=known), 2.0, Random(1))
    assert {item.key for item in plan.items} == {"sum:3+4", "sum:2+6"}
    assert {item.why for item in plan.items} == {"sure"}
    assert beside_plan.gentle(pupil(FACTS), 2.0, Random(1)).items == ()


# --- memory -------------------------------------------------------------------------------------------


def events(rows: list[Answer], day: int = DAY, start: int = 0) -> list[Event]:
    return [
        Event(1, start + n, "ab" * 16, "answer", day, n, start + n, 0, row.card, answer_body(row))
        for n, row in enumerate(rows, 1)
    ]


def measured(found: CardMemory) -> CardMemory:
    """What is remembered, without what only keeps problems fresh and turns apart."""
    return found._replace(beside_day=0, recent=(), at=(0, 0, 0, 0))


SORTS: list[Sort] = ["extra", "gentle"]


@pytest.mark.parametrize("sort", SORTS)
@settings(max_examples=40, deadline=None)
@given(st.lists(st.sampled_from([right, wrong, not_yet]), max_size=12), st.integers(0, 9))
def test_neither_moves_memory_whatever_is_answered(sort: Sort, how: list, seed: int) -> None:  # type: ignore[type-arg]
    """Rows of an ordinary day before, rows of the sitting after: the cards stand where they stood."""
    one = pupil(SET, known=all_met(SET))
    plan = beside_plan.more(one, set(one.skills), 8, Random(seed))
    moves = iter(how)
    rows = play(sitting(one, plan, sort), lambda show: next(moves, right)(show)).answers
    before = [row._replace(sitting="") for row in rows if row.role != "copy"]
    ordinary = events(before, DAY - 3)
    alone = memory.remembered(ordinary)
    both = memory.remembered([*ordinary, *events(rows, DAY, 500)])
    assert {key: measured(found) for key, found in both.cards.items() if key in alone.cards} == {
        key: measured(found) for key, found in alone.cards.items()
    }
    assert both.habits._replace(at=alone.habits.at, copying=alone.habits.copying) == alone.habits
    fresh = memory.fold(events(rows))
    assert {measured(found) for found in fresh.values()} == {CardMemory(key) for key in fresh}


def test_what_is_asked_after_it_that_day_is_no_recall_and_the_next_day_it_is() -> None:
    key = "sum:3+4"
    row = Answer(key, "3+4", "7", "7", "right", first_ms=900, end_ms=2000, aim="fluency", age=7)
    old = memory.fold(events([row], DAY - 9))
    beside_it = events([row._replace(sitting="extra"), row], DAY)
    after = memory.fold([*events([row], DAY - 9), *beside_it])[key]
    assert (after.stability, after.last_day, after.tries) == (old[key].stability, DAY - 9, 1)
    tomorrow = memory.fold([*events([row], DAY - 9), *beside_it, *events([row], DAY + 1, 900)])[key]
    assert (tomorrow.last_day, tomorrow.tries) == (DAY + 1, 2)


def test_its_rows_say_which_sitting_they_are_of() -> None:
    assert {row.sitting for row in play(an_extra(4)).answers} == {"extra"}
    assert answer_body(play(an_extra(1)).answers[0])["sitting"] == "extra"


def test_every_skill_of_the_catalogue_has_an_extra() -> None:
    """Of each kind one skill, at both ages: asked, answered, ended."""
    kinds = {skill.kind: (one, skill.id) for one in catalogue.whole() for skill in one.skills}
    for kind, (found, skill) in kinds.items():
        one = pupil(found.id)
        played = play(sitting(one, beside_plan.more(one, {skill}, 5, Random(kind))))
        assert len(played.cards) >= 5, kind
        assert all(skills.kind(card).name == kind for card in played.cards)
