"""What a season is scored by: recall from memory and as the aim asks, differences, tables; what is kept."""

import ast
from itertools import chain
from math import isclose, log
from pathlib import Path

import pytest

from review.core.model import Aim
from tests.benchmarks.learning import children, keeping, scores
from tests.benchmarks.learning.__main__ import run
from tests.benchmarks.learning.children import Given, Pupil, child
from tests.benchmarks.learning.courses import course
from tests.benchmarks.learning.memories import MEMORIES
from tests.benchmarks.learning.season import (
    Forecast,
    Held,
    Known,
    Morning,
    Season,
    Task,
    back,
    is_back,
    known,
    season,
    tallied,
)
from tests.benchmarks.learning.strategies import Setup, named

MODELS = pytest.mark.parametrize("model", MEMORIES)


# --- the two ways to take true recall -----------------------------------------------------------------


def learner(model: str = "scales", number: int = 3, *, aim: Aim | None = None) -> Pupil:
    """Who practised the first half of 100 cards three times; `aim`: of all cards, in place of their own."""
    found = course(100)
    if aim:
        found = found._replace(cards=tuple(card._replace(aim=aim) for card in found.cards))
    pupil = Pupil(child(model, number), model, found)
    for place in range(50):
        for day in (1.0, 3.0, 6.0):
            pupil.memory.practise(place, day, "retrieved")
    return pupil


def by_hand(steps: int, recall: float, asks: float) -> float:
    """Right and unaided: recalled, or counted in steps of which each may be lost, or puzzled out or guessed
    by who does not ask; and no key slipped."""
    if steps:
        return 0.98 * (recall + (1 - recall) * 0.98**steps)
    return 0.98 * (0.97 * recall + (1 - recall) * (1 - asks) * (0.15 + 0.85 * 0.3 * 0.08))


@pytest.mark.parametrize(("key", "steps"), [("product:2x4", 4), ("column-sum:3+2/1-within", 0)])
def test_what_accuracy_asks_is_right_and_unaided(key: str, steps: int) -> None:
    pupil = learner(aim="accuracy")
    place = pupil.course.places[key]
    assert pupil.course.steps[place] == steps
    retrieved, by_aim = pupil.chances(place, 20.0)
    assert 0 < retrieved < 1
    assert isclose(by_aim, by_hand(steps, retrieved, pupil.who.asks))


@pytest.mark.parametrize("key", ["product:2x4", "product:7x8", "column-sum:3+2/1-within"])
def test_so_often_as_is_said_the_answer_is_right_and_unaided(
    key: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of a card that is counted, of one with more steps than patience, and of a procedure."""
    pupil, tries = learner(aim="accuracy"), 3000
    place = pupil.course.places[key]
    monkeypatch.setattr(children, "practise", lambda *_: None)  # so that the child stays the same
    came = [pupil.answer(place, 20.0, showing) for showing in range(tries)]
    chance = pupil.chances(place, 20.0).by_aim
    share = sum(given.right and not given.help for given in came) / tries
    assert abs(share - chance) < 4 * (chance * (1 - chance) / tries) ** 0.5


@MODELS
def test_both_ways_are_one_where_every_aim_is_fluency(model: str) -> None:
    retrieved, by_aim = known(learner(model, aim="fluency"), 20.0)
    assert retrieved == by_aim
    assert retrieved.recall > 10


@MODELS
def test_with_their_own_aims_the_ways_differ(model: str) -> None:
    """And the one from memory is what it was."""
    retrieved, by_aim = known(learner(model), 20.0)
    assert retrieved == known(learner(model, aim="fluency"), 20.0).retrieved
    assert retrieved.recall != by_aim.recall


def test_forecasts_are_held_against_what_the_aim_asks() -> None:
    worked = Given(True, 5.0, "", 2.0, retrieved=False)
    helped = worked._replace(help="picture")
    recalled = worked._replace(retrieved=True)
    slipped = recalled._replace(right=False)
    tries = [(key, True, 0.9, given) for key in ("a", "b") for given in (worked, helped, recalled, slipped)]
    assert tallied([tries], fluent=["a"]) == (Forecast(0.9, 8, retrieved=4, right=4, by_aim=4),)
    assert tallied([tries[:4]], fluent=["a"]) == (Forecast(0.9, 4, retrieved=2, right=2, by_aim=2),)
    assert tallied([tries[:1]], fluent=["a"]) == (Forecast(0.9, 1, retrieved=0, right=1, by_aim=0),)
    assert tallied([tries[4:5]], fluent=["a"]) == (Forecast(0.9, 1, retrieved=0, right=1, by_aim=1),)
    assert tallied([tries[7:]], fluent=["a"]) == (Forecast(0.9, 1, retrieved=1, right=0, by_aim=0),)


def test_who_sees_the_truth_sees_it_as_it_is_scored() -> None:
    """A card that is not retrieved and can be counted out: asked again by the one, let be by the other."""
    found = course(100)._replace(
        cards=tuple(card._replace(aim="accuracy") for card in course(100).cards), steps=(1,) * 100
    )
    at = Setup(found, 5.0, "x", Pupil(child("scales", 1), "scales", found))
    for rule, asked in (("truth-90", True), ("aim-90", False)):
        seeing = named(rule)(at)
        key = found.cards[0].key
        seeing.answer(key, True, 3.0, "", 1, copy_seconds=2.0)
        assert (seeing.plan(60)[0] == key) is asked


def test_a_season_keeps_both_ways() -> None:
    """On a course where the aims differ, with what there would be without practice; sums of the last day can
    be had again from the same child."""
    one = season(Task("scales", 7, "review", 100, 2.5), 110)
    assert one.retrieved != one.by_aim
    untouched = known(Pupil(child("scales", 7), "scales", course(100)), 111)
    assert (one.retrieved.alone, one.by_aim.alone) == untouched
    assert one.by_aim.alone.recall > one.retrieved.alone.recall


def test_back_is_when_as_many_are_firm_as_before_by_either_way() -> None:
    """10 from memory and 20 by aim before the holiday: back on the third day and on the second."""

    def morning(retrieved: int, by_aim: int) -> Morning:
        return Morning(Known(0, retrieved), Known(0, by_aim))

    before, *since = [morning(10, 20), morning(8, 18), morning(9, 20), morning(10, 19), morning(12, 25)]
    assert [back([before, *since[:n]]) for n in range(5)] == [(0, 0), (1, 1), (2, 2), (3, 2), (3, 2)]
    assert [is_back([before, *since[:n]]) for n in range(5)] == [False, False, False, True, True]


# --- what is kept -------------------------------------------------------------------------------------


def test_a_kept_season_is_read_back_the_same(tmp_path: Path) -> None:
    one = season(Task("scales", 7, "review", 100, 2.5), 70)
    assert one.forecasts
    assert list(keeping.read([keeping.line(one)])) == [one]


def imported(file: Path) -> set[Path]:
    """Rooms of the bench that a file imports, wherever it does."""
    trees = [ast.walk(ast.parse(file.read_text(encoding="utf-8")))]
    names = {
        name
        for node in chain.from_iterable(trees)
        if isinstance(node, ast.ImportFrom)
        for name in (node.module or "", *(f"{node.module}.{alias.name}" for alias in node.names))
    }
    paths = {keeping.ROOT / f"{name.replace('.', '/')}.py" for name in names}
    return {path for path in paths if path.parent == keeping.HERE and path.exists()}


def test_all_that_a_season_of_ours_runs_is_in_its_fingerprint() -> None:
    """Also rules that were tried and left out: a changed one is another rule."""
    reached, left = set[Path](), {keeping.HERE / "season.py"}
    while left:
        reached |= left
        left = set[Path]().union(*map(imported, left)) - reached
    assert {"trials.py", "seldom.py", "seated.py"} <= {file.name for file in reached}
    assert reached <= set(keeping.files(ours=True))
    assert keeping.ROOT / "review" / "core" / "skills" / "facts.py" in keeping.files(ours=True)


def test_what_makes_the_cards_and_their_times_is_in_every_fingerprint() -> None:
    """Baselines take them from the core as well."""
    core = keeping.ROOT / "review" / "core"
    files = set(keeping.files(ours=False))
    rooms = {
        core / "card_sets.py",
        core / "working_out.py",
        core / "marking.py",
        core / "skills" / "facts.py",
    }
    assert rooms <= files
    assert {core / "plan.py", core / "memory.py"}.isdisjoint(files)  # theirs is no plan of ours


@pytest.mark.parametrize("name", keeping.OURS)
def test_a_changed_rule_of_ours_is_another_rule(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    changed = tmp_path / name
    changed.write_bytes((keeping.HERE / name).read_bytes() + b"\n# changed\n")
    files = keeping.files
    before = keeping.fingerprint(ours=True), keeping.fingerprint(ours=False)
    monkeypatch.setattr(
        keeping, "files", lambda ours: [changed if file.name == name else file for file in files(ours)]
    )
    keeping.fingerprint.cache_clear()
    try:
        assert keeping.fingerprint(ours=True) != before[0]
        assert keeping.fingerprint(ours=False) == before[1]
    finally:
        keeping.fingerprint.cache_clear()


def test_a_stopped_run_goes_on(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Cut off in the middle of a line: what was whole is not played again, and the rest is."""
    keep = tmp_path / "seasons.jsonl"
    todo = [Task("strengths", n, "never", 100, 2.5) for n in range(1, 4)]
    (whole,) = run(todo, 1, keep)
    lines = keep.read_text(encoding="utf-8").splitlines(keepends=True)
    keep.write_text(lines[0] + lines[1][:40], encoding="utf-8")
    (again,) = run(todo, 1, keep)
    assert again == whole
    assert len(keep.read_text(encoding="utf-8").splitlines()) == 1 + 1 + 2
    (kept,) = run(todo, 1, keep)
    assert kept == whole
    assert len(keep.read_text(encoding="utf-8").splitlines()) == 4


def test_seasons_of_other_code_are_played_again(monkeypatch: pytest.MonkeyPatch) -> None:
    one = season(Task("strengths", 1, "never", 100, 2.5), 20)
    line = keeping.line(one)
    assert list(keeping.read([line])) == [one]
    assert list(keeping.read([line.replace(keeping.of(one.task), "0" * 12)])) == []


# --- scores -------------------------------------------------------------------------------------------


def test_calibration_by_hand() -> None:
    forecasts = [Forecast(0.95, 2, 1, 2, 1), Forecast(0.15, 2, 0, 0, 1)]
    # bins: .95 against .5, .15 against 0; both half of all
    assert isclose(scores.rmse(forecasts), ((0.45**2 + 0.15**2) / 2) ** 0.5)
    assert isclose(scores.log_loss(forecasts), -(log(0.95) + log(0.05) + 2 * log(0.85)) / 4)
    assert isclose(scores.rmse(forecasts, "right"), ((0.05**2 + 0.15**2) / 2) ** 0.5)
    assert isclose(scores.rmse(forecasts, "by_aim"), ((0.45**2 + 0.35**2) / 2) ** 0.5)


def ended(number: int, retrieved: tuple[float, int], by_aim: tuple[float, int]) -> Season:
    """A season with these sums of recall and cards at .9 on the last day."""

    def held(recall: float, firm: int) -> Held:
        return Held((0, 0, recall, 0), (0, 0, firm, 0), 0, Known(0, 0))

    return Season(Task("m", number, "s", 1, 1), held(*retrieved), held(*by_aim), 0, 0, 0, 0, 0, ())


def test_differences_are_between_the_same_children() -> None:
    def one(number: int, recall: float) -> Season:
        return ended(number, (recall, 0), (recall / 2, 0))

    ours = [one(1, 10), one(2, 20), one(3, 33)]
    theirs = [one(3, 30), one(1, 9), one(2, 18)]
    mean, error = scores.differences(ours, theirs, "rec180")
    assert mean == 2
    assert isclose(error, 1 / 3**0.5)
    assert scores.differences(ours, theirs, "recA180")[0] == 1


def test_the_table_names_the_better_rival() -> None:
    rules = ("five-box", "due-only", "in-turn")
    runs = {rule: [season(Task("scales", n, rule, 100, 2.5)) for n in (1, 2)] for rule in rules}
    shown = scores.table(("scales", 100, 2.5), runs)
    assert "scales, 100 cards, 2.5 minutes, 2 children" in shown
    better = scores.best(runs, ("five-box", "due-only"), "rec180")
    mean, error = scores.differences(runs["in-turn"], runs[better], "rec180")
    assert f"{mean:+.1f} ± {error:.1f} against {better}" in shown


def reached(ours: tuple[float, int], *seeing: tuple[float, int]) -> float:
    """By the first way; the other has the same upside down, so that they cannot be taken for each other."""

    def one(at: tuple[float, int]) -> list[Season]:
        return [ended(1, at, (at[1], round(at[0])))]

    return scores.reach(one(ours), [one(at) for at in seeing])


def test_reach_by_hand() -> None:
    """Half of both is half of what is asked at most; halfway between two references is all of it and more."""
    assert isclose(reached((97, 92), (100, 100)), 1)
    assert isclose(reached((48.5, 92), (100, 100)), 0.5)
    assert isclose(reached((97, 46), (80, 100), (120, 0)), 1)
    assert isclose(reached((97, 46), (100, 100), (80, 90)), 0.5)  # one that is worse in both is no measure
    assert reached((97, 30), (80, 100), (120, 0)) < 1.01 * 97 / (0.97 * 106.1)


def test_by_aim_only_what_practice_added_is_held_against_the_truth() -> None:
    """50 of 100 are there without practice: 97% of the other 50 are asked for, not of all."""

    def one(sum_: float, firm: int) -> list[Season]:
        found = ended(1, (0, 0), (sum_, firm))
        return [found._replace(by_aim=found.by_aim._replace(alone=Known(50, 50)))]

    full = one(100, 100)
    assert isclose(scores.reach(one(98.5, 96), [full], scores.BY_AIM), 1)
    assert isclose(scores.reach(one(74.25, 96), [full], scores.BY_AIM), 0.5)


def test_the_summary_has_a_row_for_each_course_and_budget() -> None:
    rules = ("five-box", "never", "truth-90")
    runs = [season(Task("scales", n, rule, 100, m)) for n in (1, 2) for rule in rules for m in (2.5, 5)]
    head, _, first, second = scores.summary(runs, "five-box").splitlines()
    assert head == "| cards, minutes | scales |"
    assert first.startswith("| 100, 2.5 | ")
    assert second.startswith("| 100, 5 | ")
    assert "nan" in first  # no rival
    both = scores.summaries(runs, "five-box")
    assert both.count("| 100, 2.5 | ") == 2
    assert "without practice" in both.partition("Recall as the aim asks:")[2]
