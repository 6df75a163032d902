"""Which answers the search for error rules reads, and how."""

from collections.abc import Iterator
from itertools import product
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review import catalogue
from review.core import card_sets, misses, readings, skills
from review.core.amendments import amended
from review.core.answers import FORMS
from review.core.forms import Form
from review.core.keys import kind_of
from review.core.model import Answer, Event, Mark
from review.core.readings import by_family, family_of, read
from tests.core.logged import logged

CARD = "column-sum:2+2/1-within"


def answer(given: str, asked: str = "47+25", card: str = CARD, **more: Any) -> Answer:
    expected = skills.problem(card, asked).expected
    mark: Mark = "right" if given == expected else "not_yet"
    return Answer(card, asked, expected, given, mark, end_ms=4000)._replace(**more)


def other(seq: int, kind: str, body: dict[str, object], day: int = 739000) -> Event:
    return Event(1, seq, "c", kind, day, seq, seq, 0, "", body)  # type: ignore[arg-type]


def of(*answers: Answer) -> tuple[readings.Reading, ...]:
    rows = logged((739000 + n, one) for n, one in enumerate(answers))
    return read([row for row in rows if readings.tells(row.body)])


def test_an_answer_is_read_against_every_rule_of_its_problem() -> None:
    (one,) = of(answer("612"))
    assert one.fits == {"sums_whole", "left_to_right"}
    assert one.says["digits_added"] == "18"
    assert not one.right


def test_where_no_rule_leads_anywhere_nothing_is_read() -> None:
    assert of(answer("999"), answer("72")) == ()
    assert of(answer("72")) == ()


def test_a_right_answer_is_read_beside_a_telling_one() -> None:
    wrong, right = of(answer("612"), answer("81", "58+23"))
    assert right.right
    assert not right.fits
    assert "sums_whole" in right.says
    assert not wrong.right


@pytest.mark.parametrize(
    "more",
    [
        {"role": "copy"},
        {"showing": 1},
        {"help": "picture"},
        {"mark": "void"},
        {"mark": "shown", "given": ""},
        {"mark": "right_helped"},
        {"taken": "aloud"},
        {"taken": "paper"},
        {"sitting": "gentle"},
    ],
)
def test_what_proves_nothing_is_left_out(more: dict[str, Any]) -> None:
    """Told a moment ago, led by help, interrupted, not written by the child, or on a day that counts for
    nothing."""
    assert not readings.tells(answer("612")._replace(**more)._asdict())


def test_to_see_it_written_again_is_no_help() -> None:
    assert readings.tells(answer("612", help="written")._asdict())


def test_a_few_more_of_one_kind_are_answers_like_others() -> None:
    assert readings.tells(answer("612", sitting="extra")._asdict())


def test_what_was_typed_first_is_read() -> None:
    (one,) = of(answer("72", mark="right", slipped="612"))
    assert one.given == "612"
    assert "sums_whole" in one.fits


def test_a_right_answer_that_was_only_asked_once_more_is_a_right_answer() -> None:
    _, one = of(answer("612"), answer("72", mark="right", slipped="72"))
    assert one.right


def test_what_a_parent_put_right_is_no_evidence() -> None:
    rows = logged([(739000, answer("612")), (739000, answer("711", "58+23"))])
    put_right = other(3, "correct", {"device": 1, "seq": 2, "mark": "right"})
    assert len(read(by_family(amended(rows))["column-sum"])) == 2
    assert len(read(by_family(amended([*rows, put_right]))["column-sum"])) == 1


def test_what_was_undone_is_no_evidence() -> None:
    rows = [*logged([(739000, answer("612"))]), other(2, "undo", {"device": 1, "seq": 1})]
    assert by_family(amended(rows)) == {}


def test_roman_numerals_that_cannot_be_read_are_read_here() -> None:
    (one,) = of(answer("xiiii", "14", "roman:subtractive/write/13..20"))
    assert one.fits == {"additive", "no_five"}


def test_a_card_that_no_kind_knows_any_more_is_passed_over() -> None:
    strange = answer("612")._replace(card="column-sum:9+9/none-such")
    assert of(strange, answer("612"))[0].card == CARD


@pytest.mark.parametrize(
    ("key", "family"),
    [
        ("column-sum:3+3/2", "column-sum"),
        ("sum:_+5=12", "sum/missing"),
        ("sum:n+0", "sum"),
        ("product:6x7", "product"),
        ("roman:subtractive/read/1..12", "roman/read"),
        ("place-value:less/3/100", "place-value/more"),
        ("fraction:add-mixed-over/4", "fraction/add"),
        ("fraction:unit-of/4", "fraction/of"),
        ("decimal:order/1-2-3", "decimal/compare"),
        ("money:change/GBP/0.05..5", "money/change"),
        ("word-problem:join-result/100", "word-problem/join"),
    ],
)
def test_cards_of_one_idea_are_one_family(key: str, family: str) -> None:
    assert family_of(key) == family


@pytest.mark.parametrize(
    ("card", "one", "other", "same"),
    [
        ("sum:6+7", "6+7", "7+6", True),
        ("sum:_+5=12", "_+5=12", "5+_=12", True),
        ("product:nx0", "0x7", "4x0", False),
        (CARD, "47+25", "25+47", False),
    ],
)
def test_two_orders_of_a_fact_are_one_problem(card: str, one: str, other: str, same: bool) -> None:
    first, second = (
        readings.Reading(1, card, asked, "", "", False, {}, frozenset()) for asked in (one, other)
    )
    assert (first.problem == second.problem) is same


def test_one_step_off_in_a_table_is_never_named() -> None:
    """One step off explains 38% of wrong products (design lab); it says nothing of how a child thinks."""
    assert {"step_short", "ten_off/less", "swapped"}.isdisjoint(readings.predictions("product:7x8", "7x8"))
    assert "step_short" not in readings.predictions("quotient:56/8", "56/8")
    assert readings.predictions("product:7x8", "7x8")["added"] == "15"


def test_only_wrong_answers_and_those_typed_twice_can_speak_for_a_rule() -> None:
    given_so = (
        answer("612"),
        answer("81", "58+23"),
        answer("72", mark="right", slipped="711"),
        answer("999"),
    )
    told = by_family(logged((739000 + n, one) for n, one in enumerate(given_so)))["column-sum"]
    assert [*readings.astray(told)] == [0, 2, 3]
    assert [one.right for one in read(told)] == [False, True, False, False]
    assert read(told, lambda wrong: False) == ()


def test_only_the_newest_answers_of_a_family_are_read() -> None:
    rows = logged((739000 + n, answer("612")) for n in range(readings.MOST + 20))
    kept = by_family(rows)["column-sum"]
    assert len(kept) == readings.MOST
    assert kept[-1].day == 739000 + readings.MOST + 19


# --- what may have been led to ------------------------------------------------------------------------


def spelled(text: str) -> list[str]:
    """The same answer as a child may write it, and others near it."""
    return [
        text, f" {text} ", f"0{text}", f"{text}.", f"={text}", text.upper(), text.replace(" ", ", "),
        text.replace(":", "."), f"{text}0", text[::-1], text[:-1], f"-{text}", text.replace(",", ""),
    ]  # fmt: skip


CARDS = [card.key for card in card_sets.cards(catalogue.whole())]
FAMILIES = {family: [key for key in CARDS if family_of(key) == family] for family in {*map(family_of, CARDS)}}


@given(st.sampled_from(sorted(FAMILIES)), st.integers(0, 99_999))
@settings(max_examples=1000, deadline=None)
def test_no_answer_that_a_rule_leads_to_is_passed_over(family: str, seed: int) -> None:
    random = Random(seed)
    key = random.choice(FAMILIES[family])
    asked, another = (skills.draw(key, random) for _ in "ab")
    problem, says = skills.undrawn(key, asked), readings.predictions(key, asked)
    near = [*says.values(), problem.expected, skills.undrawn(key, another).expected]
    for text in {one for expected in near for one in spelled(expected)}:
        told = Answer(key, asked, problem.expected, text, "not_yet")
        led = any(readings.leads_to(problem, one, text) for one in says.values())
        assert readings.may_lead(told) or not led, (key, asked, text)


def test_answers_of_other_digits_are_one_in_the_forms_of_a_few_kinds_only() -> None:
    """Every number that is told apart by `may_lead` is one that judging tells apart, whatever the form."""
    numbers = [str(number) for number in (*range(130), 200, 305, 1200, 1300)]
    loose = {name for name, form in FORMS.items() if any(same_in(form, numbers))}
    assert "whole" not in loose
    forms = {(kind_of(key), skills.undrawn(key, skills.draw(key, Random(key))).form) for key in CARDS}
    assert {kind for kind, form in forms if form in loose} <= readings.LOOSE


def same_in(form: Form, texts: list[str]) -> Iterator[tuple[str, str]]:
    """Those of other digits that are one answer."""
    values = [(text, form.read(text, "")) for text in texts]
    read = [(text, value) for text, value in values if value is not None]
    for (a, one), (b, other) in product(read, read):
        others = sorted(a.replace("0", "")) != sorted(b.replace("0", ""))
        if others and form.weigh(one, other) == "right":
            yield a, b


@given(st.sampled_from(sorted(FAMILIES)), st.integers(0, 99_999), st.integers(1, 12))
@settings(max_examples=400, deadline=None)
def test_what_is_looked_at_first_changes_no_report(family: str, seed: int, many: int) -> None:
    """Wrong answers by a rule, at random or typed twice, on a few days: reading them all finds no more."""
    random = Random(seed)
    rows = logged((739000 + random.randrange(3), some_answer(family, random)) for _ in range(many))
    told = by_family(rows).get(family, ())
    every = read(told, misses.may_be_named, lambda _: True)
    assert read(told, misses.may_be_named, misses.may_be_evident) == every
    assert read(told) == read(told, may_be=lambda _: True)


def some_answer(family: str, random: Random) -> Answer:
    key = random.choice(FAMILIES[family])
    asked = skills.draw(key, random)
    expected = skills.undrawn(key, asked).expected
    says = [*readings.predictions(key, asked).values()]
    given = random.choice([*says, *says, expected, spelled(expected)[random.randrange(13)]])
    slipped = random.choice(["", "", "", given, *says])
    mark: Mark = "right" if given == expected else "not_yet"
    return Answer(key, asked, expected, given, mark, slipped=slipped)
