"""The sets that can be given: shipped ones, a parent's own files, and what the book keeps of those."""

from pathlib import Path
from typing import NamedTuple

from review import catalogue, gather
from review.book.store import Book
from review.catalogue import Head
from review.core.amendments import amended
from review.core.model import Child, Chosen, SkillSet
from review.errors import BookError, BookMissing, Mendable, SetMistakes
from review.gather import Outside


class Wanted(NamedTuple):
    """The set that a name means."""

    found: SkillSet
    name: str  # by which it is given again: of the set, or of the file
    text: str = ""  # of a parent's own
    kept: bool = False  # that text is from the book


class Given(NamedTuple):
    """A parent's own set as it was once given."""

    set_id: str
    text: str
    child: str


def wanted(outside: Outside, name: str) -> Wanted:
    """Shipped ones come first, then the newest in the book; a file is meant by its ending or its path."""
    own = newest(outside)
    if name not in own and catalogue.is_file(name):
        return in_file(name)
    set_id = catalogue.named(name, own)
    if set_id in own:
        return as_kept(set_id, own[set_id])
    return Wanted(catalogue.shipped(set_id), set_id)


def in_file(name: str) -> Wanted:
    text, found = catalogue.own(Path(name))
    return Wanted(found, name, text)


def as_kept(set_id: str, text: str) -> Wanted:
    return Wanted(catalogue.checked(text, f"{set_id}.toml"), set_id, text, kept=True)


def of_child(book: Book, child: Child, wanted: Wanted) -> Wanted:
    """What a name means for that child: a set that comes back is the one that was there, whatever others were
    given under its name since."""
    mine = [one.text for one in given(book) if (one.child, one.set_id) == (child.key, wanted.found.id)]
    return as_kept(wanted.found.id, mine[-1]) if wanted.kept and mine else wanted


def given(book: Book) -> list[Given]:
    """Every set of a parent's own, in the order they were given. Of a forgotten child the book has no row."""
    told = amended(book.events(kinds=("set_add", "undo")))
    rows = (row for row in told if row.kind == "set_add" and row.body.get("text"))
    return [Given(str(row.body["set"]), str(row.body["text"]), row.child) for row in rows]


def as_given(chosen: Chosen) -> SkillSet | None:
    """A child's set as it is now; None where this version cannot read it."""
    try:
        return catalogue.chosen_set(chosen)
    except Mendable:
        return None


def newest(outside: Outside) -> dict[str, str]:
    """Text by name, in the order of names; none where there is no book to tell. A name that was shipped since
    means the shipped set."""
    try:
        with gather.reading(outside) as book:
            every = {one.set_id: one.text for one in given(book)}
    except (BookError, BookMissing):
        return {}
    return {name: every[name] for name in sorted(every.keys() - {*catalogue.names()})}


def heads(outside: Outside) -> list[Head]:
    """What the list tells of each; what this version cannot read is left out."""
    return [head for name, text in newest(outside).items() for head in readable(name, text)]


def readable(name: str, text: str) -> list[Head]:
    try:
        return [catalogue.head_of(catalogue.checked(text, f"{name}.toml"))]
    except SetMistakes:
        return []
