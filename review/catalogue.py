"""The skill sets that can be given: the shipped ones by name, and a parent's own files."""

import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple, cast

from review import config, files
from review.core import card_sets, skills, written_cards
from review.core.model import Aim, Chosen, Mistake, SkillSet, Traits
from review.core.text import clean, in_words, meant, nearest
from review.core.written_cards import TraitsOfSets, Written
from review.errors import Mendable, SetMistakes, UnknownName

if TYPE_CHECKING:
    from review import pair_files
    from review.core.kind_guide import Guide

MOST_BYTES = 100_000  # of a shipped set; the largest has 4,000, and less room is made ready sooner
CARDS = "cards.jsonl"  # beside the shipped sets: their cards, as they were written down beforehand
MOST_CARDS_BYTES = 1_000_000  # of that file; ours has under 500,000
WIDEST_PATH = 150  # characters of a key path; our judgement: a key of one's own may have any number
LISTS = (".csv", ".tsv")  # endings that no set has; a .txt may be either
NAMED = 12  # sets that a few letters could mean (our judgement)
MOST_SHOWN = 100  # mistakes; our judgement: who has more mends these first


def names() -> list[str]:
    """The ids of the shipped sets: each is a file of that name."""
    folder = config.catalogue_folder()
    found = os.listdir(folder) if folder.is_dir() else []
    return sorted(name.removesuffix(".toml") for name in found if name.endswith(".toml"))


@lru_cache(maxsize=256)
def shipped(set_id: str) -> SkillSet:
    """One shipped set; only the sets that are asked for are parsed.

    No mistakes are looked for, as tests find none: that took more than half of the time (measured here).
    """
    found, text = written(set_id)
    if found:
        return found.found
    try:
        return card_sets.trusted_set(text)
    except (LookupError, TypeError, ValueError, AttributeError):  # someone changed it, and may mend it
        return checked(text, f"{set_id}.toml")


@lru_cache(maxsize=256)
def written(set_id: str) -> tuple[Written | None, str]:
    """A shipped set as it was written down beforehand, where that is of its text; and the text."""
    folder = config.catalogue_folder()
    path = folder / f"{set_id}.toml"
    if set_id != os.path.basename(set_id) or not os.path.isfile(path):
        raise unknown_set(set_id)
    text = files.read_text(path, MOST_BYTES)
    return written_cards.written(written_lines(folder).get(set_id, b""), text), text


@lru_cache(maxsize=2)
def written_lines(folder: Path) -> Mapping[str, bytes]:
    """By set; none where the file is not there or cannot be read, since all of it can be made anew."""
    try:
        lines = files.read_start(folder / CARDS, MOST_CARDS_BYTES + 1)
    except OSError:
        return {}
    return written_cards.by_set(lines) if len(lines) <= MOST_CARDS_BYTES else {}


def written_traits(chosen: Iterable[Chosen]) -> Mapping[str, Traits]:
    """The traits of the cards of a child's shipped sets, as far as they were written down beforehand."""
    every = (written(one.set_id)[0] for one in chosen if not one.text)
    return TraitsOfSets(one.traits for one in every if one)


def whole() -> list[SkillSet]:
    """Every shipped set, youngest first."""
    return sorted((shipped(name) for name in names()), key=lambda found: (found.ages, found.id))


def guide(kind: str, fits: Callable[[str], bool] = lambda set_id: True) -> "Guide":
    """What a kind takes, by its name or the beginning of it, with an example of a set that fits, if there is
    one. Reads every set."""
    from review.core import kind_guide
    from review.core.skills.kinds import kind_called

    known = [*skills.KINDS]
    found = meant(kind.casefold(), known, str)
    if len(found) > 1:
        raise UnknownName(f"“{kind}” could be {in_words(found, 'or')}. Write more of the name.")
    if not found:
        near = kind_called(kind, known) or nearest(kind, known)
        hint = f" Did you mean {in_words(near, 'or')}?" if near else ""
        raise UnknownName(f"There is no kind called “{kind}”.{hint} `review set kinds` shows them all.")
    return kind_guide.guide(found[0], sorted(whole(), key=lambda one: not fits(one.id)))


class Head(NamedTuple):
    """What the list of sets tells of one."""

    id: str
    title: str
    about: str
    aim: str
    ages: tuple[int, int]
    standards: tuple[str, ...]
    skills: int


def heads() -> list[Head]:
    """Every shipped set by what stands above its skills, youngest first: no kind is imported for it."""
    return sorted(map(head, names()), key=lambda found: (found.ages, found.id))


def head(set_id: str) -> Head:
    from review.core.toml_text import parsed

    text = files.read_text(config.catalogue_folder() / f"{set_id}.toml", MOST_BYTES)
    above, *below = text.split("\n[[skill]]")
    try:
        return _head(cast(dict[str, Any], parsed(above))["set"], len(below))
    except (LookupError, TypeError, ValueError):  # someone changed it, and may mend it
        return head_of(checked(text, f"{set_id}.toml"))


def head_of(found: SkillSet) -> Head:
    told = (found.id, found.title, found.about, found.aim, found.ages, found.standards)
    return Head(*told, len(found.skills))


def _head(table: dict[str, Any], skills: int) -> Head:
    low, high = table["ages"]
    standards = tuple(table.get("standards", ()))
    return Head(
        table["id"], table["title"], table.get("about", ""), table["aim"], (low, high), standards, skills
    )


def skill_ids() -> frozenset[str]:
    """Of all shipped sets, which are read for it: too slow for every day."""
    return frozenset(skill.id for found in whole() for skill in found.skills)


def set_with(name: str) -> str:
    """The shipped set of that name, or with a skill of that name; "" where there is none. Reads every set."""
    holding = (found.id for found in whole() if name in {found.id, *(skill.id for skill in found.skills)})
    return name if name in names() else next(holding, "")


def is_file(name: str) -> bool:
    """Whether a parent's own file is meant: it ends in .toml, or it is there and no set is called so."""
    return name.endswith(".toml") or (os.path.isfile(name) and name not in names())


def named(name: str, others: Iterable[str] = ()) -> str:
    """The whole name of a shipped set, or of one of the others: by its beginning, without case."""
    known = [*names(), *others]
    wanted = name.casefold()
    begin = [wanted] if wanted in known else [other for other in known if other.startswith(wanted)]
    if len(begin) == 1:
        return begin[0]
    if begin:
        more = len(begin) - NAMED
        some = ", ".join([*begin[:NAMED], *([f"or one of {more} more"] if more > 0 else [])])
        raise UnknownName(f"“{name}” could be {some}. Write more of the name.")
    raise unknown_set(name, known)


def unknown_set(name: str, known: Iterable[str] | None = None) -> UnknownName:
    near = nearest(name, names() if known is None else known)
    hint = f" Did you mean {in_words(near, 'or')}?" if near else ""
    return UnknownName(
        f"There is no skill set called “{name}”.{hint} `review set list --all` shows them all."
    )


def own(path: Path) -> tuple[str, SkillSet]:
    """A parent's own file: its text with lists from beside it, as it goes into the book; and the set."""
    from review import pair_files

    whole = pair_files.whole(_text(path), path)
    return whole.text, sound(*read(whole, path))


def check(path: Path) -> tuple[SkillSet | None, tuple[Mistake, ...]]:
    from review import pair_files

    return read(pair_files.whole(_text(path), path), path)


def _text(path: Path) -> str:
    """The text of a set's file. A list of pairs is refused as a list, or all that would be said of it is that
    its first line is no TOML."""
    text = files.read_text(path)
    if path.suffix.casefold() in LISTS:
        name = clean(path.name)
        raise Mendable(
            f"{name} is a list, not a skill set. Begin a set beside it with: review set new --kind pairs. "
            f'Then write file = "{name}" in it where its pairs are.'
        )
    return text


def read(whole: "pair_files.Whole", path: Path) -> tuple[SkillSet | None, tuple[Mistake, ...]]:
    """The set of a parent's file, None where it has mistakes; and all of them, those of the lists beside it
    with the list's own lines."""
    from review import pair_files

    known = skill_ids() if "after" in whole.text else None
    found, mistakes = card_sets.read_set(whole.text, path.name, known)
    placed = [pair_files.placed(mistake, whole.rows) for mistake in mistakes]
    together = (*whole.mistakes, *placed, *_taken(found, path))
    return (None if together else found), together


def _taken(found: SkillSet | None, path: Path) -> Iterator[Mistake]:
    """The name of a shipped set belongs to the file that is shipped, and to no other."""
    if found and found.id in names() and path.resolve().parent != config.catalogue_folder().resolve():
        wrong = f"the catalogue has a set called {found.id} already."
        yield Mistake(path.name, 0, "set.id", wrong, "Give yours another `id`.")


def checked(text: str, file: str) -> SkillSet:
    return sound(*card_sets.read_set(text, file))


def sound(found: SkillSet | None, mistakes: Iterable[Mistake]) -> SkillSet:
    if found is None:
        raise SetMistakes("\n".join(mistake_lines([*mistakes])))
    return found


def mistake_lines(mistakes: Sequence[Mistake]) -> list[str]:
    """The first mistakes, a line each, and how many more there are."""
    more = len(mistakes) - MOST_SHOWN
    return [*map(mistake_line, mistakes[:MOST_SHOWN]), *([f"And {more:,} more."] if more > 0 else [])]


def mistake_line(mistake: Mistake) -> str:
    """`times.toml:12 skill[2].tables: the list is empty. Write at least one table, like [2, 5]`"""
    file = clean(mistake.file)
    where = f"{file}:{mistake.line}" if mistake.line else file
    path = f" {clean(mistake.path[:WIDEST_PATH])}" if mistake.path else ""
    return f"{where}{path}: {mistake.wrong} {mistake.instead}".rstrip()


def chosen_set(chosen: Chosen) -> SkillSet:
    """A set a child has: its own text where the book holds one, else the shipped one."""
    return checked(chosen.text, f"{chosen.set_id}.toml") if chosen.text else shipped(chosen.set_id)


def chosen_sets(chosen: Iterable[Chosen]) -> list[SkillSet]:
    """A child's sets in the order they were given, with the aim the family chose."""
    return [with_aim(chosen_set(one), one.aim) for one in chosen]


def with_aim(found: SkillSet, aim: str) -> SkillSet:
    return card_sets.with_aim(found, cast(Aim, aim)) if aim else found
