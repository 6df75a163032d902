"""How a child comes along, as a page: charts with their tables, skill by skill, and what to make of it."""

from collections.abc import Iterable, Mapping, Sequence
from math import floor

from review.core import days, family
from review.core.calibration import Band
from review.core.model import Words
from review.core.progress import Held, Progress, SkillProgress, Week
from review.core.text import plural
from review.core.tries import Tally
from review.render.charts import Chart, Interval, Series, against, bars, curves, figure
from review.render.page import Html, Table, listed, page, table, tag
from review.render.phrases import CAUTION
from review.render.progress_lines import (
    ENOUGH,
    band_range,
    cards_line,
    grown_lines,
    has_times,
    span,
    states,
    usual,
    whole_lines,
)

BAND_HEADS = ("promised", "first tries", "came", "allowing for chance")
AS_KNOWN = " Holding in earlier weeks is told as the child is known now: a page of then may say otherwise."
USUALLY = " Usual times are without the time to type."
HEADS = ("skill", "cards", "first tries right", "usual time", "known since", "from memory")
ALWAYS = 3  # of them stand in every table


def progress_page(found: Sequence[Progress]) -> str:
    names = ", ".join(one.pupil.child.name for one in found)
    return page(
        f"Progress: {names}",
        tag("h1", f"Progress: {names}"),
        *(section(one, alone=len(found) == 1) for one in found),
        tag("p", f"{CAUTION}{AS_KNOWN}{USUALLY if has_times(found) else ''}", class_="note"),
    )


def section(found: Progress, *, alone: bool) -> Html:
    """The part of a page that is one child's. `alone`: there is no other, so that the name stands in the
    heading of the page already."""
    words = family.words_of(found.pupil.child)
    charts = [held_chart(found.held), minutes_chart(found.weeks, found.taken), calibration_chart(found.bands)]
    return tag(
        "section",
        *([] if alone else [tag("h2", found.pupil.child.name)]),
        tag("p", span(found.since, found.until)),
        listed(family.reported([*whole_lines(found), cards_line(found), *grown_lines(found.grown)], words)),
        *(figure(reported_chart(chart, words)) for chart in charts if chart is not None),
        *(table(reported(made, words)) for made in skill_tables(found.skills, found.pupil.sets)),
    )


def reported(made: Table, words: Words) -> Table:
    """A table with its numbers as the family writes them."""
    return made._replace(rows=[family.reported(row, words) for row in made.rows])


def reported_chart(chart: Chart, words: Words) -> Chart:
    (told,) = family.reported([chart.words], words)
    return chart._replace(words=told, table=reported(chart.table, words))


# --- charts -------------------------------------------------------------------------------------------


def held_chart(held: Sequence[Held]) -> Chart | None:
    """How many cards were met, and how many held, at the end of each week."""
    held = [one for n, one in enumerate(held) if one.met or (held[n + 1 : n + 2] and held[n + 1].met)]
    if not held:
        return None
    last = held[-1]  # from the week before the first card was met: nothing is drawn of a time before it
    words = (
        f"At the end, {plural(last.met, 'card')} met and {last.holding} holding; "
        f"at the beginning {held[0].met} met and {held[0].holding} holding."
    )
    series = (
        Series("met", [one.met for one in held], "5 3"),
        Series("holding", [one.holding for one in held], name_below=True),
    )
    rows = [(date_words(one.day), f"{one.met:,}", f"{one.holding:,}") for one in held]
    return Chart(
        "Cards met and holding, week by week",
        words,
        curves([days.short(one.day) for one in held], series),
        Table("", ("up to", "met", "holding"), rows),
    )


def minutes_chart(weeks: Sequence[Week], taken: Sequence[str]) -> Chart | None:
    spent = [round(week.ms / 60_000) for week in weeks]
    if not any(spent):  # on paper nothing is timed
        return None
    untimed = UNTIMED if {*taken} - {"typed"} else ""
    timed = [time for week, time in zip(weeks, spent, strict=True) if is_timed(week)]
    between = f"Between {min(timed)} and {plural(max(timed), 'minute')}"
    words = f"{between} a week, in {plural(len(timed), 'week')}.{untimed}"
    rows = [
        (
            date_words(week.monday),
            str(week.days),
            str(time) if is_timed(week) else "",
            right_words(week.tally),
        )
        for week, time in zip(weeks, spent, strict=True)
    ]
    return Chart(
        "Minutes of practice a week",
        words,
        bars([days.short(week.monday) for week in weeks], spent),
        Table("", ("week from", "days", "minutes", "first tries right"), rows),
    )


def is_timed(week: Week) -> bool:
    """Whether its minutes say how long: of days on paper alone none are known, and a week without any has
    none."""
    return week.ms > 0 or not week.days


UNTIMED = " What was said aloud or done on paper is not timed."


def date_words(day: int) -> str:
    return f"{days.short(day)} {days.date_of(day).year}"


def right_words(tally: Tally) -> str:
    return f"{tally.right / tally.tries:.0%} of {tally.tries:,}" if tally.tries else ""


def calibration_chart(bands: Sequence[Band]) -> Chart | None:
    told = [band for band in bands if band.n >= ENOUGH]
    if not told:
        return None
    points = [Interval(*(100 * one for one in (band.promised, band.right, *band.within))) for band in told]
    least = min(min(point.across, point.low) for point in points)
    kept = sum(band.within[0] <= band.promised <= band.within[1] for band in told)
    words = (
        f"In {kept} of {len(told)} bands what came agrees with what was promised, allowing for chance. "
        "The dashed line is where both are the same; the bars allow for chance, 19 times in 20."
    )
    return Chart(
        "What the plan promised, and what came",
        words,
        against(points, max(0, 10 * floor(least / 10))),
        Table("", BAND_HEADS, [band_cells(band) for band in told]),
    )


def band_cells(band: Band) -> tuple[str, ...]:
    within = f"{band.within[0]:.0%} to {band.within[1]:.0%}"
    return band_range(band), f"{band.n:,}", f"{band.right:.0%}", within


# --- skill by skill -----------------------------------------------------------------------------------


def skill_tables(skills: Iterable[SkillProgress], titles: Mapping[str, str]) -> list[Table]:
    """A table a set."""
    groups: dict[str, list[SkillProgress]] = {}
    for one in skills:
        groups.setdefault(one.skill.set_id, []).append(one)
    return [skill_table(titles.get(name, name), some) for name, some in groups.items()]


def skill_table(name: str, some: Sequence[SkillProgress]) -> Table:
    """Without columns in which nothing stands: no usual time where all was aloud, nothing from memory."""
    cells = [skill_cells(one) for one in some]
    told = [n for n, column in enumerate(zip(*cells, strict=True)) if n < ALWAYS or any(column)]
    rows = [tuple(row[n] for n in told) for row in cells]
    return Table(name, tuple(HEADS[n] for n in told), rows, stacks=True)


def skill_cells(one: SkillProgress) -> tuple[str, ...]:
    tally = one.tally
    known = date_words(one.known_day) if one.known_day else ""
    time = usual(tally).removeprefix(", usually ")
    return one.skill.title, states(one), right_words(tally), time, known, memory_words(tally)


def memory_words(tally: Tally) -> str:
    return f"{tally.from_memory / tally.timed:.0%} of {tally.timed:,}" if tally.timed else ""
