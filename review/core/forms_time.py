"""Clock times, spans of time and amounts in two units as they are typed.

A time is an hour and minutes; where nothing says morning or afternoon, either is meant. Minutes up to 99 are
read: 3:75 is a time somebody worked out, and not one the clock has.
"""

import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any, NamedTuple

from review.core.forms import Form, Verdict, integer, plain


class Time(NamedTuple):
    hour: int  # 0 to 11
    minute: int  # 0 to 99
    half: str = ""  # "am", "pm", or not said
    bare: bool = False  # only an hour, with no word for it


# --- in digits ----------------------------------------------------------------------------------------

HALVES = {
    "am": "am", "a": "am", "in the morning": "am", "midnight": "am",
    "pm": "pm", "p": "pm", "in the afternoon": "pm", "in the evening": "pm", "at night": "pm", "noon": "pm",
}  # fmt: skip
HALF = "|".join(sorted(HALVES, key=len, reverse=True))
DIGITS = re.compile(
    rf"(?:(\d{{1,2}})(?: ?[:.;,h] ?| )(\d\d)|(\d{{1,2}})(\d\d)h?|(\d{{1,2}}))(?: ?({HALF}))?", re.ASCII
)
LAST_HOUR = 24


def _written(text: str) -> str:
    """Small letters; a.m. as am; o'clock in one piece; hyphens as spaces."""
    written = plain(text).casefold().replace("a.m", "am").replace("p.m", "pm").rstrip(". ")
    written = re.sub(r"\bo ?'? ?clock\b", "oclock", written.replace("-", " "))
    return " ".join(re.sub(r"\bmid night\b", "midnight", written).split())


def _time(hour: int, minute: int, half: str, bare: bool = False) -> Time | None:
    """None where the hour and the half of the day cannot both be."""
    if hour > LAST_HOUR or (half == "am" and 13 <= hour < LAST_HOUR) or (half == "pm" and hour in (0, 24)):
        return None
    said = half or ("pm" if 13 <= hour < LAST_HOUR else "am" if hour in (0, LAST_HOUR) else "")
    return Time(hour % 12, minute, said, bare)


def _digits(text: str) -> tuple[int, int, str, bool] | None:
    """Hour as written, minute, half of the day, and whether it is an hour alone."""
    written = _written(text)
    oclock = written.replace(" oclock", "").replace("oclock", "")
    found = DIGITS.fullmatch(oclock)
    if not found:
        return None
    hour, minute = found[1] or found[3] or found[5], found[2] or found[4]
    if minute and written != oclock:
        return None
    half = HALVES.get(found[6] or "", "")
    return int(hour), int(minute or 0), half, not minute and written == oclock and not half


def read_digits(text: str, unit: str = "") -> Time | None:
    """3:25, 03:25, 3.25, 3 25, 325, 15:25, 3:25 pm, 3 o'clock."""
    found = _digits(text)
    return _time(*found) if found else None


# --- in words -----------------------------------------------------------------------------------------

SMALL = (
    "oh", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
ROUND = {"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50}
MISSPELT = {  # as children write them (common practice, no source)
    "fourty": "forty", "fiveteen": "fifteen", "fivteen": "fifteen", "forteen": "fourteen", "twelv": "twelve",
    "eigth": "eight", "eigt": "eight", "nin": "nine", "tweny": "twenty", "twenny": "twenty",
    "quater": "quarter", "quator": "quarter", "qarter": "quarter", "haf": "half", "harf": "half",
    "passed": "past", "parst": "past", "minuets": "minutes", "minets": "minutes", "too": "to",
    "elevan": "eleven", "ocklock": "oclock", "o'clok": "oclock", "aclock": "oclock",
}  # fmt: skip
NUMBERS = {
    **{word: number for number, word in enumerate(SMALL)},
    **ROUND,
    **{f"{tens} {SMALL[ones]}": value + ones for tens, value in ROUND.items() for ones in range(1, 10)},
}
PAST, TO = ("past", "after"), ("to", "till", "til", "until", "before", "of")
BETWEEN = re.compile(rf"(.+?)(?: minutes?| mins?)? ({'|'.join((*PAST, *TO))}) (.+)")


def _number(words: str) -> int | None:
    return int(words) if re.fullmatch(r"\d{1,2}", words, re.ASCII) else NUMBERS.get(words)


def _minutes(words: str) -> int | None:
    parts = {"quarter": 15, "a quarter": 15, "half": 30}
    return parts.get(words, _number(words))


def _hour(words: str) -> int | None:
    if words in ("noon", "midday", "midnight"):
        return 12
    hour = _number(words.removesuffix(" oclock"))
    return hour if hour is not None and 1 <= hour <= 12 else None


def _turned(minutes: int, word: str, hour: int) -> tuple[int, int] | None:
    """Twenty to four is 3:40."""
    if minutes > 59 or (minutes == 30 and word in TO):
        return None
    return (hour, minutes) if word in PAST else ((hour - 2) % 12 + 1, 60 - minutes)


def _worded(words: str) -> tuple[int, int] | None:
    """Hour and minute of a time without its half of the day."""
    if found := BETWEEN.fullmatch(words):
        minutes, hour = _minutes(found[1]), _hour(found[3])
        return _turned(minutes, found[2], hour) if minutes and hour else None
    hour = _hour(words)
    if hour is not None and not words.isdecimal():
        return hour, 0
    first, _, rest = words.partition(" ")
    hour, minutes = NUMBERS.get(first), NUMBERS.get(rest.removeprefix("oh "))
    if hour is None or minutes is None or not 1 <= hour <= 12 or (minutes < 10) != rest.startswith("oh "):
        return None
    return hour, minutes


def read_words(text: str, unit: str = "") -> Time | None:
    """Quarter past three, twenty-five to 4, three fifteen, nine o'clock, noon."""
    words = " ".join(MISSPELT.get(word, word) for word in _written(text).split())
    whole = HALVES.get(words) or ("pm" if words == "midday" else "")
    if whole and len(words) > 2:
        return Time(0, 0, whole)
    spoken, half = words, ""
    if found := re.fullmatch(rf"(.+) ({HALF})", words):
        spoken, half = found[1], HALVES[found[2]]
    worded = _worded(spoken)
    return _time(*worded, half) if worded else None


def read_time(text: str, unit: str = "") -> Time | None:
    """In digits or in words."""
    return read_digits(text) or read_words(text)


def _weigh_time(expected: Any, given: Any) -> Verdict:
    """Morning and afternoon matter where both say which; a bare hour that is not it is asked again."""
    same = expected[:2] == given[:2] and (not expected.half or not given.half or expected.half == given.half)
    return "right" if same else "unreadable" if given.bare else "other"


# --- by the two clocks --------------------------------------------------------------------------------


def read_24(text: str, unit: str = "") -> tuple[int, int] | None:
    """15:25, 1525, 15.25; with am or pm it is of the other clock, and asked again."""
    found = _digits(text)
    if not found or found[2] or found[3] or found[0] > LAST_HOUR:
        return None
    return found[0] % LAST_HOUR, found[1]


def read_am_pm(text: str, unit: str = "") -> Time | None:
    """3:25 pm; without am or pm, or by the other clock, it is asked again."""
    found = _digits(text)
    if found and (not found[2] or found[0] > 12 or not found[0]):
        return None
    time = read_time(text)
    return time if time and time.half else None


# --- spans --------------------------------------------------------------------------------------------

HOURS, MINUTES = r"h|hrs?|hours?", r"m|mins?|minutes?"
SPANS = (
    re.compile(rf"(?P<h>\d{{1,2}}) ?(?:{HOURS})(?:,? ?(?:and )?(?P<m>\d{{1,2}}) ?(?:{MINUTES})?)?", re.ASCII),
    re.compile(r"(?P<h>\d{1,2})(?: ?: ?| )(?P<m>\d\d)(?: ?(?:h|hours))?", re.ASCII),
    re.compile(rf"(?P<m>\d{{1,4}}) ?(?:{MINUTES})", re.ASCII),
)
AND_A_HALF = re.compile(
    rf"(?P<h>\d{{1,2}}|[a-z]+)(?:(?: and a half| 1/2| ?½|\.5) ?(?:{HOURS})| ?(?:{HOURS}) and a half)",
    re.ASCII,
)
SPAN_WORDS = {
    "an hour": 60, "one hour": 60, "half an hour": 30, "quarter of an hour": 15, "a quarter of an hour": 15,
    "an hour and a half": 90, "one and a half hours": 90, "three quarters of an hour": 45,
}  # fmt: skip


class Span(NamedTuple):
    minutes: int
    bare: bool = False  # a number alone: minutes, unless that many hours are meant


def read_span(text: str, unit: str = "") -> Span | None:
    """25, 25 min, 1 h 20 min, 1 hour 20, 1:20, 80 min, half an hour, 3 and a half hours, 3 1/2 h."""
    written = _written(text)
    if written in SPAN_WORDS:
        return Span(SPAN_WORDS[written])
    if re.fullmatch(r"\d{1,4}", written, re.ASCII):
        return Span(int(written), True)
    if half := AND_A_HALF.fullmatch(written):
        hours = _number(half["h"])
        return None if hours is None else Span(hours * 60 + 30)
    found = next(filter(None, (pattern.fullmatch(written) for pattern in SPANS)), None)
    if not found:
        return None
    parts = found.groupdict()
    return Span(int(parts.get("h") or 0) * 60 + int(parts["m"] or 0))


def _weigh_span(expected: Any, given: Any) -> Verdict:
    """A number alone that would be right as hours is asked again."""
    if expected.minutes == given.minutes:
        return "right"
    return "unreadable" if given.bare and expected.minutes == given.minutes * 60 else "other"


FORMS: Mapping[str, Form] = {
    "clock-time": Form("Type a time, like 4:20.", read_time, "4:20", "7:35", weigh=_weigh_time),
    "clock-digits": Form("Type it in digits, like 4:20.", read_digits, "4:20", "7:35", weigh=_weigh_time),
    "clock-words": Form(
        "Type words, like ten past four.", read_words, "ten past four", "five to six", weigh=_weigh_time
    ),
    "clock-24": Form("Type a 24-hour time, like 18:20.", read_24, "18:20", "19:35"),
    "clock-am-pm": Form("Add am or pm, like 4:20 pm.", read_am_pm, "4:20 pm", "7:35 am", weigh=_weigh_time),
    "time-span": Form("Type it like 2 h 5 min.", read_span, "2 h 5 min", "3 h 15 min", weigh=_weigh_span),
}


# --- amounts in two units -----------------------------------------------------------------------------


class Mixed(NamedTuple):
    parts: tuple[tuple[int, Any], ...]  # numbers and their units, the greatest unit first

    @property
    def amount(self) -> Fraction | None:
        """In the smallest unit of the family; None where two families are mixed."""
        if len({unit.family for _, unit in self.parts}) != 1:
            return None
        return sum((number * Fraction(unit.size) for number, unit in self.parts), Fraction(0))


NUMBER = r"\d{1,3}(?:,\d{3})+|\d+"  # a space stands between the parts here, not between thousands
MIXED = re.compile(
    rf"({NUMBER}) ?([^\d\W][^\d,;+]*?)?(?:(?: ?[,;+]? ?| and )({NUMBER}) ?([^\d\W][^\d]*)?)?", re.ASCII
)


def mixed_form(find_unit: Callable[..., Any]) -> Form:
    """3 m 20 cm, 3m20cm, 3 20, 3 metres and 20 centimetres. The unit of a problem is "m+cm".

    `find_unit` takes a name, and a unit near to it, to the unit, or to the name where there is none.
    """

    def unit_of(word: str | None, meant: str) -> Any:
        near = find_unit(meant)
        return near if not word else find_unit(word.removesuffix(" and"), near)

    def read(text: str, unit: str = "") -> Mixed | None:
        found = MIXED.fullmatch(plain(text).rstrip(". "))
        if not found or (not found[3] and not found[2]):
            return None
        great, _, small = unit.partition("+")
        written = [(found[1], unit_of(found[2], great))]
        written += [(found[3], unit_of(found[4], small))] if found[3] else []
        parts = [(integer(number), at) for number, at in written]
        if any(number is None or isinstance(at, str) for number, at in parts):
            return None
        kept = [(number, at) for number, at in parts if number is not None]
        return Mixed(tuple(sorted(kept, key=lambda part: -part[1].size)))

    return Form("Type it like 2 m 5 cm.", read, "2 m 5 cm", "4 m 10 cm", weigh=_weigh_mixed)


def _weigh_mixed(expected: Any, given: Any) -> Verdict:
    """The right amount in other units, or with too many of the smaller one, is asked again."""
    if expected.parts == given.parts or _whole(given, expected) == expected.parts:
        return "right"
    return "unreadable" if expected.amount == given.amount is not None else "other"


def _whole(given: Mixed, expected: Mixed) -> tuple[tuple[int, Any], ...]:
    """Where one part is none, it need not be written: 3 m is 3 m 0 cm."""
    said = {unit: number for number, unit in given.parts}
    return tuple((said.get(unit, 0), unit) for _, unit in expected.parts) if len(said) == 1 else ()
