"""Plans for a child of nine, for whom the forgetting curve is right, from the small cards of `stock`."""

from random import Random

from review.core.ground import Basis
from review.core.model import Card, CardMemory, Settings, Traits
from review.core.plan import plan
from review.core.warmup import Plan
from tests.core.stock import DAY, UNCORRECTED, card, grown

NINE = Settings(9, habits=UNCORRECTED)


def traits(key: str) -> Traits:
    """Groups by the last digit, families by twos: `1+4` and `1+5`."""
    number = int(key.rpartition("+")[2])
    return Traits(key, True, 6.0, frozenset({f"ends {number % 10}"}), family=f"f{number // 2}")


def lone(key: str) -> Traits:
    return Traits(key, True, 6.0)


def planned(
    cards: list[Card],
    memory: dict[str, CardMemory],
    minutes: float = 5,
    seed: int = 1,
    recent: tuple[bool, ...] = (),
    settings: Settings = NINE,
) -> Plan:
    return plan(Basis(cards, memory, settings, DAY, minutes, recent, traits=lone), Random(seed))


def sure(first: int, last: int) -> dict[str, CardMemory]:
    return {card(n).key: grown(card(n).key, 100, DAY - 5, gap=2) for n in range(first, last)}
