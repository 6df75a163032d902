"""Which item a placement asks next, and on which one it ends."""

from collections.abc import Sequence
from math import exp

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review.core import ability, item_choice, skills
from review.core.ability import Tried
from review.core.item_choice import Probing, State, may_ask
from review.core.model import (
    Answer,
    Card,
    CardMemory,
    Traits,
)
from tests.core.probes import DAY, SURE, a_probing, knows_all, sat


def told(key: str, right: bool = True) -> Answer:
    asked = key.partition(":")[2]
    return Answer(key, asked, "1", "1" if right else "2", "right" if right else "not_yet", "probe")


EASY, MIDDLING, HARDER = "product:2x3", "product:2x7", "product:5x8"
"""Of the set, by how hard they are; no two of a family."""


def last_item(answers: Sequence[Answer], **changes: object) -> str | None:
    return item_choice.closing(State(a_probing()._replace(**changes), tuple(answers)))  # type: ignore[arg-type]


def test_it_ends_on_what_is_sure_from_elsewhere_in_its_order() -> None:
    first, second = SURE
    assert last_item([], sure=SURE) is None, "nothing was asked"
    assert last_item([told(EASY)], sure=SURE) == first
    assert last_item([told(EASY), told(first)], sure=SURE) == second
    assert last_item([told(EASY)], sure=("quotient:6/2", second)) == second, "of the same family"
    assert last_item([told(EASY)], sure=("column-product:3x2/carry", second)) == second, "it takes too long"
    alone = "clock:read/60"  # of no family: only its own turn speaks against it
    assert last_item([told(EASY), told(alone)], sure=(alone, second)) == second
    all_asked = tuple([told(EASY)] * item_choice.MOST_ITEMS)
    assert last_item([told(EASY)], sure=SURE, earlier=all_asked) is None, "the set has had its items"


def test_else_on_the_likeliest_that_is_very_likely() -> None:
    known = [told(key) for key in sat(a_probing(), knows_all).keys[:12]]
    probing = a_probing()
    open_now = [key for key in probing.open if key not in {one.card for one in known}]
    chances = item_choice.chances(probing, known, open_now)
    found = last_item(known)
    families = {skills.traits(one.card).family for one in known}
    free = [key for key in open_now if skills.traits(key).family not in families]
    assert found in free
    assert chances[found] == max(chances[key] for key in free) >= item_choice.SURE


def test_on_nothing_that_is_only_likely() -> None:
    answers = [told(HARDER, right=False), told(EASY)]
    left = [key for key in a_probing().open if key not in (HARDER, EASY)]
    assert 0.85 < max(item_choice.chances(a_probing(), answers, left).values()) < item_choice.SURE
    assert last_item(answers) is None


def test_else_on_the_easiest_that_was_known_but_only_after_a_miss() -> None:
    hard = a_probing().items
    assert hard[EASY].hard < hard[MIDDLING].hard < hard[HARDER].hard
    answers = [told(HARDER), told(EASY), told(MIDDLING), told("product:2x9", right=False)]
    assert last_item(answers, open=()) == EASY
    assert last_item(answers[:3], open=()) is None, "the last was known"
    assert last_item(answers[3:], open=()) is None, "none was known"
    assert last_item([told(SURE[0]), answers[3]], open=()) is None, "what was known is not of the set"


def test_what_was_known_on_days_before_is_easy_today_as_well() -> None:
    before, missed = (told(MIDDLING), told(EASY), told(HARDER, right=False)), told("product:2x9", right=False)
    assert last_item([missed], open=(), earlier=before) == EASY
    assert last_item([missed], open=(), earlier=(*before, told(EASY, right=False))) == MIDDLING
    of_its_family = told("product:9x2")
    assert last_item([missed], open=(), earlier=(of_its_family,)) is None
    assert last_item([told(MIDDLING)], open=(), earlier=before) is None, "the last was known"


# --- which may be asked, and what is wanted -----------------------------------------------------------


def test_what_was_met_is_only_recognised_or_takes_a_minute_is_not_asked() -> None:
    probing = a_probing()
    item, card = probing.items[EASY], probing.cards[EASY]
    assert may_ask(item, card, None)
    assert may_ask(item, card, CardMemory(EASY))
    assert not may_ask(item, card, CardMemory(EASY, met_day=DAY))
    assert not may_ask(item, card._replace(aim="familiarity"), None)
    assert may_ask(item._replace(seconds=60.0), card, None)
    assert not may_ask(item._replace(seconds=61.0), card, None)


def test_a_guess_is_right_as_often_as_there_are_choices() -> None:
    (free, two) = [Card(key, "sum", "a-skill", "a-set", "accuracy", 0) for key in ("sum:1+2", "sum:1+3")]
    kinds = {free.key: Traits("", True, 5.0), two.key: Traits("", True, 5.0, choices=2)}
    made = item_choice.items([free, two], kinds)
    assert [made[key].guess for key in (free.key, two.key)] == [0.0, 0.5]


def nearest(answers: Sequence[Answer], wanted: float, probing: Probing) -> bool:
    """Whether the next item is about as likely known as that: nothing open is nearer by more than what being
    alike and being of another skill are worth."""
    chosen = item_choice.choice(State(probing, tuple(answers)))
    assert chosen is not None
    left = [key for key in probing.open if key not in {one.card for one in answers}]
    families = {skills.traits(one.card).family for one in answers} - {""}
    free = [key for key in left if skills.traits(key).family not in families]
    off = {key: abs(chance - wanted) for key, chance in item_choice.chances(probing, answers, free).items()}
    room = item_choice.ALIKE + item_choice.SPREAD_OUT * len(answers)
    return off[chosen] <= min(off.values()) + room


@pytest.mark.parametrize(
    ("age", "asked", "missed", "wanted"),
    [
        (9, 3, False, item_choice.TARGET),
        (9, 2, False, item_choice.TARGET),
        (9, 3, True, item_choice.SURE),
        (6, 2, False, item_choice.SURE),  # every third, to rest on
        (6, 3, False, item_choice.TARGET),
        (6, 5, False, item_choice.SURE),
    ],
)
def test_an_item_to_rest_on_comes_after_a_miss_and_every_third_time_for_the_young(
    age: int, asked: int, missed: bool, wanted: float
) -> None:
    probing = a_probing("times-6-7-9", age=age)
    answers = [told(key) for key in probing.open[:asked]]
    if missed:
        answers[-1] = told(answers[-1].card, right=False)
    assert item_choice.wanted(State(probing, tuple(answers))) == wanted
    assert nearest(answers, wanted, probing)


# --- the estimate ---------------------------------------------------------------------------------------


def test_beliefs_are_those_of_bayes() -> None:
    """Against the whole joint distribution written out, for two skills."""
    tried = [Tried("a", -1.0, 0.0, True), Tried("a", 0.5, 0.0, False), Tried("b", 0.0, 0.5, True)]
    joint: dict[tuple[float, float, float], float] = {}
    for n, one in enumerate(ability.ABILITIES):
        for i, a in enumerate(ability.SHIFTS):
            for k, b in enumerate(ability.SHIFTS):
                weight = ability.PRIOR_ABILITIES[n] * ability.PRIOR_SHIFTS[i] * ability.PRIOR_SHIFTS[k]
                for t in tried:
                    p = 1 / (1 + exp(t.hard - one - (a if t.skill == "a" else b)))
                    right = p * 0.95 + (1 - p) * t.guess
                    weight *= right if t.well else 1 - right
                joint[one, a, b] = weight
    total = sum(joint.values())
    wanted = sum(w / (1 + exp(0.2 - one - b)) for (one, _, b), w in joint.items()) / total
    assert ability.chance(ability.believed(tried), "b", 0.2) == pytest.approx(wanted, abs=1e-12)


@given(st.lists(st.tuples(st.sampled_from("ab"), st.floats(-2, 2), st.booleans()), max_size=12))
@settings(deadline=None)
def test_a_right_answer_never_makes_a_card_less_likely(rows: list[tuple[str, float, bool]]) -> None:
    tried = [Tried(skill, hard, 0.0, well) for skill, hard, well in rows]
    before = ability.believed(tried)
    better = ability.believed([*tried, Tried("a", 0.0, 0.0, True)])
    for skill in "abc":
        assert ability.chance(better, skill, 0.5) >= ability.chance(before, skill, 0.5) - 1e-12


def test_the_order_of_answers_makes_no_difference() -> None:
    tried = [Tried("a", 0.1 * n, 0.0, n % 3 > 0) for n in range(9)]
    assert ability.chance(ability.believed(tried), "a", 0.3) == pytest.approx(
        ability.chance(ability.believed(tried[::-1]), "a", 0.3)
    )
