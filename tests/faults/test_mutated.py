"""Files with something amiss are taken and of use, or refused in a sentence; and each harness finds a fault.

The whole of it: python -m tests.faults.mutated_sets, python -m tests.faults.mutated_files
"""

import json
from pathlib import Path

import pytest

from review.app import unusual
from review.core import set_keys, skills
from tests.faults import mutated_files, mutated_sets, mutations

SETS = 300
FILES = 12  # of each sort
FORGED = 30


def test_a_set_is_taken_or_refused_in_a_sentence_a_mistake() -> None:
    seen = mutated_sets.played(range(SETS))
    assert seen.faults == ()
    assert {came for _, came in seen.counts} == {"taken", "refused"}
    assert len({how for how, _ in seen.counts}) == len(mutations.BYTES) + 3


def test_a_planted_fault_of_the_reader_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """The control: ranges are not looked at before they are used."""
    monkeypatch.setitem(set_keys.CHECKS, "range", (lambda value: True, lambda value, option, path: iter(())))
    assert any(mutated_sets.played([n]).faults for n in range(SETS))


@pytest.mark.parametrize("kind", skills.KINDS)
def test_every_kind_is_among_what_is_changed(kind: str, tmp_path: Path) -> None:
    text = mutated_sets.example(kind)
    assert text in mutated_sets.originals()
    (tmp_path / "one.toml").write_text(text, encoding="utf-8")
    assert mutated_sets.outcome(tmp_path / "one.toml") in ("taken", "refused")


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("mutated") / "home"
    mutated_files.prepare(folder)
    return folder


@pytest.mark.parametrize("sort", mutated_files.SORTS)
def test_what_comes_in_is_of_use_or_refused(home: Path, sort: str) -> None:
    times = FORGED if sort == "an export, forged" else FILES
    assert mutated_files.played(sort, range(times), home).faults == ()


def test_the_files_as_they_are_are_taken(home: Path, tmp_path: Path) -> None:
    """Else all of them might be refused for the same other reason; also when their hashes are made anew."""
    lines = (home / "all.jsonl").read_bytes().splitlines(keepends=True)
    again = mutated_files.ended(mutated_files.sealed([json.loads(line) for line in lines[:-1]]))
    (tmp_path / "in.jsonl").write_bytes(again)
    with mutated_files.at(tmp_path) as call:
        assert call(["import", "in.jsonl"]).code == 0
        assert mutated_files.looked_at(call) == "taken"


def test_a_planted_trust_in_hashes_is_found(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The control: what hashes prove is believed, whatever it says."""
    monkeypatch.setattr(unusual, "problem", lambda log: "")
    assert any(mutated_files.played("an export, forged", [n], home).faults for n in range(FORGED))
