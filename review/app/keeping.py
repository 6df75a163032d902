"""What is kept of a child, and forgetting one."""

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from review import gather, writes
from review.book import backups
from review.core import answer_rows
from review.core.answer_rows import AnswerRow
from review.core.model import EVENT_KINDS, Child
from review.errors import Mendable
from review.gather import Outside


class Kept(NamedTuple):
    """Everything the book keeps of a child, in counts and examples."""

    child: Child
    sets: tuple[str, ...]  # titles
    skills: tuple[str, ...]  # titles of what was taught
    answers: int
    first_day: int  # of the first answer; 0: none
    last_day: int
    last: AnswerRow | None  # the last answer, as it is kept
    cards: int  # of which something is remembered
    others: int  # entries that are no answers
    book: Path
    copies: tuple[Path, ...]  # of the book, that hold the child too
    siblings: tuple[str, ...] = ()  # the other children of the book, whom those hold as well
    other_books: tuple[Path, ...] = ()  # of the same folder, that hold the child


class Forgotten(NamedTuple):
    name: str
    copies: tuple[Path, ...]  # that still hold the child
    deleted: tuple[Path, ...]
    siblings: tuple[str, ...] = ()
    other_books: tuple[Path, ...] = ()  # of the same folder, that still hold the child


def kept(outside: Outside, name: str | None) -> Kept:
    with gather.reading(outside) as book:
        known = gather.family_of(book)
        child = gather.child_named(known, name)
        others = sum(1 for _ in book.events(child.key, set(EVENT_KINDS) - {"answer"}))
        last = book.answers(child.key, last=1)
        sets = gather.sets_of(child)
        titles = {skill.id: skill.title for found in sets for skill in found.skills}
        rows = list(answer_rows.table(child.name, last))
        return Kept(
            gather.aged(outside, child),
            tuple(found.title for found in sets),
            tuple(titles[skill] for skill in child.taught if skill in titles),
            book.answered(child.key),
            book.first_answer_day(child.key),
            last[-1].day if last else 0,
            rows[-1] if rows else None,
            len(gather.memory_of(book, child.key).cards),
            others,
            book.path,
            tuple(backups.holding(book, child.key, child.name)),
            tuple(one.name for one in known if one.key != child.key),
            tuple(backups.others_holding(book, child.key, child.name)),
        )


def forget(
    outside: Outside,
    name: str,
    confirm: Callable[[Kept], str],
    delete_copies: Callable[[Kept], bool],
) -> Forgotten:
    """Take everything of a child out of the book, once the name was typed a second time. No copy is made
    before; those that stand are deleted only where somebody says so."""
    found = kept(outside, whole_name(outside, name))
    typed = confirm(found)
    if typed.casefold().strip() != found.child.name.casefold():
        raise Mendable(f"Nothing was forgotten: that is not the name, which is {found.child.name}.")
    with writes.writing(outside) as book:
        book.forget(found.child.key)
    offered = found.copies if found.copies and delete_copies(found) else ()
    deleted = tuple(copy for copy in offered if delete(copy))
    left = tuple(copy for copy in found.copies if copy not in deleted)
    return Forgotten(found.child.name, left, deleted, found.siblings, found.other_books)


def delete(copy: Path) -> bool:
    """Whether the copy could be deleted: on Windows it cannot while another program has it open."""
    try:
        copy.unlink(missing_ok=True)
    except OSError:
        return False
    return True


def whole_name(outside: Outside, name: str) -> str:
    with gather.reading(outside) as book:
        return gather.child_by_full_name(gather.family_of(book), name).name
