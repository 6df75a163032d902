"""What a parent says of the way a child likes."""

from review.core.model import Child
from review.core.skills.strategies import STRATEGIES, likes
from review.core.text import clean, in_words, nearest
from review.errors import Mendable

NO_LIKING = "none"


def likes_now(child: Child, strategy: str) -> dict[str, str]:
    """A child's likings with that strategy wherever it is one; or all of them taken back."""
    if strategy == NO_LIKING:
        return dict.fromkeys(child.likes, "")
    if strategy not in STRATEGIES:
        near = nearest(strategy, STRATEGIES, 1)
        hint = f" Did you mean {near[0]}?" if near else ""
        names = in_words(sorted(STRATEGIES), "or")
        raise Mendable(
            f"There is no way of working out called “{clean(strategy)}”.{hint} Write one of these: {names}; "
            f"or {NO_LIKING} to take it back."
        )
    return {**child.likes, **likes(strategy)}
