"""The record of days as lines, as tables of JSON and as a spreadsheet's table."""

from collections.abc import Iterable

from review.core import days, family
from review.core.diary import Day, Diary, Sample
from review.core.text import clean, ended, in_words, plural
from review.render.lines import spent
from review.render.phrases import MARK_WORDS, SLIP, answered, date
from review.render.progress_lines import span, tally_row, tally_words

SKILLS = 5  # named of a day before it says "and more" (our judgement)
TAKEN = {"typed": "typed", "aloud": "aloud", "paper": "on paper"}
RECORD = (
    "A family's own record of practice. Whether a record is asked for, and what it must show, local rules on "
    "home education decide."
)


def sample_words(sample: Sample) -> str:
    beside = f", {sample.sitting}" if sample.sitting else ""
    mark = SLIP if sample.slip else MARK_WORDS[sample.mark]
    came = clean(sample.written or sample.given)
    return f"{answered(clean(sample.problem), came)} ({mark}{beside})"


def skill_words(day: Day) -> str:
    named = "; ".join(map(clean, day.skills[:SKILLS]))
    return f"{named}; and {len(day.skills) - SKILLS} more" if len(day.skills) > SKILLS else named


def samples_words(day: Day) -> str:
    return "; ".join(map(sample_words, day.samples))


def notes_words(day: Day) -> str:
    *before, last = [*map(clean, day.notes)] or [""]
    return " ".join([*map(ended, before), last])


def taken_words(day: Day) -> str:
    return ", ".join(TAKEN.get(way, way) for way in day.taken)


def beside_words(day: Day) -> str:
    """Of its problems those that count in no share: "31 in a gentle warm-up and 6 extra"."""
    told = ((day.gentle, "in a gentle warm-up"), (day.extra, "extra"))
    every = day.problems in (day.gentle, day.extra)
    return in_words([f"{'all' if every else count} {where}" for count, where in told if count])


def total_words(found: Diary) -> str:
    return listed((f"{plural(found.practised, 'day')} with practice", spent(found.ms, found.taken)))


def whole_words(found: Diary) -> str:
    """All days in one line."""
    first = f" First tries: {tally_words(found.tally)}." if found.tally.tries else ""
    return family.reported([f"{total_words(found)}.{first}"], found.words)[0]


def listed(parts: Iterable[str]) -> str:
    return ", ".join(part for part in parts if part)


# --- lines ---------------------------------------------------------------------------------------------


def lines(found: Diary) -> list[str]:
    head = f"{clean(found.child)}, {span(found.since, found.until)}"
    if not found.days:
        return [head, "  Nothing was recorded on these days."]
    return [head, f"  {whole_words(found)}", *(line for day in found.days for line in day_lines(day))]


def day_lines(day: Day) -> list[str]:
    told = filter(None, (skill_words(day), samples_words(day), notes_words(day)))
    return ["", f"  {days.full_words(day.day)}{done_words(day)}", *(f"    {ended(one)}" for one in told)]


def done_words(day: Day) -> str:
    if not day.problems:
        return ""
    right = tally_words(day.tally, " at first") if day.tally.tries else ""
    beside = f" ({beside_words(day)})" if day.gentle or day.extra else ""
    return f": {listed((spent(day.ms, day.taken), plural(day.problems, 'problem') + beside, right))}"


# --- JSON ----------------------------------------------------------------------------------------------


def rows(found: Diary) -> list[dict[str, object]]:
    return [day_row(found.child, day) for day in found.days]


def day_row(child: str, day: Day) -> dict[str, object]:
    return {
        "child": child,
        "date": date(day.day),
        "minutes": round(day.ms / 60_000, 1),
        "problems": day.problems,
        **tally_row(day.tally),
        "taken": list(day.taken),
        "skills": list(day.skills),
        "samples": [one._asdict() for one in day.samples],
        "notes": list(day.notes),
        "gentle": day.gentle,
        "extra": day.extra,
    }


# --- a spreadsheet -------------------------------------------------------------------------------------

COLUMNS = (
    "child", "date", "minutes", "problems", "first tries", "right at first", "how", "skills", "samples",
    "notes", "gentle", "extra",
)  # fmt: skip


def spreadsheet(found: Iterable[Diary]) -> bytes:
    """A row a day, comma-separated (RFC 4180), in UTF-8 with the mark that spreadsheets look for."""
    from review.core import answer_rows  # only a table pays for the import

    cells = (day_cells(one.child, day) for one in found for day in one.days)
    return b"\xef\xbb\xbf" + b"".join(answer_rows.line(row) for row in (COLUMNS, *cells))


def day_cells(child: str, day: Day) -> tuple[str, ...]:
    return (
        child,
        date(day.day) or "",
        f"{day.ms / 60_000:.1f}",
        str(day.problems),
        str(day.tally.tries),
        str(day.tally.right),
        taken_words(day),
        "; ".join(day.skills),
        samples_words(day),
        notes_words(day),
        str(day.gentle or ""),
        str(day.extra or ""),
    )
