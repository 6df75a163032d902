"""The book out and in, copies, and what is kept of a child, as lines and tables of JSON."""

from collections.abc import Mapping, Sequence
from pathlib import Path

from review.app.archive import Copy, Exported, Merged
from review.app.keeping import Forgotten, Kept
from review.book.restoring import Restored
from review.core import days, family, homes
from review.core.model import Child
from review.core.skills.strategies import STRATEGIES
from review.core.text import clean, ended, in_words, plural
from review.render import word_lines
from review.shell import word

# --- out and in ----------------------------------------------------------------------------------------


def exported(found: Exported, table: bool) -> list[str]:
    entries = plural(found.rows, "answer") if table else f"{plural(found.rows, 'entry')}, each with its proof"
    (what,) = family.reported([entries], found.words)
    use = "It is for looking; to keep or move a book, leave out --csv." if table else ""
    return [f"Written: {found.path} ({what}).", *([use] if use else [])]


def merged(found: Merged) -> list[str]:
    taken = found.taken
    new = [f"New here: {clean(in_words(found.new))}."] if found.new else []
    lost = len(taken.forgotten)
    gone = [
        "A child forgotten there was forgotten here."
        if lost == 1
        else f"Forgotten here as there: {lost} children."
    ]
    before = [f"The book as it was before: {found.copy}"] if found.copy else []
    nothing = "Nothing came in." if found.left else "Nothing new was in it."
    came = f"{plural(taken.rows, 'entry')} came in." if taken.rows else nothing
    return [
        *family.reported([came], found.words),
        *new,
        *(gone if lost else []),
        *left_out(found),
        f"The book: {found.path}",
        *before,
    ]


def left_out(found: Merged) -> list[str]:
    """Whom it still holds though the family has forgotten them here."""
    if not found.left:
        return []
    names = clean(in_words(found.left))
    told = f"It holds {names}, forgotten here for good: nothing of that was taken."
    if found.other is None:
        return [f"{told} Another book can take it in: review --book NEW.book import FILE"]
    here, there = word(str(found.path)), word(str(found.other))
    return [f"{told} To forget {names} there too: review --book {there} merge {here}"]


def backed_up(path: Path) -> list[str]:
    return [f"A copy, whole and verified: {path}"]


def restored(copy: Path, found: Restored, book: Path) -> list[str]:
    saved = plural(found.saved, "later entry") if found.saved else ""
    more = f" and {saved} that {'was' if found.saved == 1 else 'were'} sound in the old file" if saved else ""
    aside = [f"The old file was set aside: {found.aside}"] if found.aside else []
    return [
        f"{book} holds {plural(found.rows, 'entry')} of {copy}{more}.",
        *aside,
        "Look whether all is well: review verify",
    ]


def restored_row(copy: Path, found: Restored, book: Path) -> dict[str, object]:
    aside = str(found.aside) if found.aside else None
    return {
        "book": str(book), "copy": str(copy), "entries": found.rows, "saved": found.saved, "set_aside": aside
    }  # fmt: skip


def copies(found: Sequence[Copy], book: Path) -> list[str]:
    if not found:
        return [f"There is no copy beside {book} yet. One is made after each day's first warm-up."]
    return [
        f"Copies of {book}, newest first:",
        *(f"  {clean(copy.path.stem)}: {copy_words(copy)}" for copy in found),
        f"Put one in the book's place: review restore {word(found[0].path.stem)}",
        "The file there now is set aside. What it holds beyond the copy, and is sound, comes along.",
    ]


def copy_words(copy: Copy) -> str:
    if not copy.sound:
        return "damaged"
    last = f", the last on {days.words(copy.day)}" if copy.day else ""
    return f"{plural(copy.answers, 'answer')}{last}"


def copy_row(copy: Copy) -> dict[str, object]:
    last = days.date_of(copy.day).isoformat() if copy.day else None
    return {"copy": str(copy.path), "answers": copy.answers, "last_day": last, "sound": copy.sound}


# --- what is kept of a child ---------------------------------------------------------------------------


def kept(found: Kept) -> list[str]:
    """In words a child can read."""
    child, name = found.child, clean(found.child.name)
    told = [
        f"What this book keeps of {name}",
        f"Your name and age: {name}, {child.age} years.",
        f"Your minutes a day: {child.minutes:g}.",
        *own_ways(child),
        ended(f"Your sets: {clean('; '.join(found.sets)) or 'none yet'}"),
        ended(f"What you were taught: {clean('; '.join(found.skills)) or 'nothing yet'}"),
        *own_words(child),
        *kept_answers(found),
        f"And {plural(found.others, 'entry')} more: sets given, plans of a day, and the like.",
    ]
    return [
        *family.reported(told, family.words_of(child)),
        f"It is all in this one file: {found.book}",
        *(
            [f"And in {plural(len(found.copies), 'copy')} of it, made in case it breaks."]
            if found.copies
            else []
        ),
        *(["Other record books beside it hold you too:"] if found.other_books else []),
        *(f"  {path}" for path in found.other_books),
        f"Nobody else gets it. To take it all out: review child forget {word(child.name)}",
    ]


ANSWERED: Mapping[str, str] = {
    "aloud": "How you answer: somebody reads out, and you say it.",
    "typed": "How you answer: you type.",
}


def own_ways(child: Child) -> list[str]:
    """What was chosen for this child, or by it; nothing of what goes by age."""
    liked = dict.fromkeys(STRATEGIES[name].child for name in child.likes.values() if name in STRATEGIES)
    return [
        *([ANSWERED[child.mode]] if child.mode else []),
        *([f"New cards a day: at most {child.pace}."] if child.pace else []),
        *(["How long you take never counts."] if child.untimed else []),
        *([f"The way you like best: {' '.join(liked)}"] if liked else []),
        *([f"Your days go by the time of {clean(child.zone)}."] if child.zone else []),
    ]


def own_words(child: Child) -> list[str]:
    """What the family chose, no more."""
    words = family.words_of(child)
    chosen = [told for name, told in word_lines.by_name(words).items() if name in child.words]
    money = homes.money_of([child])
    return [
        *([f"Your family's words. {' '.join(chosen)}"] if chosen else []),
        *([f"Your family's money: {money}."] if money in homes.MONEY else []),
    ]


UNSAID: Mapping[str, str] = {"shown": "you asked to see it", "void": "it was interrupted"}
"""Of an answer without a word: aloud and on paper, what did not come has none."""


def kept_answers(found: Kept) -> list[str]:
    if found.last is None:
        return ["You have not answered anything yet."]
    last = found.last
    words = family.words_of(found.child)
    problem, given = (clean(family.as_written(text, words)) for text in (last.problem, last.given))
    came = f"you gave {given}" if last.given else UNSAID.get(last.mark, "it had not come yet")
    first, newest = days.words(found.first_day), days.words(found.last_day)
    when = f"on {first}" if first == newest else f"from {first} to {newest}"
    return [
        f"Your answers: {found.answers:,}, {when}.",
        "Of each one: what was asked, what you gave, when, how long it took, and which help you had.",
        f"The last one: “{problem}”; {came}.",
        f"From them the program works out what you may remember: {plural(found.cards, 'card')}.",
    ]


def kept_row(found: Kept) -> dict[str, object]:
    child = found.child
    return {
        "child": child.name,
        "age": child.age,
        "minutes": child.minutes,
        "zone": child.zone,
        "untimed": child.untimed,
        "mode": child.mode,
        "pace": child.pace or None,
        "likes": dict(child.likes),
        "words": word_lines.row(family.words_of(child)),
        "sets": list(found.sets),
        "taught": list(child.taught),
        "answers": found.answers,
        "first_day": days.date_of(found.first_day).isoformat() if found.first_day else None,
        "last_day": days.date_of(found.last_day).isoformat() if found.last_day else None,
        "cards": found.cards,
        "other_entries": found.others,
        "book": str(found.book),
        "copies": [str(path) for path in found.copies],
        "other_books": [str(path) for path in found.other_books],
    }


def about_to_forget(found: Kept) -> list[str]:
    name, words = clean(found.child.name), family.words_of(found.child)
    goes = f"Everything of {name} goes: {plural(found.answers, 'answer')}, sets, and what is remembered."
    return [
        *family.reported([goes], words),
        "It cannot be undone, and no copy is made.",
    ]


def copies_that_hold(found: Kept) -> list[str]:
    """What a person looks at before copies are deleted: a copy is of the whole book."""
    others = in_words([*map(clean, found.siblings)])
    too = f"They hold {others} too: without them only the book does. A new copy: review backup"
    return [
        "Copies of the book hold the name too:",
        *(f"  {path}" for path in found.copies),
        *([too] if others else []),
    ]


def forgotten(found: Forgotten) -> list[str]:
    name = clean(found.name)
    deleted = [f"Deleted with it: {plural(len(found.deleted), 'copy')} of the book."] if found.deleted else []
    others = f" (and {in_words([*map(clean, found.siblings)])})" if found.siblings else ""
    left = (
        [f"Copies that still hold {name}{others}; delete them when you no longer need them:"]
        if found.copies
        else []
    )
    return [
        f"{name} is no longer in the book.",
        *deleted,
        *left,
        *(f"  {path}" for path in found.copies),
        *other_books(found),
        f"Exports, pages and sheets that you made of {name} are files of your own: delete them yourself.",
    ]


def other_books(found: Forgotten) -> list[str]:
    """They are never deleted from here: one may be the book of another home, with days of its own."""
    if not found.other_books:
        return []
    name = clean(found.name)
    return [
        f"Other record books beside this one hold {name} too. Forget {name} in each, or delete it:",
        *(f"  {path}" for path in found.other_books),
    ]
