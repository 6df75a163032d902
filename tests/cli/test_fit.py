"""`review fit` as a parent uses it, on a book whose answers come from a child of known memory."""

import json
from collections.abc import Iterator, Sequence
from datetime import date
from importlib.util import find_spec
from pathlib import Path

import pytest

from review import gather
from review.app import full_fit
from review.app.fits import Fit
from review.book import store
from review.config import state_folder
from review.core import curve, memory, own_parameters, parameter_search
from review.core.answer_bodies import answer_body
from review.core.calibration import Promise
from review.core.model import Answer, CardMemory, Child, Draft, Event
from review.core.trace import History
from review.render import fit_lines
from tests.cli.conftest import Review
from tests.core.stock import DAY, DAY_MS
from tests.core.test_parameter_search import WEAK, child

FIRST = date(2026, 1, 6).toordinal()
LAST = "2026-06-01"
EPOCH = date(1970, 1, 1).toordinal()
FAR: parameter_search.Numbers = (-1.8, -1.3, 0.3)  # further off than what the correction makes up for


def answers(histories: Sequence[History], key: str) -> Iterator[Draft]:
    """The histories as a book keeps them; each card was met, and not known, on the day before its first."""
    for number, history in enumerate(histories):
        card = f"product:{2 + number % 9}x{2 + number // 9}"
        yield draft(key, card, history[0].day - 1, "not_yet", "intro")
        for step in history:
            yield draft(
                key, card, step.day, "right" if step.retrieved else "not_yet", "ask", step.way == "look"
            )


def draft(key: str, card: str, day: int, mark: str, role: str, look: bool = False) -> Draft:
    day = day - DAY + FIRST + 1
    answer = Answer(card, card.removeprefix("product:"), "0", "0", mark, role, 900, 2500, age=9)  # type: ignore[arg-type]
    at = (day - EPOCH) * DAY_MS + 36_000_000 + look
    return Draft(key, "answer", day, at, 0, card, dict(answer_body(answer)))


def practise(book: Path, name: str, histories: Sequence[History]) -> None:
    with store.open_book(book, state_folder(), write=True) as opened:
        key = gather.child_named(gather.family_of(opened), name).key
        drafts = sorted(answers(histories, key), key=lambda one: one.raw_ms)
        opened.record(drafts, gather.remember())


def kept(book: Path, name: str) -> tuple[list[Event], dict[str, CardMemory]]:
    """The fits in the book, and what it remembers."""
    with store.open_book(book, state_folder(), write=False) as opened:
        key = gather.child_named(gather.family_of(opened), name).key
        return list(opened.events(child=key, kinds=("fit",))), dict(opened.remembered(key).cards)


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return tmp_path / "family.book"


@pytest.fixture
def practised(family: Review, book: Path) -> Review:
    practise(book, "Mira", child(1, parameter_search.scaled(FAR), 90, 60))
    return family


def fit(review: Review, *more: str) -> dict[str, object]:
    done = review("fit", *more, "--json", "--on", LAST)
    assert done.code == 0, done.err
    found: dict[str, object] = json.loads(done.out)
    return found


def test_a_child_far_from_the_published_figures(practised: Review, book: Path) -> None:
    found = fit(practised, "Mira")
    assert (found["changed"], found["how"]) == (True, "three numbers")
    assert found["gain"] > found["gain_error"] > 0  # type: ignore[operator]
    (event,), _ = kept(book, "Mira")
    assert own_parameters.standing([event]) != curve.PARAMETERS
    assert all(type(value) in (int, str, list) for value in event.body.values())
    assert practised("verify").code == 0


def test_the_words_a_parent_reads(practised: Review) -> None:
    done = practised("fit", "mira", "--on", LAST)
    said = " ".join(done.out.split())
    assert "From today the plan expects what Mira's own answers show." in said
    assert "To go back: review fit Mira --default" in said
    assert "Before:" in done.out
    assert "After:" in done.out
    assert (done.code, done.err) == (0, "")
    again = practised("fit", "Mira", "--on", LAST)
    assert "Memory fits Mira as it is; nothing was changed." in " ".join(again.out.split())
    assert "So far:" in again.out


def test_the_defaults_are_gone_back_to_by_an_event_of_its_own(practised: Review, book: Path) -> None:
    nothing = practised("fit", "Mira", "--default", "--on", LAST)
    assert "already; nothing was changed" in " ".join(nothing.out.split())
    assert fit(practised, "Mira")["changed"]
    assert fit(practised, "Mira", "--default") == {"child": "Mira", "changed": True, "how": "default"}
    fits, _ = kept(book, "Mira")
    assert [bool(event.body["numbers"]) for event in fits] == [True, False]
    assert own_parameters.standing(fits) == curve.PARAMETERS
    assert practised("verify").code == 0


def test_too_few_answers(family: Review, book: Path) -> None:
    done = family("fit", "Jonah", "--on", LAST)
    said = " ".join(done.out.split())
    assert "Memory cannot be fitted to Jonah yet; nothing was changed." in said
    assert "It takes 200 first tries of cards met before, 20 of them missed. There are 0 and 0." in said
    assert fit(family, "Jonah")["how"] == "too few answers"
    assert kept(book, "Jonah")[0] == []


def test_which_child_is_asked(practised: Review) -> None:
    done = practised("fit", "--on", LAST)
    assert (done.code, done.out) == (1, "")
    assert "Which child?" in done.err
    assert practised("fit", "Nobody").code == 1


def test_without_the_extra_one_line_says_what_to_install(
    family: Review, book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(full_fit, "find_spec", lambda name: None)
    practise(book, "Mira", child(1, parameter_search.scaled(WEAK), 120, 90))
    done = family("fit", "Mira", "--on", LAST)
    assert done.code == 0
    assert '.venv/bin/pip install ".[fit]"' in " ".join(done.out.split())


def test_the_extra_is_there_where_tests_run() -> None:
    assert find_spec("fsrs_rs_python") is not None
    assert full_fit.is_installed()


def test_memory_goes_by_the_fit(practised: Review, book: Path) -> None:
    _, before = kept(book, "Mira")
    assert fit(practised, "Mira")["changed"]
    (event,), after = kept(book, "Mira")
    weaker = [key for key in before if (after[key].stability or 0) < (before[key].stability or 0)]
    assert len(weaker) > 0.9 * len(before)
    with store.open_book(book, state_folder(), write=False) as opened:
        events = list(opened.events(child=event.child))
    assert memory.fold(events) == after
    fit(practised, "Mira", "--default")
    assert kept(book, "Mira")[1] == before


def promises(*shares: float, right: float) -> tuple[Promise, ...]:
    return tuple(Promise(FIRST, share, right) for share in shares)


FITTED = "Fitted to the days before, it would have promised"


@pytest.mark.parametrize(
    ("before", "after", "came", "told"),
    [
        (0.88, 0.94, 0.93, f"it promised 88 right. {FITTED} 94. In fact 93 were right."),
        (0.943, 0.936, 0.931, f"it promised 94.3 right. {FITTED} 93.6. In fact 93.1 were right."),
        (0.943, 0.9431, 0.931, "In fact 93.1 were right. Taken card by card its promises came nearer, which"),
    ],
)
def test_a_change_that_is_told_can_be_seen_or_is_said_in_words(
    before: float, after: float, came: float, told: str
) -> None:
    was, would = promises(before, right=came), promises(after, right=came)
    found = parameter_search.Fitted("three", curve.PARAMETERS, 300, 30, FIRST, None, was, would)
    said = fit_lines.summary(Fit(Child("c", "Fenn", 9, FIRST), found))
    assert told in " ".join(said)
    assert told.startswith("In fact") or "card by card" not in " ".join(said)
