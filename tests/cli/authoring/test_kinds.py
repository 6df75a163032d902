"""What a skill of a set of one's own can ask: every kind told, each with an example that can be copied."""

import json
from typing import Any

import pytest

from review import catalogue
from review.core import kind_guide
from review.core.set_tables import SKILL_KEYS
from review.core.skills import KINDS, ROOMS
from review.core.skills.kinds import Option
from review.render import kind_lines
from tests.cli.authoring.pieces import HEAD
from tests.cli.conftest import Review

EVERY_KIND = pytest.mark.parametrize("kind", ROOMS)
NARROW = 80 - 2 - 2  # columns of a copied line, which stands two from the edge, with room for an indent


@EVERY_KIND
def test_the_example_of_a_kind_can_be_copied_into_a_set(kind: str) -> None:
    found = catalogue.guide(kind)
    lines = kind_guide.written(found.skill)
    assert max(map(len, lines)) <= NARROW
    assert found.skill.kind == kind
    (skill,) = catalogue.checked(HEAD + "\n".join(lines), "ours.toml").skills
    assert (skill.title, skill.options) == (found.skill.title, found.skill.options)
    assert skill.id not in catalogue.skill_ids()


@EVERY_KIND
def test_every_key_of_a_kind_is_told(kind: str, review: Review) -> None:
    done = review("set", "kinds", kind)
    assert done.code == 0
    text = " ".join(done.out.split())
    assert KINDS[kind].about in text
    for key, option in KINDS[kind].options.items():
        assert f" {key}: {' '.join(kind_lines.meaning(option).split())}" in text
        assert all(choice in text for choice in option.choices)
    assert set(catalogue.guide(kind).sets) <= set(catalogue.names())


@pytest.mark.parametrize(("money", "code"), [("pounds", "GBP"), ("euros", "EUR"), ("dollars", "USD")])
def test_the_example_has_the_money_that_the_family_pays_in(family: Review, money: str, code: str) -> None:
    assert family("set", "money", money, "--on", "2026-01-06").code == 0
    told = family("set", "kinds", "money").out
    assert f'currency = "{code}"' in told
    assert f"review set show coins-{money}" in told
    assert as_json(family, "set", "kinds", "money")["sets"][0] == f"coins-{money}"


def test_all_kinds_in_one_list(review: Review) -> None:
    done = review("set", "kinds", "--plain")
    told = " ".join(done.out.split())
    assert all(f"{name}: {kind.about}" in told for name, kind in KINDS.items())
    assert "review set kinds fraction" in done.out


def test_ways_are_told_where_help_can_follow_one(review: Review) -> None:
    assert 'like ["doubles"]. Some of: doubles: doubles one knows' in " ".join(
        review("set", "kinds", "product").out.split()
    )
    assert "strategies" not in review("set", "kinds", "roman").out


@pytest.mark.parametrize(
    ("option", "told"),
    [
        (
            Option("whole", "how many", 3, 3, 5, example="4"),
            "how many. A whole number, 3 to 5, like 4; 3 if left out.",
        ),
        (
            Option("range", "from where", None, 0, 999999, example="[1, 9]"),
            "from where. A list of two whole numbers, from and to, 0 to 999,999, like [1, 9].",
        ),
        (
            Option("yes-no", "also zero", False, example="true"),
            "also zero. True or false, like true; false if left out.",
        ),
        (
            Option("word", "which", "a", choices=("a", "b"), example='"b"'),
            'which. One of a, b, like "b"; "a" if left out.',
        ),
        (
            Option("words", "which", (), choices=("a", "b"), example='["b"]'),
            'which. Some of a, b, like ["b"].',
        ),
    ],
)
def test_what_a_key_means(option: Option, told: str) -> None:
    assert kind_lines.meaning(option) == told


def test_what_any_skill_may_have_is_what_the_tables_take() -> None:
    """But for its name, title and kind, which it needs, and its ways, which are told with the kind."""
    needed = {key for key, option in SKILL_KEYS.items() if option.default is None}
    assert {*kind_guide.COMMON, *needed, "strategies"} == SKILL_KEYS.keys()


def test_a_kind_as_json(review: Review) -> None:
    """The keys are a promise."""
    (first, *_), one = as_json(review, "set", "kinds"), as_json(review, "set", "kinds", "money")
    key = ["key", "about", "type", "needed", "default", "choices", "range", "example"]
    assert [*first] == ["kind", "about", "keys"]
    assert [*one] == ["kind", "about", "keys", "any_kind", "strategies", "example", "sets"]
    assert all([*row] == key for row in (*first["keys"], *one["keys"], *one["any_kind"]))
    assert [row["key"] for row in one["keys"] if row["needed"]] == ["ask", "currency", "range"]
    assert one["example"].startswith("[[skill]]\n")
    assert [row["kind"] for row in as_json(review, "set", "kinds")] == [*ROOMS]


def as_json(review: Review, *words: str) -> Any:
    return json.loads(review(*words, "--json").out)


@pytest.mark.parametrize(
    ("typed", "instead"),
    [
        ("fractoin", "no kind called “fractoin”. Did you mean fraction or duration? `review set kinds`"),
        ("mental", "“mental” could be mental-sum, mental-difference, mental-product or mental-quotient."),
        ("times tables", "no kind called “times tables”. Did you mean product? `review set kinds`"),
        ("zzz", "There is no kind called “zzz”. `review set kinds` shows them all."),
        ("", "There is no kind called “”. `review set kinds` shows them all."),
    ],
)
def test_a_kind_there_is_not(typed: str, instead: str, review: Review) -> None:
    done = review("set", "kinds", typed)
    assert (done.code, done.out) == (1, "")
    assert instead in done.err


def test_a_kind_by_its_beginning_and_in_capitals(review: Review) -> None:
    assert review("set", "kinds", "FRAC").out == review("set", "kinds", "fraction").out


def test_no_line_is_wider_than_a_narrow_terminal(review: Review, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    for kind in ("", "number-property", "money"):
        told = review("set", "kinds", *filter(None, [kind])).out.splitlines()
        assert all(len(line) <= 40 or " " not in line.strip() for line in told)
