"""What the planner knows of cards, as their kinds have it."""

from review.core.model import TraitsOf


def of_kinds() -> TraitsOf:
    """The kinds are imported with the first call: who brings the traits of every card needs none of them."""
    from review.core import skills

    return skills.traits
