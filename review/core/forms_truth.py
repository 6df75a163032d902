"""Whether something is true, in any of the words children use for it."""

from collections.abc import Mapping

from review.core.forms import Form, plain

TRUE = ("true", "t", "yes", "y", "yeah", "yep", "it is true", "its true", "it's true", "that is true")
FALSE = (
    "false", "f", "no", "n", "nope", "not true", "untrue", "it is false", "its false", "it's false",
    "it is not true", "that is false", "that is not true",
)  # fmt: skip
WORDS = {**dict.fromkeys(TRUE, True), **dict.fromkeys(FALSE, False)}


def read_truth(text: str, unit: str = "") -> bool | None:
    """true, yes, t, y, false, no, f, n, and short sentences that say so; a number is none of these."""
    return WORDS.get(plain(text).casefold().rstrip(".!").strip())


FORMS: Mapping[str, Form] = {"truth": Form("Type true or false.", read_truth)}
