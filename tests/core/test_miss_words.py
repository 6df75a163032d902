"""Every error rule that any kind can predict has its words for a parent, and no word is idle."""

import pytest

from review.core import readings
from review.core.miss_words import PLACES, TABLE, place, words
from review.core.miss_words.rows import Words
from review.core.readings import base
from tests.benchmarks.misses.classes import families

OWN = {("column-sum", "ones_to_all")}  # of sums with one digit, which only a parent's own set has


def scope(family: str, rule: str) -> tuple[str, str]:
    return (family, rule) if (family, rule) in TABLE else (family.partition("/")[0], rule)


def test_every_rule_has_words() -> None:
    for name, family in families().items():
        assert place(name)
        assert all(words(name, base(rule)).seems for rule in family.rules), name


def test_no_words_are_idle() -> None:
    needed = {scope(name, base(rule)) for name, family in families().items() for rule in family.rules}
    assert set(TABLE) - needed == OWN
    names = {name if name in PLACES else name.partition("/")[0] for name in families()}
    assert set(PLACES) == names


def test_a_rule_of_a_parents_own_set_has_words_too() -> None:
    assert "ones_to_all" in readings.predictions("column-sum:2+1/1-within", "47+5")


@pytest.mark.parametrize("one", TABLE.values(), ids=lambda one: one.seems[:30])
def test_words_end_as_sentences_do(one: Words) -> None:
    """`seems` goes on after "seems to", `table` is whole sentences."""
    seems, table = one.seems, one.table
    assert seems[0].islower()
    assert not seems.endswith(".")
    assert table[0].isupper()
    assert table[-1] in ".?"
    assert not {"never", "wrong", "mistake", "bad"} & set(f"{seems} {table}".lower().split())
