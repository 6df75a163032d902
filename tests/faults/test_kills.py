"""Killed at any moment: what was acknowledged is stored, and the next start needs no help.

The whole of it, 10,000 kills and every call of every scene: python -m tests.faults.kills
"""

import os
from pathlib import Path

import pytest

from tests.faults import kills, power
from tests.faults.playbook import SCENES

KILLS = 100
STEP = 13  # every 13th call of a scene is one to be killed at; a scene makes 8 to 500
needs_compiler = pytest.mark.skipif(
    (power.COMPILER is None or os.uname().sysname != "Linux") and not os.environ.get("CI"),
    reason="needs a C compiler on Linux",
)


def test_every_acknowledged_answer_survives_a_kill() -> None:
    found = kills.at_random(KILLS)
    assert found.broken == ()
    assert found.told > KILLS, "the kills came before anything was written"


def test_a_promise_given_too_early_is_found() -> None:
    assert any(what.startswith("lost") for what in kills.at_random(40, early=True).broken)


@pytest.fixture(scope="module")
def watcher(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return power.build(tmp_path_factory.mktemp("watcher"))


@needs_compiler
def test_after_a_kill_at_any_call_the_promises_hold(watcher: Path) -> None:
    found = kills.at_every_call(SCENES, watcher, STEP)
    assert {name: one.broken for name, one in found.items() if one.broken} == {}
    assert found.keys() == SCENES.keys()
    assert all(one.kills > 1 for one in found.values())


@needs_compiler
def test_a_newer_schema_killed_at_every_call_is_there_after_the_next_start(watcher: Path) -> None:
    found = kills.at_every_call(["a newer schema"], watcher)["a newer schema"]
    assert found.broken == ()
    assert found.kills > 50


@needs_compiler
def test_a_kill_at_a_call_finds_a_promise_given_too_early(watcher: Path) -> None:
    assert kills.at_every_call(["promised early"], watcher, 50)["promised early"].broken
