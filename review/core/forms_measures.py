"""Names of units and temperatures as they are typed."""

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Any, NamedTuple

from review.core.forms import Form, Verdict, plain
from review.core.forms_time import NUMBERS
from review.core.units import SPELLED, Unit

# --- the name of a unit -------------------------------------------------------------------------------


def read_unit(text: str, unit: str = "") -> Unit | None:
    """cm, centimetre, centimeters; also after the number beside it in the prompt, which is `unit`."""
    words = plain(text).casefold().rstrip(". ").removeprefix(unit)
    found = SPELLED.get(" ".join(words.replace("-", " ").split()))
    return found[0] if found else None


def _weigh_unit(expected: Any, given: Any) -> Verdict:
    """A unit of something else is asked again: m may be meant for minutes."""
    if expected == given:
        return "right"
    return "other" if expected.family == given.family else "unreadable"


# --- temperatures -------------------------------------------------------------------------------------


class Temperature(NamedTuple):
    degrees: Fraction
    scale: str  # "c" or "f"


SCALES = {
    "c": "c", "celsius": "c", "celcius": "c", "centigrade": "c",
    "f": "f", "fahrenheit": "f", "farenheit": "f", "fahrenhite": "f",
}  # fmt: skip
WORDS = {"zero": 0, **{word: number for word, number in NUMBERS.items() if word != "oh"}}
TEMPERATURE = re.compile(
    r"(?P<minus>- ?|minus |negative )?(?P<number>\d{1,3}(?:\.\d{1,2})?|[a-z]+(?: [a-z]+)??)"
    rf" ?(?:°|º|degrees?\b|degs?\b\.?)? ?(?P<scale>{'|'.join(SCALES)})?(?P<below> below(?: zero| 0)?)?",
    re.ASCII,
)


def _folded(text: str) -> str:
    written = plain(text).casefold().replace("\u2103", "°c").replace("\u2109", "°f")
    return re.sub(r"(?<=[a-z])-(?=[a-z])", " ", written).strip(". ").removeprefix("+")


def read_temperature(text: str, unit: str = "") -> Temperature | None:
    """-4, −4 °C, minus 4, negative 4 degrees, 4 below zero. With no scale said, that of `unit` is meant."""
    found = TEMPERATURE.fullmatch(_folded(text))
    if not found or (found["minus"] and found["below"]):
        return None
    number = WORDS.get(found["number"], found["number"])
    if isinstance(number, str) and not number[0].isdigit():
        return None
    degrees = Fraction(number)
    scale = SCALES.get(found["scale"] or "", unit[-1:].casefold())
    return Temperature(-degrees if found["minus"] or found["below"] else degrees, scale)


def _weigh_temperature(expected: Any, given: Any) -> Verdict:
    """By another scale it is asked again: nothing here is turned from one into the other."""
    if expected == given:
        return "right"
    return "other" if expected.scale == given.scale else "unreadable"


FORMS: Mapping[str, Form] = {
    "unit": Form("Type a unit, like cm.", read_unit, "cm", "kg", weigh=_weigh_unit),
    "temperature": Form("Type the degrees, like 4.", read_temperature, "4", "7", weigh=_weigh_temperature),
}
