"""Answers that may be weighed by their time, and what a correction may have learned."""

from typing import Literal

from hypothesis import strategies as st

from review.core import correction
from review.core.model import Answer, Mark

KEY = "product:6x7"


def timed(
    net_ms: int, said: Literal["", "yes", "no"] = "", mark: Mark = "right", slow_ms: int = 3000
) -> Answer:
    return Answer(
        KEY, "6x7", "42", "42", mark, "ask", 900, 2000 + net_ms, aim="fluency", age=9, copy_ms=2000,
        slow_ms=slow_ms, recalled=said,
    )  # fmt: skip


weights = st.tuples(*[st.floats(-1.5, 1.5)] * correction.SIZE)
strengths = st.floats(0.3, 400)
