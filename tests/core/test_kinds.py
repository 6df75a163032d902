"""The table of kinds is complete, and no start pays for kinds it does not use."""

import subprocess
import sys
from importlib import import_module
from pathlib import Path

from review.core import keys, skills
from review.core.skills.kinds import CALLED, kind_called

FOLDER = Path(skills.__file__).parent


def test_every_kind_is_where_the_table_says_and_none_is_left_out() -> None:
    rooms = [import_module(f"review.core.skills.{path.stem}") for path in FOLDER.glob("[a-z]*.py")]
    made = {kind.name for room in rooms for kind in getattr(room, "KINDS", ())}
    assert made == set(skills.ROOMS)
    assert [skills.KINDS[name].name for name in skills.KINDS] == list(skills.ROOMS)


def test_every_kind_has_its_grammar() -> None:
    assert set(skills.ROOMS) == set(keys.GRAMMAR) - keys.NO_KIND


def test_a_kind_imports_its_own_room_only() -> None:
    code = "import sys; from review.core import skills; skills.traits('sum:2+3'); print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = {name.removeprefix("review.core.skills.") for name in done.stdout.split()}
    assert "facts" in loaded
    assert not loaded & {"fractions", "clock", "word_problems", "templates", "written_division"}


def test_what_people_call_a_kind_leads_to_it() -> None:
    assert set(CALLED.values()) < set(skills.ROOMS)
    assert not set(CALLED) & set(skills.ROOMS)
    assert kind_called("Times  tables", skills.ROOMS) == ["product"]
    assert kind_called("times", ["mira"]) == kind_called("prodct", skills.ROOMS) == []
