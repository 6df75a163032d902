"""The calendar's facts in the catalogue, against the published calendar and names of two libraries."""

import calendar
import re
import tomllib
from pathlib import Path

import pytest
from babel import Locale

from review.core.forms_stories import read_spelt
from tests.tables import rows

TOP = Path(__file__).parents[2]
ENGLISH = Locale("en")
MONTHS = [ENGLISH.months["format"]["wide"][month] for month in range(1, 13)]
WEEKDAYS = [ENGLISH.days["format"]["wide"][day] for day in range(7)]  # from Monday


def pairs(name: str, skill: str) -> dict[str, str]:
    found = tomllib.loads((TOP / "card_sets" / f"{name}.toml").read_text(encoding="utf-8"))
    (one,) = (each for each in found["skill"] if each["id"] == skill)
    return {prompt: str(answer) for prompt, answer in one["pairs"]}


def in_order(name: str, what: list[str], thing: str) -> None:
    found = pairs("calendar-words", name)
    count = len(what)
    assert found == {
        **{f"The {thing} after {one}:": what[(place + 1) % count] for place, one in enumerate(what)},
        **{f"The {thing} before {one}:": what[place - 1] for place, one in enumerate(what)},
    }


def test_months_and_weekdays_follow_each_other_as_in_the_babel_library() -> None:
    """babel (BSD licence), CLDR's names."""
    in_order("months-in-order", MONTHS, "month")
    in_order("weekdays-in-order", WEEKDAYS, "day")
    numbered = {f"Month number {place}:": month for place, month in enumerate(MONTHS, start=1)}
    assert pairs("calendar-words", "months-by-number") == numbered


def test_names_are_those_of_the_table() -> None:
    """calendar_names.csv: English names on which several libraries agree."""
    numbered, days = pairs("calendar-words", "months-by-number"), set(WEEKDAYS)
    table = rows("calendar_names.csv", lang="en")
    assert len(table) >= 12
    for row in table:
        if row["kind"] == "month":
            assert numbered[f"Month number {row['index']}:"] == row["name"]
        else:
            assert WEEKDAYS[int(row["index"]) - 2] == row["name"]
            assert row["name"] in days


def test_a_name_written_short_is_that_name_and_no_other() -> None:
    """CLDR's short names, and those that English also uses; a day that many write as they hear it."""
    also = {
        "Tues": "Tuesday", "Weds": "Wednesday", "Thurs": "Thursday", "Sept.": "September",
        "wensday": "Wednesday",
    }  # fmt: skip
    short = dict(also)
    for what, names in (("days", WEEKDAYS), ("months", MONTHS)):
        abbreviated = getattr(ENGLISH, what)["format"]["abbreviated"].values()
        short |= {found: name for found in abbreviated for name in names if name.startswith(found)}
    assert len(short) == 19 + len(also)
    for names in (WEEKDAYS, MONTHS):
        unit = "\n".join(names)
        for written, meant in short.items():
            right = [name for name in names if read_spelt(written, unit) == read_spelt(name, unit)]
            assert right == ([meant] if meant in names else []), written
    assert read_spelt("sun", "sun\nmoon") == "sun"  # a list of one's own that means no day
    assert read_spelt("mar", "mars\nvenus") == "mar"


def test_months_have_the_days_they_have() -> None:
    """The calendar module of Python, in a year that is no leap year, and in one that is."""
    found = pairs("calendar-words", "days-in-months")
    for place, month in enumerate(MONTHS, start=1):
        lengths = [str(calendar.monthrange(year, place)[1]) for year in (2023, 2024)]
        asked = [f"Days in {month}:"] if month != "February" else [
            "Days in February, most years:", "Days in February, leap years:",
        ]  # fmt: skip
        assert [found[prompt] for prompt in asked] == lengths[: len(asked)]
    assert len(found) == 13


@pytest.mark.parametrize("prompt", pairs("calendar-words", "leap-years"))
def test_leap_years_are_those_of_the_calendar(prompt: str) -> None:
    """The calendar module of Python."""
    answer = pairs("calendar-words", "leap-years")[prompt]
    year = re.search(r"(after|before) (\d+)", prompt)
    if year:
        step = 1 if year[1] == "after" else -1
        following = int(year[2]) + step
        while not calendar.isleap(following):
            following += step
        assert answer == str(following)
    else:
        assert answer == {"Leap years, years apart:": "4", "Extra days in a leap year:": "1"}[prompt]


def test_parts_of_time_are_those_of_the_units_table() -> None:
    """units.csv: NIST SP 811 for minute, hour and day."""
    found = pairs("calendar-words", "parts-of-time")
    sizes = {(row["from"], row["to"]): row["factor"] for row in rows("units.csv")}
    assert found["Seconds in a minute:"] == sizes["minute", "second"]
    assert found["Minutes in an hour:"] == sizes["hour", "minute"]
    assert found["Hours in a day:"] == sizes["day", "hour"]
    lengths = {
        year: str(sum(calendar.monthrange(year, month)[1] for month in range(1, 13))) for year in (2023, 2024)
    }
    assert [found["Days in a year:"], found["Days in a leap year:"]] == [lengths[2023], lengths[2024]]
    assert (found["Days in a week:"], found["Months in a year:"]) == (str(len(WEEKDAYS)), str(len(MONTHS)))
