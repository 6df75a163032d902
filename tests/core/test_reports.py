"""From memory to what a parent does: on cards of the catalogue, with memories made by hand."""

from random import Random

import pytest

from review.core import card_sets, days, looks, plan, reports, skills, teaching
from review.core.model import CardMemory, Child, Pupil, Settings
from review.core.reports import Decision
from review.core.stuck import stuck
from tests.conftest import TOP
from tests.core.stock import UNCORRECTED

DAY = 739_900


def decision(found: Pupil) -> Decision:
    return reports.report(found).decision


def pupil(*set_ids: str, memory: dict[str, CardMemory] | None = None, taught: bool = True) -> Pupil:
    texts = [(TOP / "card_sets" / f"{name}.toml").read_text(encoding="utf-8") for name in set_ids]
    sets = [found for text in texts if (found := card_sets.read_set(text, "x.toml")[0])]
    skills = {skill.id: skill for found in sets for skill in found.skills}
    known = tuple(skills) if taught else ()
    child = Child("c1", "Mira", 8, DAY, taught=known)
    settings = Settings(8, taught=frozenset(known), habits=UNCORRECTED)
    return Pupil(child, DAY, card_sets.cards(sets), skills, memory or {}, settings)


KEY = "product:2x7"


def learned(key: str, ago: int, stability: float = 5.0, **more: object) -> CardMemory:
    """A card recalled a number of days ago."""
    last = DAY - ago
    base = CardMemory(key, stability, 5.0, last, last - 20, last, tries=3, right=3, right_days=3, gap=5)
    return base._replace(last_mark="right", **more)  # type: ignore[arg-type]


def test_overdue_and_fading_are_lowest_recall_first() -> None:
    keys = ["product:2x7", "product:5x7", "product:2x9"]
    memory = {key: learned(key, ago) for key, ago in zip(keys, (30, 7, 60), strict=True)}
    found = pupil("times-2-5-10", memory=memory)
    assert [row.card for row in reports.report(found).overdue] == ["product:2x9", "product:2x7"]
    late = reports.report(found).overdue[0]
    assert late.prompt == "2 × 9"
    assert 0 < late.recall < 0.9
    assert late.days_overdue > 20
    assert days.date_of(late.last_day) == days.date_of(DAY - 60)


def test_the_decision_names_at_most_five_facts_and_what_to_do_them_with() -> None:
    keys = [f"product:2x{n}" for n in range(3, 10)]
    memory = {key: learned(key, 40) for key in keys}
    (one,) = decision(pupil("times-2-5-10", memory=memory)).table
    assert one.reason == "faded"
    assert "rows of counters" in one.work.lower()
    assert len(one.what) == 5  # our judgement


def test_facts_are_practised_at_the_table_and_procedures_where_no_fact_has_faded() -> None:
    tables, places = (pupil(name).cards for name in ("times-2-5-10", "place-value-to-99"))
    faded = {card.key: learned(card.key, 60) for card in (*tables, *places)}
    (both,) = decision(pupil("times-2-5-10", "place-value-to-99", memory=faded)).table
    assert len(both.what) == 5
    assert all("×" in what for what in both.what)
    known = faded | {card.key: learned(card.key, 1, 60.0) for card in tables}
    table = decision(pupil("times-2-5-10", "place-value-to-99", memory=known)).table
    assert table
    assert not any("×" in what for one in table for what in one.what)


def test_a_skill_missed_on_three_days_is_taught_again() -> None:
    memory = {"product:2x7": learned("product:2x7", 60, miss_days=3, tries=6)}
    first = decision(pupil("times-2-5-10", memory=memory)).table[0]
    assert (first.reason, first.what) == ("stuck", ("The table of 2 (2 × 7)",))
    assert len(decision(pupil("times-2-5-10", memory=memory)).table) == 1  # not once more as faded


def test_the_list_has_each_reason_and_stays_short() -> None:
    cards = pupil("times-2-5-10", "place-value-to-99").cards
    memory = {
        card.key: learned(
            card.key, 60, **({} if card.skill == "table-of-2" else {"miss_days": 3, "tries": 9})
        )
        for card in cards
    }
    four = [card.key for card in pupil("times-3-4-8").cards if card.skill == "table-of-4"]
    memory |= {key: learned(key, 1, 60.0) for key in four}  # table-of-8 stands on it
    found = pupil("times-2-5-10", "place-value-to-99", "times-3-4-8", memory=memory)
    some = found._replace(child=found.child._replace(taught=tuple(set(found.skills) - {"table-of-8"})))
    told = decision(some)
    assert {one.reason for one in told.table} == {"stuck", "faded", "ready"}
    assert sum(len(one.what) for one in told.table if one.reason == "stuck") == reports.NAMED
    assert told.stuck_more > 0


def test_what_stands_on_something_unknown_is_not_ready() -> None:
    found = pupil("times-3-4-8")
    some = found._replace(child=found.child._replace(taught=tuple(set(found.skills) - {"table-of-8"})))
    every = looks.looks(some)
    assert [one.skill.id for one in teaching.lessons(some, every, stuck(some, every))] == ["table-of-8"]
    assert decision(some).table == ()


def test_where_to_begin_is_not_one_of_those_that_begin_further_back() -> None:
    cards = pupil("mental-sums-to-99").cards
    stuck = ("two-digits-plus-ones-through-ten", "sums-with-a-number-near-a-ten")
    memory = {
        card.key: learned(card.key, 9, 2.0, aside_day=DAY - 9)
        if card.skill in stuck
        else learned(card.key, 1, 60.0)
        for card in cards
    }
    (one,) = decision(pupil("mental-sums-to-99", memory=memory)).table
    assert len(one.what) == 2
    assert one.begin[0] == "Two digits plus one digit, like 42 + 5"
    assert "Through the next ten, like 47 + 5" in one.what
    assert "Through the next ten, like 47 + 5" not in one.begin


def test_one_among_several_that_stands_on_nothing_earlier_is_where_to_begin() -> None:
    """Two digits in columns did not stick, and neither did three: “begin with three digits without an
    exchange” stood there alone."""
    cards = pupil("column-differences-to-999").cards
    stuck = ("column-differences-of-two-digits", "column-differences-with-one-exchange")
    memory = {
        card.key: learned(card.key, 9, 2.0, aside_day=DAY - 9)
        if card.skill in stuck
        else learned(card.key, 1, 60.0)
        for card in cards
    }
    (one,) = decision(pupil("column-differences-to-999", memory=memory)).table
    assert one.begin == (
        "Two digits in columns, like 52 − 29",
        "Three digits without an exchange, like 678 − 352",
    )
    first = {key: known for key, known in memory.items() if key.startswith("column-difference:2-2")}
    (alone,) = decision(pupil("column-differences-to-999", memory=first)).table
    assert alone.begin == (), "the objects alone"


def test_catching_up_counts_partner_facts_too() -> None:
    """A product and its division have one turn a day, so that both are two warm-ups."""
    keys = ["product:2x7", "quotient:14/7", "product:5x7", "quotient:35/7"]
    memory = {key: learned(key, 50, passed_ms=2000, passed_n=3) for key in keys}
    told = decision(pupil("times-2-5-10", "division-2-5-10", memory=memory)).rest[0]
    assert "about 2 short warm-ups to catch up" in told


def test_what_is_overdue_and_comes_another_day_is_not_told_as_nothing() -> None:
    """Of 35 ÷ 7 and its product one has a turn a day: in the evening the other waited, and it was told that
    nothing did."""
    late, todays = learned("product:5x7", 6, 1.0, gap=1), learned("quotient:35/7", 0, 60.0, seen_day=DAY)
    memory = {one.card: one for one in (late, todays)}
    told = decision(pupil("times-2-5-10", "division-2-5-10", memory=memory))
    assert told.table[0].what == ("5 × 7",)
    assert told.rest == (reports.LATER,)


def test_what_only_paper_has_time_for_is_told_as_that() -> None:
    found = pupil("column-products-by-two-digits")
    long = next(card.key for card in found.cards if skills.traits(card.key).seconds > 60)
    short = next(card.key for card in found.cards if skills.traits(card.key).seconds <= 60)
    late = {key: learned(key, 6, 1.0, gap=1) for key in (long, short)}
    told = decision(found._replace(memory={long: late[long]}))
    assert (told.rest, told.on_paper) == ((), 1)
    told = decision(found._replace(memory=late))
    assert told.on_paper == 1
    assert told.rest[0].endswith("1 short warm-up to catch up.")


def test_what_is_ready_to_teach_stands_on_what_was_taught() -> None:
    found = pupil("place-value-to-99", taught=False)
    ready = teaching.next_to_teach(found)
    assert ready
    assert all(not set(skill.after) & set(found.skills) for skill in ready)
    assert decision(found).table[-1].work == f"review taught {ready[0].id}"


def test_one_skill_a_week_is_named_to_teach() -> None:
    found = pupil("times-2-5-10", taught=False)
    assert len(teaching.next_to_teach(found)) > 1
    assert [one.reason for one in decision(found).table] == ["ready"]


def test_after_a_break_it_is_a_number_of_short_warmups() -> None:
    keys = [card.key for card in pupil("times-2-5-10").cards if "n" not in card.key.partition(":")[2]]
    memory = {key: learned(key, 50, passed_ms=6000, passed_n=3) for key in keys}
    found = pupil("times-2-5-10", memory=memory)
    seconds = 6 * len(keys)  # six seconds each, in five minutes a day
    assert f"{max(1, -(-seconds // 300))} short warm-up" in decision(found).rest[0]
    assert "two practised days" in decision(found).rest[1]
    assert "debt" not in str(decision(found))


def test_after_a_pause_it_is_told_from_when_all_is_reckoned() -> None:
    def rest(ago: int) -> str:
        return " ".join(decision(pupil("times-2-5-10", memory={KEY: learned(KEY, ago)})).rest)

    assert f"Last practised on {days.words(DAY - 42)}" in rest(42)
    assert f"Last practised on {days.words(DAY - 7)}" in rest(7)
    assert "Last practised" not in rest(6)


def test_who_has_never_practised_is_not_told_that_something_is_known() -> None:
    assert decision(pupil("times-2-5-10")).rest == ("The first warm-up shows what is known already.",)


def test_nothing_faded_says_so() -> None:
    found = decision(pupil("times-2-5-10", memory={KEY: learned(KEY, 1)}))
    assert found.table == ()
    assert found.rest == ("Nothing is waiting. The daily warm-up keeps what is known.",)


def test_every_kind_has_something_to_do_at_the_table() -> None:
    assert set(reports.TABLE_WORK) >= set(skills.ROOMS)


def test_what_a_report_tells_of_the_plan_is_of_the_plan() -> None:
    keys = [card.key for card in pupil("times-2-5-10", "doubles-halves-20").cards][::2]
    memory = {key: learned(key, n % 40, 1.0 + n) for n, key in enumerate(keys)}
    found = pupil("times-2-5-10", "doubles-halves-20", memory=memory)
    plain = plan.for_pupil(found, 5, Random(3))
    told = plan.choice(found, looks.looks(found), 5, Random(3))
    assert sorted(told.chosen) == sorted(plain.items)
    assert (told.too_much, told.alone) == (plain.too_much, plain.alone)
    assert {item.why for item in plain.items} >= {"due", "new"}


def test_no_report_says_that_new_cards_wait_on_a_day_on_which_one_comes() -> None:
    """Much is in play, and so little of it is asked today that one new card comes beside it."""
    keys = [card.key for card in pupil("times-2-5-10").cards][:12]
    found = pupil("times-2-5-10", memory={key: learned(key, 6, 2.0) for key in keys})
    todays = plan.choice(found, looks.looks(found), 5, Random(0))
    assert todays.too_much
    assert [item.why for item in todays.chosen].count("new") == 1
    assert decision(found).rest[-1] == (
        "Too much is in play: one new card a day at most, until more of it holds."
    )


def test_traits_written_down_beforehand_are_used() -> None:
    found = pupil("times-2-5-10", memory={"product:2x7": learned("product:2x7", 30)})
    its = skills.traits("product:2x7")._replace(title="two sevens")
    (late,) = reports.report(found._replace(traits={"product:2x7": its})).overdue
    assert late.prompt == "two sevens"


@pytest.mark.parametrize(
    ("card", "work"),
    [
        ("convert:m>km/1000..20000", "Walk a way whose length you know"),
        ("convert:km+m>m/1..9/100", "Walk a way whose length you know"),
        ("convert:t>kg/1..20", "Find out what a few heavy things weigh"),
        ("convert:us-ton>lb/1..9", "Find out what a few heavy things weigh"),
        ("convert:wk>d/1..12", "Count one stretch of a calendar"),
        ("convert:h+min>min/1..5/5", "Say how long something of your day takes"),
        ("convert:m>cm/1..20", "Measure one thing twice"),
        ("convert:ml>l/1000..20000", "Measure one thing twice"),
        ("convert", "Measure one thing twice"),
        ("product:6x7", reports.TABLE_WORK["product"]),
    ],
)
def test_what_no_table_holds_is_measured_otherwise(card: str, work: str) -> None:
    assert reports.table_work(card).startswith(work)
