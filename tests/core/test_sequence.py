"""Before, after, between: every showing, exact counts, uniform draws."""

from functools import partial
from random import Random

import pytest

from review.core.skills.sequence import KINDS, TASKS
from tests.core.shown import assert_sound, assert_uniform, refuses
from tests.core.spaces import skill_of

(SEQUENCE,) = KINDS
skill = partial(skill_of, SEQUENCE)


def showing(task: str, start: int) -> str:
    return {"after": f"{start},_", "before": f"_,{start + 1}", "between": f"{start},_,{start + 2}"}[task]


def members(key: str, top: int = 130) -> list[str]:
    every = [showing(task, start) for task in TASKS for start in range(top)]
    return refuses(SEQUENCE, key, every)


@pytest.mark.parametrize(
    ("key", "count"),
    [
        ("after/1..20", 19),
        ("before/1..20", 19),
        ("between/1..20", 18),
        ("after/20..100/across", 8),  # 29, 39, ... 99
        ("before/20..100/across", 8),
        ("between/20..100/across", 8 + 7),  # 28 and 30 to 98 and 100; 29 and 31 to 89 and 91
        ("after/20..100/within", 80 - 8),
        ("between/100..120", 19),
    ],
)
def test_a_class_has_as_many_members_as_can_be_counted(key: str, count: int) -> None:
    assert len(members(f"sequence:{key}")) == count


KEYS = [
    f"sequence:{task}/{span}{step}"
    for task in TASKS
    for span in ("0..20", "20..100", "95..120")
    for step in ("", "/within", "/across")
]


@pytest.mark.parametrize("key", KEYS)
def test_every_showing_is_sound_and_one_away(key: str) -> None:
    for asked in members(key):
        problem = SEQUENCE.problem(key, asked)
        assert_sound(problem)
        row = [int(problem.expected if text == "_" else text) for text in asked.split(",")]
        assert row == list(range(row[0], row[0] + len(row)))  # as Python counts
        low, high = (int(end) for end in key.split("/")[1].split(".."))
        assert low <= row[0] <= row[-1] <= high
        passes = len({number // 10 for number in row}) == 2
        assert key.rpartition("/")[2] not in ("within", "across") or passes == key.endswith("across")


@pytest.mark.parametrize("key", KEYS[::4])
def test_every_member_is_equally_likely(key: str) -> None:
    assert_uniform(SEQUENCE, key, members(key))


def test_before_after_and_between_are_said_in_words() -> None:
    problem = SEQUENCE.problem("sequence:between/0..100", "47,_,49")
    assert (problem.prompt, problem.expected) == ("Between 47 and 49 comes", "48")
    assert problem.say == "What comes between forty-seven and forty-nine?"
    assert SEQUENCE.problem("sequence:before/0..120", "_,110").told == "Before 110 comes 109."
    assert SEQUENCE.problem("sequence:after/900..1000", "999,_").told == "After 999 comes 1,000."


def test_strangers_are_refused() -> None:
    strangers = ["20,_", "0,_", "_,7", "7,_,9", "07,_", "7,8"]
    assert refuses(SEQUENCE, "sequence:after/1..20", strangers) == []
    with pytest.raises(ValueError, match="no number"):
        SEQUENCE.draw("sequence:after/1..5/across", Random(1))


def test_keys_and_conditions() -> None:
    both = skill(ranges=((1, 20), (20, 100)), task=("after", "before"), steps=("within", "across"))
    keys = list(SEQUENCE.keys(both))
    assert keys[:3] == [
        "sequence:after/1..20/within",
        "sequence:before/1..20/within",
        "sequence:after/1..20/across",
    ]
    assert len(keys) == 8
    assert list(SEQUENCE.check(both)) == []
    (told,) = SEQUENCE.check(skill(ranges=((1, 8),), task=("after",), steps=("across",)))
    assert told == ("ranges", "1 to 8 has no number after another, past a ten", "write [1, 21]")
    titles = [SEQUENCE.traits(key).title for key in KEYS]
    assert len(set(titles)) == len(titles)
