"""The cards of shipped sets, written down beforehand, held against what their texts and kinds make."""

import json
import shutil
from pathlib import Path

import pytest

from review import catalogue, config
from review.core import card_sets, skills, written_cards
from review.core.skills import KINDS
from tests import written_cards as writing

FILE = config.catalogue_folder() / catalogue.CARDS
LINES = {name: line.decode() for name, line in written_cards.by_set(FILE.read_bytes()).items()}


def text_of(set_id: str) -> str:
    return (config.catalogue_folder() / f"{set_id}.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize("set_id", catalogue.names())
def test_what_is_written_is_what_is_made(set_id: str) -> None:
    """Where it is not: python -m tests.written_cards"""
    text = text_of(set_id)
    assert LINES[set_id] == writing.line(text)
    written = written_cards.written(LINES[set_id], text)
    assert written
    made = card_sets.trusted_set(text)
    assert [skill._replace(keys=()) for skill in written.found.skills] == list(made.skills)
    assert written.found._replace(skills=()) == made._replace(skills=())
    for skill in written.found.skills:
        assert list(skill.keys) == list(KINDS[skill.kind].keys(skill._replace(keys=())))
    assert card_sets.cards([written.found]) == card_sets.cards([made])
    assert dict(written.traits) == {card.key: skills.traits(card.key) for card in card_sets.cards([made])}


def test_the_file_holds_every_set_and_no_other() -> None:
    assert list(LINES) == catalogue.names()


def test_a_line_is_of_one_text_however_its_lines_end() -> None:
    text = text_of("doubles-halves-20")
    line = LINES["doubles-halves-20"]
    assert written_cards.written(line, text.replace("\n", "\r\n"))
    assert written_cards.written(line, text + "\n") is None
    assert written_cards.written(LINES["dots-to-10"], text) is None


@pytest.mark.parametrize("line", ["", "{}", "[]", "[1", '["x"]', "null", "1"])
def test_no_line_of_ours(line: str) -> None:
    assert written_cards.written(line, "") is None


def test_half_a_line_is_none_either() -> None:
    text, line = text_of("dots-to-10"), LINES["dots-to-10"]
    assert written_cards.written(line[: len(line) // 2], text) is None
    told = json.loads(line)
    assert written_cards.written(json.dumps([*told[:7], 5, told[8]]), text) is None


@pytest.fixture
def elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A catalogue of its own with one set, changed by hand: its tables end at 10 + 10."""
    monkeypatch.setattr(config, "catalogue_folder", lambda: tmp_path)
    changed = text_of_original("doubles-halves-20").replace("[1, 10]", "[1, 3]")
    (tmp_path / "doubles-halves-20.toml").write_text(changed, encoding="utf-8")
    for cached in (catalogue.shipped, catalogue.written):
        monkeypatch.setattr(catalogue, cached.__name__, cached.__wrapped__)
    return tmp_path


def text_of_original(set_id: str) -> str:
    return (FILE.parent / f"{set_id}.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize("set_id", catalogue.names())
def test_a_parent_can_tell_the_cards_of_a_set_by_their_titles(set_id: str) -> None:
    """Two lines of a report that read alike are one to a parent: 10p coins and 20p coins counted."""
    found, _ = catalogue.written(set_id)
    assert found
    titles = [traits.title for traits in found.traits.values()]
    assert sorted(titles) == sorted(set(titles))


@pytest.mark.parametrize("beside", [True, False], ids=["an old file of cards", "none"])
def test_a_set_that_somebody_changed_is_made_from_what_it_says(elsewhere: Path, beside: bool) -> None:
    if beside:
        shutil.copy(FILE, elsewhere / FILE.name)
    found = catalogue.shipped("doubles-halves-20")
    keys = [card.key for card in card_sets.cards([found])]
    assert "double:3" in keys
    assert "double:4" not in keys


def test_the_cards_of_several_sets_are_known_together_and_made_once() -> None:
    every = [catalogue.written(name)[0] for name in ("doubles-halves-20", "dots-to-10")]
    known = written_cards.TraitsOfSets(one.traits for one in every if one)
    assert dict(known) == {key: skills.traits(key) for key in known}
    assert len(known) == sum(len(one.traits) for one in every if one)
    assert all(known.get(key) is known[key] for key in known)
    assert known.get("product:6x7") is None
