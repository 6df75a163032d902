"""README and --help are under test: every command is documented, every example runs, every screen is real."""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from review.cli.group import COMMANDS, root
from tests import screens
from tests.conftest import user_in

TOP = Path(__file__).parent.parent
README = (TOP / "README.md").read_text(encoding="utf-8")
CONSOLE = re.compile(r"```console\n(.*?)```", re.DOTALL)
PROGRAM = Path(sys.executable).with_name("review")  # as it was installed
OWN_SET = TOP / "tests" / "data" / "our-sums.toml"


def run(command: str, folder: Path, typed: str = "") -> subprocess.CompletedProcess[str]:
    """A command line as a reader would type it, on a book in that folder."""
    environment = {
        **os.environ,
        "REVIEW_BOOK": "family.book",
        "PYTHONPATH": str(TOP),
        "COLUMNS": "80",
        "TMPDIR": str(folder),
    }
    line = re.sub(r"(^|\| )review\b", rf"\1{PROGRAM}", command)
    return subprocess.run(
        ["bash", "-c", line], cwd=folder, env=environment, input=typed, capture_output=True, text=True
    )


def shown(block: str) -> Iterator[tuple[str, list[str]]]:
    """(command, lines that follow it) of a console block."""
    for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
        command, *output = part.rstrip().splitlines()
        yield command, [line.rstrip() for line in output]


def test_the_readme_screens_are_what_one_sees(tmp_path: Path) -> None:
    shutil.copy(OWN_SET, tmp_path)
    blocks = CONSOLE.findall(README)
    assert blocks
    for command, expected in (pair for block in blocks for pair in shown(block)):
        done = run(command, tmp_path)
        seen = [line.rstrip() for line in (done.stdout + done.stderr).rstrip().splitlines()]
        assert seen == expected, f"$ {command}\n" + "\n".join(seen)
    for name in screens.SCREENS:  # the demo was played in that folder
        file = screens.PLACE / f"{name}.svg"
        assert f"(docs/{file.name})" in README
        assert file.read_text(encoding="utf-8") == screens.drawn(name, tmp_path), file.name


# What an example needs to be there, and what is typed when it asks
BEFORE: dict[tuple[str, ...], tuple[str, ...]] = {
    ("import",): ("review export family.jsonl",),
    ("merge",): ("review backup laptop.book",),
    ("restore",): ("review backup copy.book",),
    ("enter",): ("review sheet Mira --week --out week.html --on 2026-01-05",),
}
TYPED: dict[tuple[str, ...], str] = {
    ("child", "forget"): "Mira\n",
    ("enter",): "all\n",
    ("set", "pick"): "\n",
}


def leaves() -> list[tuple[str, ...]]:
    """Every command, and every command of a group."""
    import click

    found: list[tuple[str, ...]] = []
    context = click.Context(root)
    for name in COMMANDS:
        command = root.get_command(context, name)
        inner = list(getattr(command, "commands", {}))
        found += [(name, *([other] if other else [])) for other in inner or [""]]
    return found


@pytest.mark.parametrize("command", leaves(), ids=" ".join)
def test_every_command_is_in_the_readme(command: tuple[str, ...]) -> None:
    assert f"review {' '.join(command)}" in README


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder in which Mira has her sets, made once: each example runs in a copy of it."""
    folder = tmp_path_factory.mktemp("begun")
    shutil.copy(OWN_SET, folder)
    with pytest.MonkeyPatch.context() as patch:
        for name, place in user_in(folder).items():
            patch.setenv(name, place)
        for line in (
            "review child add Mira --age 7 --on 2026-01-05",
            "review set add times-2-5-10 Mira --on 2026-01-05 --taught",
            "review set add addition-facts-10 Mira --on 2026-01-05 --taught",
            "review set add roman-early Mira --on 2026-01-05",
        ):
            done = run(line, folder)
            assert done.returncode == 0, done
    return folder


@pytest.mark.parametrize("command", [(), ("set",), ("child",), *leaves()], ids=" ".join)
def test_every_help_has_an_example_and_each_one_runs(
    command: tuple[str, ...], begun: Path, tmp_path: Path
) -> None:
    shutil.copytree(begun, tmp_path, dirs_exist_ok=True)
    number = ""  # of a sheet, where one was made
    for line in BEFORE.get(command, ()):
        made = re.match(r"Sheet (\d+)", run(line, tmp_path).stdout)
        number = made[1] if made else number
    run("review warmup Mira --on 2026-01-05", tmp_path, typed="99\n\n2\n")
    told = run(f"review {' '.join(command)} --help", tmp_path)
    assert told.returncode == 0
    assert max(map(len, told.stdout.splitlines())) <= 80
    examples = [line.strip() for line in told.stdout.splitlines() if line.strip().startswith("review ")]
    assert examples or not command, told.stdout
    for example in examples:
        done = run(dated(example.replace("SHEET", number)), tmp_path, TYPED.get(command, ""))
        assert done.returncode == 0, f"{example}\n{done.stdout}{done.stderr}"


def dated(example: str) -> str:
    """On the day after the book's last entry: the examples stay true whatever today is."""
    reads = "sheet|enter|teach|brief|overdue|stuck|progress|pacing|log"
    dated = f"warmup|extra|undo|taught|known|focus|away|placement|fit|{reads}"
    takes_day = re.search(
        rf"review (?:{dated}|set add|set drop|set pick|child edit|set (?:years|money) \w+|words --\w+)\b",
        example,
    )
    return f"{example} --on 2026-01-06" if takes_day else example


def test_help_imports_nothing_but_click(tmp_path: Path) -> None:
    code = "import sys; from review.cli import run; run(['--help']); print(*sys.modules, file=sys.stderr)"
    environment = {**os.environ, "PYTHONPATH": str(TOP)}
    done = subprocess.run([sys.executable, "-c", code], env=environment, capture_output=True, text=True)
    loaded = {name.split(".")[0] for name in done.stderr.split()}
    assert not loaded & {"rich", "fsrs", "sqlite_utils", "sqlite3", "tomllib", "platformdirs"}


def test_the_program_is_printed_as_it_was_invoked(tmp_path: Path) -> None:
    assert run("review --help", tmp_path).stdout.startswith("Usage: review ")
    module = [sys.executable, "-m", "review"]
    environment = {**os.environ, "REVIEW_BOOK": str(tmp_path / "b")}
    for words, told in (
        (["--help"], "Usage: python -m review "),
        ([], "Begin: python -m review child add"),
        (["known"], "See: python -m review known --help"),
    ):
        done = subprocess.run([*module, *words], env=environment, capture_output=True, text=True)
        assert told in done.stdout + done.stderr


def test_no_word_of_the_memory_library_reaches_a_screen(tmp_path: Path) -> None:
    """The names of its ratings are read from the library itself, and found in no help text and no option."""
    from fsrs import Rating

    text = " ".join(run(f"review {' '.join(command)} --help", tmp_path).stdout for command in [(), *leaves()])
    for rating in Rating:
        assert not re.search(rf"\b{rating.name}\b", text), rating.name
        assert not re.search(rf"--\S*{rating.name.lower()}", text), rating.name


def test_what_is_printed_knows_every_command() -> None:
    """Commands in sentences are printed as this user can type them; the room that does it has a list."""
    from review.render import invoked

    assert set(invoked.COMMANDS) == set(COMMANDS) - {"more"}


def test_the_short_help_and_more_list_every_command(tmp_path: Path) -> None:
    told = run("review --help", tmp_path).stdout + run("review more", tmp_path).stdout
    assert not [name for name in COMMANDS if not re.search(rf"^  {name} ", told, re.MULTILINE)]


@pytest.mark.parametrize("group", ["", "set", "child"])
def test_no_line_of_a_list_of_commands_is_cut_short(group: str, tmp_path: Path) -> None:
    listed = run(f"review {group} --help", tmp_path).stdout.partition("\nCommands:\n")[2].splitlines()
    assert listed
    assert not [line for line in listed if line.endswith("...")]


def test_what_a_shell_is_to_be_told_stands_in_one_line(tmp_path: Path) -> None:
    """To be copied: a line that is wrapped in the middle is none that a start-up file can take."""
    told = run("review completion --help", tmp_path).stdout
    assert 'eval "$(review completion bash)"\n' in told
    assert "review completion fish | source\n" in told


def test_columns_of_a_picture_stand_one_below_the_other() -> None:
    """Browsers give `text` a rule of their own for spaces (seen in Chromium), which folds them unless a line
    itself says otherwise: then the signs of a square stand under the wrong numbers."""
    for name in screens.SCREENS:
        lines = re.findall(r"<text ([^>]*)>(.*)</text>", (screens.PLACE / f"{name}.svg").read_text("utf-8"))
        assert any("  " in line for _, line in lines)
        assert all(screens.SPACES in about for about, _ in lines)
