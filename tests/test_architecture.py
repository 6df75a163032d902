"""The import table in DEVELOPERS.md is the architecture: this executes it."""

import ast
import re
import sys
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

import pytest

STANDARD = sys.stdlib_module_names | {"_sha256", "_sha2"}  # the one up to Python 3.11, the other since
TOP = Path(__file__).parent.parent
TABLE = re.compile(r"<!-- import table -->\n(.*?)<!-- end -->", re.DOTALL)

# What the core may use of the standard library: nothing that reads a clock, a file or a terminal.
PURE = {
    "_sha2", "_sha256", "ast", "bisect", "collections", "csv", "datetime", "decimal", "difflib", "enum",
    "fractions", "functools", "hashlib", "heapq", "io", "itertools", "json", "math", "operator", "random",
    "re", "statistics", "string", "textwrap", "tomllib", "typing", "unicodedata", "urllib",
}  # fmt: skip
IMPURE_CALLS = {"open", "print", "input", "now", "today", "utcnow", "time", "monotonic", "getenv", "seed"}
STORING = tuple(
    f"review.book.{room}"
    for room in (
        "backups",
        "connection",
        "evenings",
        "leftovers",
        "migrations",
        "mornings",
        "open_file",
        "opening",
        "proofs",
        "recording",
        "restoring",
        "rows",
        "seasons",
        "store",
        "union",
    )
)


@lru_cache
def rooms() -> list[str]:
    """Every module of the project by its dotted name."""
    paths = (path.relative_to(TOP).with_suffix("") for path in (TOP / "review").rglob("*.py"))
    return sorted(".".join(path.parts).removesuffix(".__init__") for path in paths)


def path_of(room: str) -> Path:
    base = TOP / Path(*room.split("."))
    return base / "__init__.py" if base.is_dir() else base.with_suffix(".py")


@lru_cache
def table() -> dict[str, set[str]]:
    """Room -> what it may import, as full names or patterns that end in `.*`."""
    found = TABLE.search((TOP / "DEVELOPERS.md").read_text(encoding="utf-8"))
    assert found, "DEVELOPERS.md has no import table"
    rows = [line.split("|") for line in found[1].splitlines() if line.startswith("| `")]
    return {row[1].strip(" `"): set(re.findall(r"`([^`]+)`", row[3])) for row in rows}


def row_for(room: str, rows: dict[str, set[str]]) -> str | None:
    """The row that speaks of a room: its own, else the nearest pattern."""
    if room in rows:
        return room
    patterns = [name for name in rows if name.endswith(".*") and room.startswith(name[:-1])]
    return max(patterns, key=len, default=None)


def imports(room: str) -> Iterator[str]:
    """Every module that room imports, wherever the import stands."""
    for node in ast.walk(ast.parse(path_of(room).read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{room}: relative import"
            yield from (imported(node.module or "", alias.name) for alias in node.names)


def imported(module: str, name: str) -> str:
    """`from review.core import plan` imports the module plan; `from review.core.plan import x` too."""
    return f"{module}.{name}" if f"{module}.{name}" in rooms() else module


def allowed(target: str, names: set[str]) -> bool:
    short = target.removeprefix("review.")
    return any(
        short == name or (name.endswith(".*") and (short.startswith(name[:-1]) or short == name[:-2]))
        for name in names
    )


@pytest.mark.parametrize("room", rooms())
def test_a_room_imports_only_what_its_row_says(room: str) -> None:
    rows = table()
    row = row_for(room, rows)
    assert row is not None, f"{room} has no row in DEVELOPERS.md"
    wanted = {name for name in imports(room) if name.split(".")[0] not in STANDARD}
    strangers = sorted(name for name in wanted if not allowed(name, rows[row]))
    assert not strangers, f"{room} imports {strangers}; its row in DEVELOPERS.md does not say so"


def test_every_row_is_a_room_that_needs_what_it_names() -> None:
    known = rooms()
    for row, names in table().items():
        speaks_of = [room for room in known if row_for(room, table()) == row]
        assert speaks_of, f"{row} in DEVELOPERS.md is no room"
        used = {name for room in speaks_of for name in imports(room)}
        idle = sorted(name for name in names if not any(allowed(other, {name}) for other in used))
        assert not idle, f"{row}: DEVELOPERS.md allows {idle}, which nothing there uses"


@pytest.mark.parametrize("room", [room for room in rooms() if room.startswith("review.core")])
def test_the_core_is_pure(room: str) -> None:
    standard = {name.split(".")[0] for name in imports(room)} & set(sys.stdlib_module_names)
    allowed_here = PURE | ({"importlib"} if room == "review.core.skills" else set())  # kinds, when asked for
    assert standard <= allowed_here, f"{room} imports {sorted(standard - allowed_here)}"
    tree = ast.parse(path_of(room).read_text(encoding="utf-8"))
    calls = [node.func for node in ast.walk(tree) if isinstance(node, ast.Call)]
    names = {call.id for call in calls if isinstance(call, ast.Name)}
    names |= {call.attr for call in calls if isinstance(call, ast.Attribute)}
    assert not names & IMPURE_CALLS, f"{room} calls {sorted(names & IMPURE_CALLS)}"


@pytest.mark.parametrize(
    ("library", "may"),
    [
        ("click", ("review.cli",)),
        ("rich", ("review.render", "review.terminal")),
        ("sqlite_utils", ("review.book.migrations",)),
        ("sqlite3", STORING),
    ],
)
def test_each_library_has_its_room(library: str, may: tuple[str, ...]) -> None:
    users = [room for room in rooms() if library in {name.split(".")[0] for name in imports(room)}]
    assert users, f"nobody uses {library}"
    assert all(user.startswith(may) for user in users), users


def test_the_store_never_imports_the_room_that_remembers() -> None:
    assert "review.core.memory" not in set(imports("review.book.store"))
