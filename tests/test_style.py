"""Format, lint, types and the lengths of functions: part of the one test line."""

import ast
import statistics
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).parent.parent
CHECKS = {
    "format": ["-m", "ruff", "format", "--check", "--quiet", "review", "tests"],
    "lint": ["-m", "ruff", "check", "--quiet", "review", "tests"],
    "types": ["-m", "mypy", "--no-error-summary"],
}


@pytest.mark.parametrize("check", CHECKS)
def test_the_tree_is_in_good_order(check: str) -> None:
    done = subprocess.run([sys.executable, *CHECKS[check]], cwd=TOP, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


BELONGS = {"DEVELOPERS.md", "LICENSE", "README.md", "SECURITY.md", "pyproject.toml"}


def test_nothing_is_left_at_the_top() -> None:
    """A command that is tried in this folder writes its sheet here."""
    found = {path.name for path in TOP.iterdir() if path.is_file() and not path.name.startswith(".")}
    assert found == BELONGS


ELSEWHERE = (("win32", "3.11"), ("win32", "3.14"), ("darwin", "3.14"))
"""Systems and versions of Python for which the types are read besides this one."""
UNLIKE = {
    "ctypes", "fcntl", "msvcrt", "multiprocessing", "os", "select", "shutil", "signal", "stat", "subprocess",
    "sys", "tempfile", "termios", "threading", "time",
}  # fmt: skip
"""Rooms of the standard library that are not the same on every system."""


def worldly() -> list[str]:
    """The rooms that use any of them; the types of all others say the same everywhere."""
    found = []
    for path in sorted((TOP / "review").rglob("*.py")):
        nodes = list(ast.walk(ast.parse(path.read_text(encoding="utf-8"))))
        names = {alias.name for node in nodes if isinstance(node, ast.Import) for alias in node.names}
        names |= {node.module or "" for node in nodes if isinstance(node, ast.ImportFrom)}
        if {name.split(".")[0] for name in names} & UNLIKE:
            found.append(str(path.relative_to(TOP)))
    return found


@pytest.mark.parametrize(("system", "python"), ELSEWHERE)
def test_the_types_are_right_on_other_systems(system: str, python: str) -> None:
    where = ["--platform", system, "--python-version", python, "--cache-dir", f".mypy_cache/{system}"]
    check = ["-m", "mypy", "--no-error-summary", "--follow-imports=silent", *where, *worldly()]
    done = subprocess.run([sys.executable, *check], cwd=TOP, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


def lengths() -> dict[str, int]:
    """Lines of each function's body without its docstring."""
    found = {}
    for path in sorted((TOP / "review").rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)):
                body = node.body[1:] if ast.get_docstring(node) else node.body
                last = node.end_lineno or node.lineno
                found[f"{path.relative_to(TOP)}:{node.lineno} {node.name}"] = (
                    last - body[0].lineno + 1 if body else 1
                )
    return found


def test_functions_read_like_sentences() -> None:
    found = lengths()
    long = {name: lines for name, lines in found.items() if lines > 60}
    assert not long, long
    assert statistics.median(found.values()) < 10
