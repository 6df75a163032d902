"""What did not stick, and the way back: on cards of the catalogue, with memories made by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.looks import FIRM, Firmness, looks
from review.core.model import Habits, Pupil, Skill
from review.core.stuck import Stuck, begin_with, stuck, way_back
from review.render.desk_lines import harder_lines, stuck_card
from tests.core.test_reports import DAY, learned, pupil


def found(some: Pupil) -> tuple[Stuck, ...]:
    return stuck(some, looks(some))


def skill(name: str, *after: str) -> Skill:
    return Skill(name, name, "sum", "fluency", {}, after)


# --- who is stuck ---


@pytest.mark.parametrize(
    ("changes", "is_stuck"),
    [
        ({"miss_days": 3, "tries": 6}, True),
        ({"miss_days": 2, "tries": 6}, False),
        ({"miss_days": 3, "tries": 6, "stability": 7.0}, False),  # it holds a week by now
        ({"miss_days": 5, "tries": 50, "right": 45}, False),  # nine in ten
        ({"miss_days": 10, "tries": 50, "right": 40}, True),
        ({"aside_day": DAY - 2, "tries": 9, "right": 9}, True),
    ],
)
def test_missed_on_three_days_often_and_not_held(changes: dict[str, object], is_stuck: bool) -> None:
    memory = {"product:2x7": learned("product:2x7", 1)._replace(**changes)}  # type: ignore[arg-type]
    assert bool(found(pupil("times-2-5-10", memory=memory))) == is_stuck


def test_what_is_said_to_hold_is_not_said_to_be_stuck() -> None:
    """A child recalls better than the curve has it: the plan trusts a card for two weeks that the curve gives
    five days. Progress called it holding, and stuck had it taught again."""
    key = "product:2x7"
    memory = {key: learned(key, 1, stability=5.0)._replace(miss_days=3, tries=10, right=7, right_days=7)}
    sure = pupil("times-2-5-10", memory=memory)
    sure = sure._replace(settings=sure.settings._replace(habits=Habits(weights=(1.5, 0, 0, 0, 0))))
    (look,) = [one for one in looks(sure) if one.card.key == key]
    assert (look.standing.state, found(sure)) == ("holding", ())


def test_what_only_needs_to_be_met_is_never_stuck() -> None:
    key = pupil("roman-early").cards[0].key
    memory = {key: learned(key, 1, miss_days=9, tries=20)}
    assert found(pupil("roman-early", memory=memory)) == ()


def test_the_evidence_is_told() -> None:
    memory = {"product:2x7": learned("product:2x7", 4, miss_days=3, tries=8)._replace(last_mark="not_yet")}
    (one,) = found(pupil("times-2-5-10", memory=memory))
    (card,) = one.cards
    assert (card.prompt, card.tries, card.right, card.miss_days) == ("2 × 7", 8, 3, 3)
    assert (card.last_day, card.last_mark, card.aside_day) == (DAY - 4, "not_yet", 0)


@pytest.mark.parametrize(
    ("mark", "misses", "told"),
    [
        ("right", 1, "Last answer: not yet, then right, "),  # the second look
        ("right", 0, "Last answer: right, "),
        ("shown", 2, "Last answer: asked to see it, "),
    ],
)
def test_a_second_look_is_not_told_as_if_it_were_known(mark: str, misses: int, told: str) -> None:
    last = {"last_mark": mark, "seen_day_misses": misses}
    memory = {"product:2x7": learned("product:2x7", 4, miss_days=3, tries=8)._replace(**last)}  # type: ignore[arg-type]
    (one,) = found(pupil("times-2-5-10", memory=memory))
    assert told in stuck_card(one.cards[0])


# --- the way back ---


def test_the_harder_order_of_what_was_set_aside_is_told_and_not_promised() -> None:
    tally = (("2x7", 6, 0), ("7x2", 6, 5))
    memory = learned("product:2x7", 1, stability=2.0)._replace(miss_days=3, tries=12, right=7, orders=tally)
    told = []
    for aside in (0, DAY - 2):
        memories = {"product:2x7": memory._replace(aside_day=aside)}
        (one,) = found(pupil("times-2-5-10", memory=memories))
        told += harder_lines(one.cards[0])
    said = "  7 × 2 is missed more often than 2 × 7"
    assert told == [f"{said}, so it is asked that way more often.", f"{said}."]


def test_the_earlier_skill_is_named_with_how_firm_it_is() -> None:
    memory = {key: learned(key, 1, miss_days=4, tries=9) for key in ("product:6x6", "product:6x8")}
    (one,) = found(pupil("times-2-5-10", "times-6-7-9", memory=memory))
    assert [(step.skill.id, step.firmness) for step in one.back] == [
        ("table-of-5", "not met"),
        ("table-of-10", "not met"),
    ]
    assert [step.id for step in begin_with(one)] == ["table-of-10"]


def test_firm_ground_ends_the_way() -> None:
    known = {one.id: one for one in (skill("c", "b"), skill("b", "a"), skill("a"))}
    firm: dict[str, Firmness] = {"a": "holding", "b": "growing", "c": "stuck"}
    assert [step.skill.id for step in way_back(known["c"], known, firm.__getitem__)] == ["b"]
    firm["b"] = "faded"
    back = way_back(known["c"], known, firm.__getitem__)
    assert [step.skill.id for step in back] == ["b", "a"]
    assert [one.id for one in begin_with(Stuck(known["c"], (), back))] == ["b"]


def test_skills_that_come_after_each_other_in_a_ring_are_each_told_once() -> None:
    """As a parent's own sets may have it among them."""
    ring = {one.id: one for one in (skill("a", "b"), skill("b", "c"), skill("c", "a", "b"))}
    assert [step.skill.id for step in way_back(ring["a"], ring, lambda name: "faded")] == ["b", "c"]


NAMES = "abcdefgh"
webs = st.lists(st.lists(st.sampled_from(NAMES), max_size=3), min_size=8, max_size=8)
firmnesses = st.lists(st.sampled_from(["not taught", "stuck", "faded", "growing", "holding"]), min_size=8)


@given(webs, firmnesses)
def test_any_web_of_skills_also_a_circle_has_a_way_back(web: list[list[str]], how: list[Firmness]) -> None:
    known = {name: skill(name, *after) for name, after in zip(NAMES, web, strict=True)}
    firm = dict(zip(NAMES, how, strict=False))
    back = way_back(known["a"], known, firm.__getitem__)
    assert len({step.skill.id for step in back}) == len(back)
    assert "a" not in {step.skill.id for step in back}
    for step in back:
        nearer = {"a"} | {one.skill.id for one in back if one.firmness not in FIRM}
        assert any(step.skill.id in known[name].after for name in nearer)
    assert all(one in [step.skill for step in back] for one in begin_with(Stuck(known["a"], (), back)))
