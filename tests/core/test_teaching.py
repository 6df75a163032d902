"""What to teach next: what did not stick, what is ready, what had better wait."""

from review import catalogue
from review.core import card_sets, looks, teaching
from review.core.brief import brief
from review.core.model import CardMemory, Child, Pupil, Settings
from review.core.stuck import stuck
from tests.core.stock import DAY, UNCORRECTED, grown, told

SET = "times-2-5-10"  # table-of-5 comes after table-of-10; table-of-2 stands on nothing


def pupil(taught: set[str], memory: dict[str, CardMemory]) -> Pupil:
    found = catalogue.shipped(SET)
    child = Child("ab" * 16, "Fenn", 8, DAY, taught=tuple(taught))
    skills = {one.id: one for one in found.skills}
    settings = Settings(8, taught=frozenset(taught), habits=UNCORRECTED)
    return Pupil(child, DAY, card_sets.cards([found]), skills, memory, settings)


def of(skill: str) -> list[str]:
    return [one.key for one in card_sets.cards([catalogue.shipped(SET)]) if skill in (one.skill, *one.also)]


def lessons(one: Pupil) -> tuple[teaching.Lesson, ...]:
    every = looks.looks(one)
    return teaching.lessons(one, every, stuck(one, every))


def whys(one: Pupil) -> list[tuple[str, str]]:
    return [(lesson.skill.id, lesson.why) for lesson in lessons(one)]


def test_on_the_first_day_all_that_stands_on_nothing_is_ready() -> None:
    assert whys(pupil(set(), {})) == [("table-of-2", "ready"), ("table-of-10", "ready")]


def test_what_stands_on_something_unknown_waits_until_it_is_known() -> None:
    """Two thirds of the earlier cards at a chance of 80% (our judgement)."""
    ten = of("table-of-10")
    weak = {key: grown(key, 1.0, DAY - 60) for key in ten}
    one = pupil({"table-of-10", "table-of-2"}, weak)
    assert whys(one) == [("table-of-5", "behind")]
    enough = weak | {key: grown(key, 60.0, DAY - 2) for key in ten[: -(-len(ten) * 2 // 3)]}
    (lesson,) = lessons(pupil({"table-of-10", "table-of-2"}, enough))
    assert (lesson.why, lesson.of) == ("ready", len(ten))
    assert lesson.known == -(-len(ten) * 2 // 3)


def test_what_did_not_stick_comes_first_with_its_facts() -> None:
    key = of("table-of-2")[3]
    memory = {key: grown(key, 2.0, DAY - 3, aside_day=DAY - 1)}
    first, *others = lessons(pupil({"table-of-2"}, memory))
    assert (first.skill.id, first.why, len(first.cards)) == ("table-of-2", "stuck", 1)
    assert [lesson.why for lesson in others] == ["ready"]


def test_a_brief_counts_four_weeks_and_no_more() -> None:
    key = of("table-of-2")[3]
    rows = [
        told(1, DAY - 28, key=key),
        told(2, DAY - 27, "not_yet", key=key),
        told(3, DAY, key=key),
        told(4, DAY, key=key),
    ]
    found = brief(pupil({"table-of-2"}, {}), rows)
    assert (found.days, found.tries, found.right) == (2, 2, 1)


def test_right_after_a_question_is_not_unaided() -> None:
    """Of a procedure it is marked as right: the work was the child's own."""
    row = told(1, DAY, help="question", key="mental-sum:2d+2d:regroup")
    found = brief(pupil({"table-of-2"}, {}), [row])
    assert (found.tries, found.right) == (1, 0)
