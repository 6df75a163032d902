"""What the log's other events say of the children, and the plan as an event."""

import json
from collections.abc import Mapping
from itertools import count

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import bodies, family
from review.core.model import Child, Event, EventKind, Words
from review.core.warmup import Plan, PlanItem

NUMBERS = count(1)


def event(kind: EventKind, body: Mapping[str, object], child: str = "c1", day: int = 739_000) -> Event:
    n = next(NUMBERS)
    return Event(1, n, child, kind, day, n, n, 0, "", body)


def mira(**changes: object) -> Event:
    body = family.profile_body(Child("c1", "Mira", 7, 739_000))
    return event("profile", {**body, **changes})


def only(*events: Event) -> Child:
    (child,) = family.children(events)
    return child


def test_a_profile_names_only_what_changes() -> None:
    child = only(mira(), event("profile", {"seconds": 240, "untimed": True}, day=739_010))
    assert (child.name, child.age, child.age_day, child.minutes, child.untimed) == (
        "Mira",
        7,
        739_000,
        4,
        True,
    )


def test_likings_add_up_and_can_be_taken_back() -> None:
    rows = [mira(), event("profile", {"likes": {"sum": "make-ten", "product": "doubles"}})]
    assert only(*rows).likes == {"sum": "make-ten", "product": "doubles"}
    rows.append(event("profile", {"likes": {"sum": "rounding"}}))
    assert only(*rows).likes == {"sum": "rounding", "product": "doubles"}
    rows.append(event("profile", {"likes": {"sum": "", "product": ""}}))
    assert only(*rows).likes == {}


def test_age_grows_by_itself() -> None:
    child = only(mira())
    assert [family.age_on(child, 739_000 + days) for days in (0, 364, 365, 729, 730)] == [7, 7, 8, 8, 9]
    assert family.age_on(child, 738_000) == 7


def test_sets_keep_their_place_and_can_be_dropped_and_given_again() -> None:
    first, second = {"set": "a", "aim": "", "text": ""}, {"set": "b", "aim": "accuracy", "text": "x"}
    child = only(mira(), event("set_add", first), event("set_add", second), event("set_add", {"set": "a"}))
    assert [(one.set_id, one.aim, one.text) for one in child.sets] == [("a", "", ""), ("b", "accuracy", "x")]
    dropped = only(mira(), event("set_add", first), event("set_drop", {"set": "a"}))
    assert dropped.sets == ()


def test_taught_adds_up_and_timing_is_by_skill() -> None:
    rows = [
        mira(),
        event("taught", {"skills": ["x"]}),
        event("taught", {"skills": ["x", "y"], "timed": True}),
        event("taught", {"skills": ["y"], "timed": False}),
    ]
    child = only(*rows)
    assert (child.taught, child.timed) == (("x", "y"), ("x",))


def test_what_was_undone_never_was() -> None:
    given_set = event("set_add", {"set": "a"})
    undo = event("undo", {"device": given_set.device, "seq": given_set.seq})
    assert only(mira(), given_set, undo).sets == ()
    assert only(mira(), undo, given_set).sets == ()  # wherever it sorts


def test_a_child_without_a_profile_is_nobody() -> None:
    assert family.children([event("taught", {"skills": ["x"]})]) == ()


def test_the_last_day_is_of_any_event() -> None:
    assert only(mira(), event("away", {"from": 1, "to": 2}, day=739_050)).last_day == 739_050


ITEMS = st.builds(
    PlanItem,
    st.sampled_from(["product:6x7", "sum:2+3"]),
    st.sampled_from(["due", "new", "slip", "meet", "sure"]),
    st.integers(0, 600_000).map(lambda ms: ms / 1000),
    st.none() | st.integers(0, 1_000_000).map(lambda part: part / 1_000_000),
)
PLANS = st.builds(
    Plan,
    st.just(739_000),
    st.integers(60, 1800).map(lambda seconds: seconds / 60),
    st.lists(ITEMS, max_size=5).map(tuple),
    st.lists(ITEMS, max_size=2).map(tuple),
    st.integers(0, 10),
    st.integers(0, 50),
    st.booleans(),
    st.lists(st.just("product:6x7"), max_size=1).map(tuple),
)


@given(PLANS)
def test_a_plan_comes_back_from_the_log_as_it_was(plan: Plan) -> None:
    """Through JSON as the log keeps it: whole numbers only."""
    body = json.loads(json.dumps(family.sitting_body(plan)))
    assert "." not in json.dumps(body["items"]).replace("product:6x7", "")
    assert family.sitting_plan_of(plan.day, body) == plan


TODAY = Plan(
    739_000,
    5.0,
    (PlanItem("product:6x7", "due", 2.1, 0.976005), PlanItem("compare:2/ones", "new", 25.5, None)),
    (PlanItem("sum:n+0", "sure", 4.2, 0.969053),),
    pace=2,
    timed=("product:6x7", "sum:n+0"),
)


def test_a_plan_is_written_in_lines_a_person_can_read() -> None:
    assert family.sitting_body(TODAY) == {
        "seconds": 300,
        "items": ["product:6x7 due 2100 976005 timed", "compare:2/ones new 25500"],
        "reserve": ["sum:n+0 sure 4200 969053 timed"],
        "pace": 2,
    }


def test_cards_timed_in_another_order_than_the_plans_keep_it() -> None:
    other = TODAY._replace(timed=("sum:n+0", "product:6x7"))
    assert family.sitting_body(other)["timed"] == ["sum:n+0", "product:6x7"]
    assert family.sitting_plan_of(other.day, family.sitting_body(other)) == other


WRITTEN_BEFORE = {
    "alone": False,
    "copy_ms": [],
    "items": [["product:6x7", "due", 2100, 976005], ["compare:2/ones", "new", 25500, -1]],
    "pace": 2,
    "reserve": [["sum:n+0", "sure", 4200, 969053]],
    "seconds": 300,
    "slow_ms": 0,
    "timed": ["product:6x7", "sum:n+0"],
    "too_much": False,
    "waiting": 0,
}
"""As the first two versions of the schema had it."""


def test_a_plan_in_lists_is_read_for_ever() -> None:
    assert family.sitting_plan_of(TODAY.day, WRITTEN_BEFORE) == TODAY
    promised = [("product:6x7", 0.976005), ("sum:n+0", 0.969053)]
    assert list(family.promised(WRITTEN_BEFORE)) == promised
    assert list(family.promised(family.sitting_body(TODAY))) == promised


@pytest.mark.parametrize("body", [WRITTEN_BEFORE, family.sitting_body(TODAY)])
def test_a_log_from_elsewhere_may_have_either(body: dict[str, object]) -> None:
    assert bodies.amiss(event("sitting", body)) == ""


@pytest.mark.parametrize(
    "line",
    [
        "product:6x7 due",
        "product:6x7 due 2.1",
        "product:6x7 due 9999999999",
        "product:6x7 due 2100 1000001",
        "product:6x7 due -1 976005",
        "product:6x7 perhaps 2100",
        "product:6x7 due 2100 976005 1",
        "product:6x7 due 2100 976005 timed ",
        " due 2100",
        "product:6x7 due 2100\n",
    ],
)
def test_a_line_no_reader_could_use_is_none(line: str) -> None:
    assert bodies.amiss(event("sitting", {"seconds": 300, "items": [line]})) == "items"


def test_the_familys_words_are_every_childs() -> None:
    """Also of one who came from another copy; what a later version may know is left alone."""
    told = event("profile", {"words": {"carry": "regroup", "decimals": "comma"}})
    rows = [mira(), event("profile", {"name": "Nuri", "age": 9}, "c2"), told]
    first, second = family.children(rows)
    assert first.words == second.words == {"carry": "regroup", "decimals": "comma"}
    assert family.words_of(second) == Words("regroup", decimals="comma")
    later = event("profile", {"words": {"carry": "bundle", "colour": "red", "times": "dot"}})
    assert family.words_of(family.children([*rows, later])[0]) == Words("any", decimals="comma", times="dot")
    assert family.words_of_all([]) == Words()
    assert "words" not in family.profile_body(Child("c1", "Mira", 7, 739_000))
    assert family.profile_body(second)["words"] == first.words


def test_the_family_reads_the_years_that_were_chosen_last() -> None:
    rows = [mira(), event("profile", {"name": "Nuri", "age": 9}, "c2"), event("profile", {"years": "us"})]
    assert family.years(family.children(rows)) == "us"
    assert family.years(family.children([*rows, event("profile", {"years": "ages"})])) == "ages"
    assert family.years(family.children(rows[:2])) == ""
    assert "years" not in family.profile_body(Child("c1", "Mira", 7, 739_000))
    assert family.profile_body(Child("c1", "Mira", 7, 739_000, years="us"))["years"] == "us"
