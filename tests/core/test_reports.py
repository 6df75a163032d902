"""From memory to what a parent does: on cards of the catalogue, with memories made by hand."""

from review.core import card_sets, days, reports, skills
from review.core.model import CardMemory, Child, Decision, Pupil, Settings
from tests.conftest import TOP

DAY = 739_900


def decision(found: Pupil) -> Decision:
    return reports.report(found).decision


def pupil(*set_ids: str, memory: dict[str, CardMemory] | None = None, taught: bool = True) -> Pupil:
    texts = [(TOP / "card_sets" / f"{name}.toml").read_text(encoding="utf-8") for name in set_ids]
    sets = [found for text in texts if (found := card_sets.read_set(text, "x.toml")[0])]
    skills = {skill.id: skill for found in sets for skill in found.skills}
    known = tuple(skills) if taught else ()
    child = Child("c1", "Mira", 8, DAY, taught=known)
    settings = Settings(8, taught=frozenset(known))
    return Pupil(child, DAY, card_sets.cards(sets), skills, memory or {}, settings)


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
    (line,) = decision(pupil("times-2-5-10", memory=memory)).table
    assert "rows of counters" in line.lower()
    assert line.count("×") == reports.AT_THE_TABLE


def test_a_skill_missed_on_three_days_is_taught_again() -> None:
    memory = {"product:2x7": learned("product:2x7", 1, miss_days=3)}
    found = pupil("times-2-5-10", memory=memory)
    assert list(reports.stuck_skills(reports.standings(found))) == [
        next(c.skill for c in found.cards if c.key == "product:2x7")
    ]
    assert "2 × 7" in decision(found).teach[0]


def test_what_is_ready_to_teach_stands_on_what_was_taught() -> None:
    found = pupil("place-value-to-99", taught=False)
    ready = reports.ready_to_teach(found)
    assert ready
    assert all(not set(skill.after) & set(found.skills) for skill in ready)
    assert f"review taught {ready[0].id}" in decision(found).teach[-1]


def test_after_a_break_it_is_a_number_of_short_warmups() -> None:
    keys = [card.key for card in pupil("times-2-5-10").cards if "n" not in card.key.partition(":")[2]]
    memory = {key: learned(key, 50, passed_ms=6000, passed_n=3) for key in keys}
    found = pupil("times-2-5-10", memory=memory)
    seconds = 6 * len(keys)  # six seconds each, in five minutes a day
    assert f"{max(1, -(-seconds // 300))} warm-up" in decision(found).rest[0]
    assert "debt" not in str(decision(found))


def test_nothing_faded_says_so() -> None:
    found = decision(pupil("times-2-5-10"))
    assert found.table == ()
    assert found.rest == ("Nothing is waiting. The daily warm-up keeps what is known.",)


def test_every_kind_has_something_to_do_at_the_table() -> None:
    assert set(reports.TABLE_WORK) >= set(skills.ROOMS)
