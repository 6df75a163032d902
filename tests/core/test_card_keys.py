"""The cards of the shipped sets are these, in this order: the log keeps their keys for ever.

    python -m tests.core.test_card_keys > tests/data/card_keys.csv        after a set was meant to change

Source: the catalogue itself, written down when its sets began to be read a shorter way.
"""

from hashlib import sha256

import pytest

from review import catalogue
from review.core.card_sets import cards
from tests.tables import DATA, rows

PINNED = DATA / "card_keys.csv"
KNOWN = {row["set"]: row for row in rows(PINNED.name)}


def pinned(set_id: str) -> dict[str, str]:
    made = cards([catalogue.shipped(set_id)])
    text = "\n".join(f"{card.key} {card.skill} {card.aim}" for card in made)
    return {"set": set_id, "cards": str(len(made)), "sha256": sha256(text.encode()).hexdigest()[:16]}


@pytest.mark.parametrize("set_id", catalogue.names())
def test_a_set_makes_the_cards_it_made(set_id: str) -> None:
    if set_id not in KNOWN:
        pytest.fail(f"{set_id} is new: write its cards down, the command stands above")
    assert pinned(set_id) == KNOWN[set_id]


def test_no_set_is_gone() -> None:
    assert not KNOWN.keys() - {*catalogue.names()}


if __name__ == "__main__":
    lines = [pinned(set_id) for set_id in catalogue.names()]
    print("\n".join([",".join(lines[0]), *(",".join(row.values()) for row in lines)]))
