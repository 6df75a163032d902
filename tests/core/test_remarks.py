"""What is no mistake in a set, and hardly meant."""

import pytest

from review import catalogue
from review.core.model import Skill, SkillSet
from review.core.remarks import remarks

HEAD = '[set]\nid = "ours"\ntitle = "Ours"\nabout = "Of ours."\naim = "accuracy"\nages = [6, 9]\n'


def with_pairs(*pairs: tuple[str, str]) -> SkillSet:
    return SkillSet("ours", "Ours", "", "accuracy", (6, 9), (), (skill("pairs", pairs=pairs),))


def skill(kind: str, *strategies: str, **options: object) -> Skill:
    return Skill("s", "S", kind, "accuracy", options, strategies=strategies)


def texts(found: SkillSet) -> list[str]:
    return [one.text for one in remarks(found)]


def test_nothing_is_said_of_the_sets_that_come_with_the_program() -> None:
    assert [one for found in catalogue.whole() for one in remarks(found)] == []


@pytest.mark.parametrize(
    ("answer", "point"),
    [("2,5", "2.5"), ("-0,25", "-0.25"), ("12,50", "12.50"), ("1,2345", "1.2345"), ("1234,567", "1234.567")],
)
def test_a_number_with_a_comma_is_a_text(answer: str, point: str) -> None:
    (told,) = texts(with_pairs(("Half of 5:", answer)))
    assert told == f"Half of 5: “{answer}” is a text. If a number is meant, write {point}."


@pytest.mark.parametrize("answer", ["1,000", "12,345", "1,234,567", "25", "2.5", "two, five", "1, 2"])
def test_other_commas_are_meant(answer: str) -> None:
    assert texts(with_pairs(("How many?", answer))) == []


def test_a_heading_is_a_card_too() -> None:
    assert texts(with_pairs(("Question", "answer"), ("toes", "10"))) == [
        "“Question” and “answer” is a card too. If it is a heading, take it out."
    ]
    assert texts(with_pairs(("toes", "10"), ("question", "answer"))) == []
    assert texts(with_pairs(("word", "wort"))) == []


def test_a_way_of_another_kind_changes_nothing() -> None:
    skills = skill("mental-sum", "make-ten", "bridging"), skill("roman", "bridging")
    told = texts(with_pairs()._replace(skills=skills))
    assert len(told) == 2
    assert told[0].startswith("“make-ten” changes nothing: help of mental-sum has ")
    assert "bridging" in told[0]
    assert told[1] == "“bridging” changes nothing: help of roman follows no way by name."


def test_the_set_is_taken_all_the_same() -> None:
    pairs = '[[skill]]\nid = "s"\ntitle = "S"\nkind = "pairs"\npairs = [["question", "answer"]]\n'
    assert len(remarks(catalogue.checked(HEAD + pairs, "ours.toml"))) == 1
