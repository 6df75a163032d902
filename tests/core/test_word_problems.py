"""One-step stories: every story of every kind, with every pair of numbers the ends of its class have."""

import re
from functools import partial
from math import ceil, comb
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import FORMS, asks_for, judge
from review.core.model import Problem
from review.core.skills.stories import STORIES
from review.core.skills.word_problems import KINDS, SORTS, members
from tests.core.shown import COLUMNS, NEVER, SOURCES, assert_sound, assert_uniform, refuses, seen
from tests.core.spaces import skill_of
from tests.tables import rows

(STORY,) = KINDS
SUMS = [name for name, sort in SORTS.items() if sort.sign in ("+", "−")]
SCENES = ("farm", "lighthouse", "kitchen")
KEYS = [
    *(f"word-problem:{name}/{limit}" for name in SUMS for limit in (20, 100)),
    *(
        f"word-problem:{name}/{tables}"
        for name in SORTS
        if name not in SUMS
        for tables in ("2-5-10", "6-7-9")
    ),
]


def every(key: str) -> list[str]:
    return [f"{scene},{a},{b}" for scene in SCENES for a, b in members(key)]


skill = partial(skill_of, STORY)


# --- numbers ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("limit", "least"), [(20, 2), (100, 11)])
@pytest.mark.parametrize("name", SUMS)
def test_a_class_has_as_many_pairs_as_its_closed_form_says(name: str, limit: int, least: int) -> None:
    """Two parts of at least `least` within the limit: a triangle of C(limit - 2 least + 2, 2)."""
    assert len(members(f"word-problem:{name}/{limit}")) == comb(limit - 2 * least + 2, 2)


def test_groups_and_rests_are_counted() -> None:
    """Nine times so many tables; a rest from 1 to one less than the group."""
    for name in ("groups", "share", "measure"):
        assert len(members(f"word-problem:{name}/2-5-10")) == 27
    for name in ("rest-over", "rest-full", "rest-needed"):
        assert len(members(f"word-problem:{name}/2-5-10")) == 9 * (1 + 4 + 9)


@pytest.mark.parametrize(
    "key", ["word-problem:join-start/20", "word-problem:groups/2-5", "word-problem:rest-over/3-4"]
)
def test_every_story_with_every_pair_is_equally_likely(key: str) -> None:
    assert_uniform(STORY, key, every(key))
    strangers = ["farm,1,5", "farm,3", "barn,3,5", "farm,3,5,7", "farm,03,5", "farm,-3,5", "farm,30,50"]
    assert refuses(STORY, key, strangers) == []


# --- an oracle: objects are laid and counted, as the story says ---------------------------------------


def acted(name: str, a: int, b: int) -> int:
    """What one has after acting it out, by lists of counters and no arithmetic but counting."""
    some, others = [*range(a)], [*range(b)]
    if name in ("join-result", "combine-total", "take-start", "compare-more"):
        return len(some + others)
    if name in ("take-result", "take-change", "combine-part", "compare-difference", "compare-fewer"):
        return len(some[len(others) :])
    if name in ("join-change", "join-start"):
        return len(others[len(some) :])
    if name == "groups":
        return len([thing for _ in some for thing in others])
    packed = [some[start : start + b] for start in range(0, a, b)]
    if name == "share":
        return len([*range(a)][::b])
    full = [group for group in packed if len(group) == b]
    return {"measure": len(packed), "rest-full": len(full), "rest-needed": len(packed),
            "rest-over": len(packed[-1]) if len(packed) > len(full) else 0}[name]  # fmt: skip


@pytest.mark.parametrize("key", KEYS)
def test_the_answer_is_what_acting_it_out_gives(key: str) -> None:
    name = key.partition(":")[2].split("/")[0]
    for a, b in members(key):
        assert int(STORY.problem(key, f"farm,{a},{b}").expected) == acted(name, a, b), (a, b)


def test_dividing_up_is_rounding_up() -> None:
    """Oracle: Python's `math.ceil` of a fraction that is exact at these sizes."""
    for a, b in members("word-problem:rest-needed/6-7-9"):
        assert int(STORY.problem("word-problem:rest-needed/6-7-9", f"farm,{a},{b}").expected) == ceil(a / b)


# --- what is shown ------------------------------------------------------------------------------------


def for_a_reader(problem: Problem) -> None:
    """Each sentence of the story under 8 words, each line within the columns, no verdict, both numbers."""
    told = " ".join([*seen(problem), problem.prompt])
    for line in seen(problem):
        assert len(line) <= COLUMNS, line
    for sentence in re.split(r"(?<=[.?]) ", told):
        assert len(sentence.split()) < 8, sentence
    assert not NEVER.search(told)
    assert re.findall(r"\d+", told) == problem.asked.split(",")[1:]
    assert problem.prompt.endswith("?")
    assert not re.search(r"[{}]", told)


@pytest.mark.parametrize("key", KEYS)
def test_every_story_is_sound(key: str) -> None:
    pairs = [members(key)[0], members(key)[-1], *Random(key).sample(members(key), 8)]
    for scene in SCENES:
        for a, b in pairs:
            one = STORY.problem(key, f"{scene},{a},{b}")
            assert_sound(one)
            for_a_reader(one)


def test_every_kind_of_story_has_each_scene_and_its_own_words() -> None:
    assert STORIES.keys() == SORTS.keys()
    assert all(tuple(scenes) == SCENES for scenes in STORIES.values())
    stories = [story for scenes in STORIES.values() for story in scenes.values()]
    assert len({story.lines for story in stories}) == len(stories)
    for story in stories:
        assert story.unit in " ".join([*story.lines, story.question]).replace("group ", "groups "), story


def test_as_a_teacher_would_tell_it() -> None:
    one = STORY.problem("word-problem:join-start/20", "farm,5,12")
    assert seen(one) == ("Some goats stand on a hill.", "5 more goats climb up.", "Now there are 12 goats.")
    assert (one.prompt, one.expected, one.unit) == ("How many goats were there at first?", "7", "goats")
    assert one.say.startswith("Some goats stand on a hill. Five more goats climb up.")
    assert [help.text for help in one.helps][-2:] == ["12 − 5 = □", "12 − 5 = 7"]
    two = STORY.problem("word-problem:rest-needed/4-5", "kitchen,23,4")
    assert (two.expected, two.told) == ("6", "23 ÷ 4 makes 5, 3 left over.\nSo 6 are needed.")


# --- answers ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("text", ["7", " 7 ", "7.", "= 7", "7 goats", "7goats", "7 goat", "７ Goats.", "+7"])
def test_what_counts(text: str) -> None:
    one = STORY.problem("word-problem:join-start/20", "farm,5,12")
    assert judge(one, text) == "right"
    assert judge(one, text.replace("7", "8").replace("７", "8")) == "other"


@pytest.mark.parametrize("text", ["", "goats", "7 hens", "7 s", "sevn", "7 8", "7 goats 8", "7,5", "?", "7g"])
def test_what_cannot_be_read_is_asked_again(text: str) -> None:
    one = STORY.problem("word-problem:join-start/20", "farm,5,12")
    assert judge(one, text) == "unreadable"
    assert asks_for(one) == "Type a number, like 42."


@given(st.text(max_size=40), st.sampled_from(["goats", "boxes", "loaves", ""]))
def test_any_text_is_survived(text: str, unit: str) -> None:
    found = FORMS["counted"].read(text, unit)
    assert found is None or isinstance(found, int)


@given(
    st.integers(0, 10**6), st.sampled_from(["{}", "{:,}", " {} ", "{}.", "{} eggs", "{:,} egg", "{}EGGS."])
)
def test_every_way_of_writing_a_number_is_that_number(number: int, way: str) -> None:
    assert FORMS["counted"].read(way.format(number), "eggs") == number


# --- what one would write -----------------------------------------------------------------------------

CASES = {  # family of the table, its example -> the story that comes down to it
    ("add_mental", "47 + 28"): (
        "join-result/100",
        "farm,47,28",
        {"ten_dropped", "one_short", "one_over", "took_away"},
    ),
    ("sub_mental", "52 - 29"): ("take-result/100", "farm,52,29", {"ten_kept", "one_short", "added"}),
    ("mul_fact", "7 x 8"): ("groups/8", "farm,7,8", {"added"}),
    ("mul_fact", "3 x 6"): ("groups/6", "farm,3,6", {"doubled_only"}),
    ("div_fact", "56 / 8"): ("share/8", "farm,56,8", {"step_short", "step_over", "took_away", "divisor"}),
    ("div_fact", "7 / 2"): ("rest-needed/2", "farm,7,2", {"remainder_dropped"}),
}


@pytest.mark.parametrize(("family", "example"), CASES)
def test_what_a_rule_would_write(family: str, example: str) -> None:
    """error_rules.csv, which names the sources: for these from memory (McIntosh, Fuson, and others)."""
    content, asked, names = CASES[(family, example)]
    found = STORY.predict(f"word-problem:{content}", asked)
    table = {row["rule"]: row for row in rows("error_rules.csv", family=family, example=example)}
    assert {name: found[name] for name in names} == {name: table[name]["predicted"] for name in names}


def test_the_rest_taken_to_the_next() -> None:
    """error_rules.csv, div_fact to_next: 42 / 9 is answered 4 r 3; from memory."""
    assert STORY.predict("word-problem:rest-over/9", "farm,42,9") == {"to_next": "3"}


@given(st.sampled_from(KEYS), SOURCES)
def test_no_rule_predicts_the_answer(key: str, random: Random) -> None:
    asked = STORY.draw(key, random)
    found = STORY.predict(key, asked)
    assert STORY.problem(key, asked).expected not in found.values()
    assert all(value.isdecimal() for value in found.values())


# --- the kind -----------------------------------------------------------------------------------------


def test_cards_and_what_cannot_be() -> None:
    one = skill(sorts=("join-result", "groups"), to=20, tables=(5, 2))
    assert [*STORY.keys(one)] == ["word-problem:join-result/20", "word-problem:groups/2-5"]
    assert [*STORY.check(one)] == []
    for options, name in (
        ({"sorts": ("join-result",)}, "to"),
        ({"sorts": ("join-result",), "to": 3}, "to"),
        ({"sorts": ("take-start",), "to": 21}, "to"),
        ({"sorts": ("groups",), "to": 20}, "tables"),
    ):
        assert [wrong for wrong, *_ in STORY.check(skill(**options))] == [name]
    assert [*STORY.check(skill(sorts=("join-result",), to=22))] == [
        *STORY.check(skill(sorts=("join-result",), to=4))
    ]
    assert members("word-problem:join-result/22") == ((11, 11),)


def test_traits_tell_stories_apart() -> None:
    groups = [STORY.traits(key).groups for key in KEYS]
    assert all("story" in group for group in groups)  # two never follow each other
    assert max(STORY.traits(key).seconds for key in KEYS) <= 30
    assert len({STORY.traits(key).title for key in KEYS}) == len(KEYS)
