"""The bench that compares rules for what to ask: is it fit to tell a better rule from a worse one?"""

from math import isclose
from random import Random
from statistics import fmean

import pytest
from hypothesis import strategies as st

from review.core import habits, working_out
from tests.benchmarks.learning import knowing, scores
from tests.benchmarks.learning.__main__ import options, wanted
from tests.benchmarks.learning.baselines import DueOnly, FiveBoxes, eased
from tests.benchmarks.learning.children import Pupil, child
from tests.benchmarks.learning.courses import COURSES, course
from tests.benchmarks.learning.memories import MEMORIES
from tests.benchmarks.learning.no_counting import NoCounting, NotAtFirst
from tests.benchmarks.learning.outsiders import ACCOUNTS, OUTSIDERS
from tests.benchmarks.learning.season import HOLIDAY, LAST_DAY, Task, season, sitting
from tests.benchmarks.learning.strategies import Setup, Strategy, named
from tests.benchmarks.learning.variants import VARIANTS
from tests.benchmarks.learning.worked_out import WORKED_OUT, ByMisses

USUAL = [0.0]
HOWS = st.sampled_from(["retrieved", "worked", "shown"])
MODELS = pytest.mark.parametrize("model", ACCOUNTS)


# --- children and courses -----------------------------------------------------------------------------


@pytest.mark.parametrize("size", COURSES)
def test_a_course_is_as_large_as_it_says(size: int) -> None:
    cards = course(size).cards
    assert len(cards) == len({card.key for card in cards}) == size
    assert {card.aim for card in cards} == {"fluency", "accuracy"}


def test_partner_facts_are_kin() -> None:
    found = course(400)
    sum_, difference = found.places["sum:6+9"], found.places["difference:15-9"]
    assert difference in found.kin[sum_]
    assert sum_ in found.kin[difference]


def test_practice_reaches_partner_facts() -> None:
    found = course(400)
    pupil = Pupil(child("activation", 3), "activation", found)
    place = found.places["sum:6+9"]
    other = found.kin[place][0]
    before = pupil.memory.recall(other, 2.0)
    for showing in range(8):
        pupil.answer(place, 1.0 + showing / 100, showing)
    assert pupil.memory.recall(other, 2.0) > before


def test_a_quarter_of_days_is_missed() -> None:
    found = course(100)
    pupils = [Pupil(child("scales", n), "scales", found) for n in range(40)]
    days = [day for day in range(1, LAST_DAY + 1) if day not in HOLIDAY]
    share = sum(pupil.practises(day) for pupil in pupils for day in days) / len(days) / len(pupils)
    assert 0.70 < share < 0.80


def test_larger_products_are_harder() -> None:
    """The problem-size effect: over cards, not for each (Ashcraft & Guillaume 2009)."""
    found = course(100)
    products = [
        (found.traits[c.key], h) for c, h in zip(found.cards, found.hard, strict=True) if c.kind == "product"
    ]
    sized = sorted((int(its.family.partition("=")[2]), hard) for its, hard in products if "=" in its.family)
    half = len(sized) // 2
    assert sum(h for _, h in sized[-half:]) > sum(h for _, h in sized[:half])


# --- baselines ----------------------------------------------------------------------------------------


def setup(strategy: str = "five-box") -> Setup:
    found = course(100)
    return Setup(found, 5.0, "x", Pupil(child("scales", 1), "scales", found))


def first_gaps(rule: FiveBoxes | DueOnly, rights: list[bool]) -> list[int]:
    key, day, gaps = rule.cards[0], 1, []
    for right in rights:
        rule.answer(key, right, 3.0, "", day, copy_seconds=2.0)
        gaps.append(rule.due[key] - day)
        day = rule.due[key]
    return gaps


def test_five_boxes() -> None:
    """One box up when retrieved, back to the first when not (Leitner 1972)."""
    assert first_gaps(FiveBoxes(setup()), [True] * 6 + [False, True]) == [1, 2, 4, 8, 16, 16, 1, 2]


def test_five_boxes_take_a_slow_answer_for_none() -> None:
    rule = FiveBoxes(setup())
    key = rule.cards[0]
    for day, seconds, gap in ((1, 3.0, 1), (2, 3.0, 2), (4, 9.0, 1)):
        rule.answer(key, True, seconds, "", day, copy_seconds=2.0)
        assert rule.due[key] - day == gap


@pytest.mark.parametrize(("quality", "change"), [(5, 0.10), (4, 0.0), (3, -0.14)])
def test_the_easiness_factor(quality: int, change: float) -> None:
    """What the published formula adds (Wozniak 1990)."""
    assert isclose(eased((2.5, 0, 0), quality)[0], 2.5 + change)


def test_easiness_gaps() -> None:
    """1, 6, then times the factor, rounded up; never under 1.3; a miss begins again (Wozniak 1990)."""
    state = (2.5, 0, 0)
    gaps = [(state := eased(state, 4))[2] for _ in range(4)]
    assert gaps == [1, 6, 15, 38]
    assert eased(state, 1) == (2.5, 0, 1)
    assert eased((1.31, 3, 10), 3)[0] == 1.3


def test_due_only_is_the_library_as_it_comes() -> None:
    """Right, and right a day later: stability 7.3153, due in 7 days; right, and missed 2 days later: .6076,
    due in one (`fsrs_vectors.csv`: three libraries agree). The first gap is the first stability, 2.3065."""
    rule = DueOnly(setup())
    key = rule.cards[0]
    assert first_gaps(rule, [True]) == [2]
    for right, stability, gap in ((True, 7.3153, 7), (False, 0.6076, 1)):
        rule = DueOnly(setup())
        rule.answer(key, True, 3.0, "", 1)
        day = 2 if right else 3
        rule.answer(key, right, 3.0, "", day)
        assert isclose(rule.kept[key].stability or 0, stability, abs_tol=1e-4)
        assert rule.due[key] - day == gap


def test_what_was_missed_is_looked_at_twice_more_the_same_day() -> None:
    rule = FiveBoxes(setup())
    key = rule.cards[0]
    assert [rule.answer(key, right, 3.0, "", 1) for right in (False, False, False)] == [True, True, False]
    assert not rule.answer(rule.cards[1], True, 3.0, "", 1)
    assert rule.due[key] == 2


# --- seasons ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("strategy", ["review", "review:sitting", "five-box", "due-only"])
def test_a_season_is_the_same_again(strategy: str) -> None:
    task = Task("scales", 7, strategy, 100, 2.5)
    assert season(task, 20) == season(task, 20)


@pytest.mark.parametrize("name", VARIANTS)
def test_every_rule_that_was_tried_can_be_tried_again(name: str) -> None:
    """Also in the first days after the holiday, where one of them plans otherwise."""
    last = HOLIDAY[-1] + 3 if name.endswith("-back") or name == "review:after-break" else 4
    one = season(Task("activation", 1, name, 100, 2.5), last)
    assert one.met > 0
    assert one.answers >= one.met


@MODELS
def test_never_to_review_loses(model: str) -> None:
    """A planted bad rule, on the same children."""
    runs = {s: [season(Task(model, n, s, 100, 5), 60) for n in range(1, 6)] for s in ("never", "five-box")}
    for measure in ("rec60", "at9_60"):
        mean, error = scores.differences(runs["never"], runs["five-box"], measure)
        assert mean < -2 * error
        assert mean < -10


def test_who_sees_the_truth_holds_more() -> None:
    """Where the minutes are short; with many a day, any order does."""
    rules = ("by-chance", "truth-90")
    runs = {rule: [season(Task("activation", n, rule, 400, 2.5), 60) for n in range(1, 4)] for rule in rules}
    mean, error = scores.differences(runs["truth-90"], runs["by-chance"], "at9_60")
    assert mean > 2 * error


def test_new_cards_that_wait_are_fewer() -> None:
    met = [season(Task("scales", 3, rule, 1000, 5), 60).met for rule in ("review", "review:load70")]
    assert met == sorted(met, reverse=True)
    assert len(set(met)) == 2


def test_longer_gaps_go_another_way_and_are_put_back() -> None:
    task = Task("equation", 1, "review", 100, 5)
    ours, longer, again = (
        season(task._replace(strategy=name), 140) for name in ("review", "review:far95", "review")
    )
    assert ours == again
    assert longer.forecasts != ours.forecasts


def test_facts_weighed_by_time_come_sooner() -> None:
    """So fewer are met, though not by each child; what was put in place for a turn is taken away again."""
    tasks = [Task("scales", n, "review", 1000, 5) for n in range(1, 7)]
    before = [season(task, 60) for task in tasks]
    weighed = [season(task._replace(strategy="review:time"), 60) for task in tasks]
    assert sum(one.met for one in weighed) < sum(one.met for one in before)
    assert season(tasks[2], 60) == before[2]


def test_what_is_missed_when_not_recalled_was_recalled_when_right() -> None:
    """A card that is missed whenever it is not recalled cannot be worked out. And what was put in place for
    a turn is taken away again."""
    found = course(100)
    rule = named("review:by-misses")(setup("review:by-misses"))
    assert isinstance(rule, ByMisses)
    often, never = (card.key for card in found.cards[:2])
    for day in range(1, 9):
        rule.answer(often, day % 2 == 0, 3.0, "", day, copy_seconds=2.0)
        rule.answer(never, True, 3.0, "", day, copy_seconds=2.0)
    shares = [rule._share(key, rule.memory[key]) for key in (often, never)]
    assert 0.1 < shares[0] < 0.4
    assert shares[1] >= WORKED_OUT
    for room, put_back in ((working_out, working_out.likely), (habits, habits.sureness)):
        assert put_back.__module__ == room.__name__


def test_children_who_do_not_count() -> None:
    """They miss what they do not recall, where others count it: always, or at first sight only."""
    found = course(100)
    easy = next(place for place, steps in enumerate(found.steps) if 0 < steps <= 4)

    def unrecalled(kind: type[Pupil]) -> list[bool]:
        pupil = kind(child("equation", 3), "equation", found)
        played = (pupil.play(easy, False, Random(n)) for n in range(200))
        return [given.right and not given.help for given, _ in played]

    assert sum(unrecalled(Pupil)) > 160
    assert sum(unrecalled(NoCounting)) < 20
    first, *later = unrecalled(NotAtFirst)
    assert not first
    assert sum(later) > 160


def test_a_strategy_there_is_not() -> None:
    with pytest.raises(ValueError, match="five-box"):
        named("six-box")


def test_fresh_children_are_others() -> None:
    def numbers(*words: str) -> set[int]:
        return {task.number for task in wanted(options().parse_args([*words, "--children", "200"]))}

    assert len(numbers()) == len(numbers("--fresh")) == 200
    assert not numbers() & numbers("--fresh")


def test_the_whole_grid() -> None:
    todo = wanted(options().parse_args(["--full", "--children", "1", "--strategies", "five-box"]))
    assert len(todo) == len(MEMORIES) * 3 * 3


def test_models_by_group_and_by_name() -> None:
    def models(asked: str) -> list[str]:
        words = ["--models", asked, "--children", "1", "--strategies", "five-box"]
        return [task.model for task in wanted(options().parse_args(words))]

    assert models("all") == [*MEMORIES]
    assert models("outside") == [*OUTSIDERS]
    assert models("traces,scales") == ["traces", "scales"]
    with pytest.raises(ValueError, match="squares"):
        models("squares")


# --- what can be known ---


def answered(rule: Strategy, pupil: Pupil, days: int) -> None:
    met = set[str]()
    for day in range(1, days + 1):
        sitting(pupil, rule, 5.0, day, met)


def test_the_ways_to_an_answer_are_shared_out() -> None:
    pupil = Pupil(child("scales", 3), "scales", course(100))
    for place in (0, 60):
        found = knowing.ways(pupil, place)
        for retrieved in (True, False):
            shares = [share for way, (share, _) in found.items() if way.retrieved is retrieved]
            assert sum(shares) == pytest.approx(1)
        for way, (_, times) in found.items():
            assert sum(times.values()) == pytest.approx(1), way


def test_who_knows_the_model_foretells_better_than_we_do() -> None:
    """And never sees the child's own memory."""
    pupil = Pupil(child("scales", 3), "scales", course(100))
    ours = named("review")(Setup(pupil.course, 5.0, "scales|3", pupil))
    other = Pupil(pupil.who, "scales", pupil.course)
    knows = named("knowing-94")(Setup(pupil.course, 5.0, "scales|3", other))
    answered(ours, pupil, 40)
    answered(knows, other, 40)
    assert off(knows, other, 41) < 0.7 * off(ours, pupil, 41)


def off(rule: Strategy, pupil: Pupil, day: int) -> float:
    """The mean difference between what is foretold and the truth."""
    told = {place: rule.recall(key, day) for key, place in pupil.course.places.items()}
    return fmean(abs(c - pupil.memory.recall(place, day)) for place, c in told.items() if c is not None)


def test_who_knows_the_model_does_not_look_into_the_child(monkeypatch: pytest.MonkeyPatch) -> None:
    pupil = Pupil(child("scales", 3), "scales", course(100))
    knows = named("knowing-90")(Setup(pupil.course, 5.0, "scales|3", pupil))
    monkeypatch.delattr(pupil, "memory")
    key = pupil.course.cards[0].key
    knows.answer(key, True, 3.0, "", 1, copy_seconds=2.0)
    assert 0 < (knows.recall(key, 8) or 0) < 1
    assert key not in knows.plan(1)


@pytest.mark.parametrize("model", ["scales", "strengths"])
def test_of_several_models_the_true_one_is_believed(model: str, monkeypatch: pytest.MonkeyPatch) -> None:
    pupil = Pupil(child(model, 3), model, course(100))
    monkeypatch.setattr(knowing.Knowing, "models", lambda self, true: list(MEMORIES))
    rule = knowing.Knowing(Setup(pupil.course, 5.0, f"{model}|3", pupil), 0.94)
    answered(rule, pupil, 12)
    assert rule.pasts.shares()[model] > 0.9


def test_who_believes_other_models_does_not_plan_by_the_true_one() -> None:
    pupil = Pupil(child("scales", 3), "scales", course(100))
    rule = knowing.Believing(Setup(pupil.course, 5.0, "scales|3", pupil), 0.94)
    assert set(rule.pasts.pasts) == {"activation", "equation", "strengths"}
