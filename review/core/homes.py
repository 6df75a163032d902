"""Where a family lives -> whose money, measures and number names its lists show.

Chosen once for all children, as school years are. It narrows lists, and tells which paper is usual: every set
can be seen, given and practised by its name, wherever a family lives.
"""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from review.core.model import Child
from review.core.school_years import AGES

MONEY = ("pounds", "dollars", "euros")
EVERY = "all"  # what lists show where nobody chose
CHOICES = (*MONEY, EVERY)

# Customary units, Fahrenheit and numbers without "and" are taught in the United States, imperial units in
# the United Kingdom: the standards that name them, or leave them out.
BELONGS: Mapping[str, tuple[str, ...]] = {
    **dict.fromkeys(("coins-pounds", "change-pounds", "change-pounds-notes"), ("pounds",)),
    **dict.fromkeys(("coins-dollars", "change-dollars", "change-dollars-notes"), ("dollars",)),
    **dict.fromkeys(("coins-euros", "change-euros", "change-euros-notes"), ("euros",)),
    **dict.fromkeys(("imperial-units", "metric-and-imperial"), ("pounds",)),
    **dict.fromkeys(("customary-us", "thermometers-fahrenheit"), ("dollars",)),
    **dict.fromkeys(("number-names-to-999", "number-names-to-9999"), ("pounds", "euros")),
    **dict.fromkeys(("number-names-to-999-without-and", "number-names-to-9999-without-and"), ("dollars",)),
}
"""Sets that are not for everybody: where they fit, by the money that is used there."""

# ISO 3166 codes of the countries that pay in euros in 2026 (from memory, after the European Central Bank)
EURO = (
    "AT", "BE", "BG", "CY", "DE", "EE", "ES", "FI", "FR", "GR", "HR",
    "IE", "IT", "LT", "LU", "LV", "MT", "NL", "PT", "SI", "SK",
)  # fmt: skip


class Home(NamedTuple):
    name: str  # as it stands in the list of the first run
    years: str
    money: str
    regions: tuple[str, ...] = ()  # of a locale, for which it is suggested
    subject: str = "maths"  # what it is called there


HOMES = (
    Home("England", "england", "pounds", ("GB",)),
    Home("elsewhere in the United Kingdom", AGES, "pounds"),
    Home("the United States", "us", "dollars", ("US",), "math"),
    Home("a country that pays in euros", AGES, "euros", EURO),
    Home("somewhere else", AGES, EVERY),
)


def suggested(locale: str) -> Home:
    """By the region in a name like en_GB.UTF-8; the last where it tells none of ours."""
    region = locale.partition(".")[0].partition("@")[0].replace("-", "_").rpartition("_")[2].upper()
    return next((home for home in HOMES if region in home.regions), HOMES[-1])


def fits(set_id: str, money: str) -> bool:
    return money not in MONEY or money in BELONGS.get(set_id, MONEY)


def paper(years: str, money: str) -> str:
    """What a family prints on where it does not say: Letter is the paper of the United States, told by its
    school years, and where only ages were chosen by its money; A4 is that of nearly all others."""
    return "letter" if years == "us" or (years == AGES and money == "dollars") else "a4"


def money_of(children: Iterable[Child]) -> str:
    """Whose money the family uses: the choice of any child, since all are told the same. One that only a
    later version knows counts as none."""
    chosen = next((child.words["money"] for child in children if "money" in child.words), EVERY)
    return chosen if chosen in MONEY else EVERY
