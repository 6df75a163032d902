"""What a procedure card asked lately, so that it is not asked again at once."""

from review.core.model import CardMemory

_MOST_RECENT = 10
"""Problems of a procedure card that are remembered: the last five are not asked again, and a day may show as
many again (our judgement)."""


def noted(memory: CardMemory, day: int, asked: str) -> tuple[str, ...]:
    """With one more, as memory keeps them: oldest first, each after its day."""
    return (*memory.recent, f"{day} {asked}")[-_MOST_RECENT:]


def lately(memory: CardMemory, day: int) -> tuple[str, ...]:
    """What the card asked before that day, oldest first."""
    split = (entry.partition(" ") for entry in memory.recent)
    return tuple(asked for on, _, asked in split if int(on) < day)
