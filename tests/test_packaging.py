"""What is shipped: the same bytes each time, whole, and playable outside the clone with no network."""

import hashlib
import os
import re
import subprocess
import sys
import sysconfig
import tarfile
import zipfile
from importlib.metadata import requires
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from review import __version__, catalogue, config

TOP = Path(__file__).parent.parent


def built(source: Path, target: str, place: Path) -> Path:
    build = [sys.executable, "-m", "hatchling", "build", "-t", target, "-d", str(place)]
    subprocess.run(build, cwd=source, check=True, capture_output=True)
    (found,) = place.glob("*.whl" if target == "wheel" else "*.tar.gz")
    return found


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built(TOP, "wheel", tmp_path_factory.mktemp("wheel"))


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The source distribution, unpacked: another place, other times, no clone."""
    place = tmp_path_factory.mktemp("source")
    with tarfile.open(built(TOP, "sdist", place)) as packed:
        packed.extractall(place, filter="data")
    return place / f"review-{__version__}"


def test_a_clone_finds_the_sets_beside_the_package() -> None:
    assert config.catalogue_folder() == TOP / "card_sets"
    assert len(catalogue.names()) >= 30


def test_the_wheel_is_the_same_from_the_clone_and_from_the_source_distribution(
    wheel: Path, unpacked: Path, tmp_path: Path
) -> None:
    prints = {
        hashlib.sha256(one.read_bytes()).hexdigest()
        for one in (wheel, built(TOP, "wheel", tmp_path / "a"), built(unpacked, "wheel", tmp_path / "b"))
    }
    assert len(prints) == 1


def test_the_source_distribution_holds_what_its_tests_ask_for(unpacked: Path) -> None:
    sets = {path.name for path in (TOP / "card_sets").glob("*.toml")}
    assert {path.name for path in (unpacked / "card_sets").glob("*.toml")} == sets
    for name in ("LICENSE", "SECURITY.md", "README.md", "locks/test.txt", "docs/licences.md"):
        assert (unpacked / name).read_bytes() == (TOP / name).read_bytes(), name


def test_the_wheel_carries_its_sets_and_its_licence(wheel: Path) -> None:
    names = zipfile.ZipFile(wheel).namelist()
    inside = {name.rpartition("/")[2] for name in names if name.startswith("review/card_sets/")}
    assert {name.removesuffix(".toml") for name in inside} >= set(catalogue.names())
    assert [name for name in names if name.endswith(".dist-info/licenses/LICENSE")]
    assert not [name for name in names if name.startswith(("tests/", "card_sets/"))]


def test_an_installed_wheel_plays_a_warm_up_without_a_network(wheel: Path, tmp_path: Path) -> None:
    """In an environment of its own that sees the libraries of this one, but not the clone."""
    python = environment(tmp_path / "venv")
    pip = [sys.executable, "-m", "pip", "--python", str(python), "--disable-pip-version-check", "install"]
    subprocess.run([*pip, "-q", "--no-index", "--no-deps", str(wheel)], check=True, cwd=tmp_path)
    place = said(python, tmp_path, "-c", "import review; print(review.__file__)")
    assert Path(place.strip()).is_relative_to(tmp_path / "venv")

    def review(*words: str, typed: str = "") -> str:
        return said(python, tmp_path, "-m", "review", *words, "--on", "2026-11-23", typed=typed)

    review("child", "add", "Fenn", "--age", "10")
    review("set", "add", "times-2-5-10", "Fenn", "--taught")
    heard = review("warmup", "Fenn", "--jsonl", typed='{"pass":true}\n{"stop":true}\n').splitlines()
    assert '"type":"problem"' in heard[0].replace(" ", "")
    assert '"type":"summary"' in heard[-1].replace(" ", "")
    assert "Answers: 1." in said(python, tmp_path, "-m", "review", "verify")


def environment(place: Path) -> Path:
    """A fresh environment; a folder that a .pth names is searched, and its own .pth files are not read."""
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", str(place)], check=True)
    python = place / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    site = said(python, place, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))").strip()
    (Path(site) / "libraries.pth").write_text(sysconfig.get_path("purelib") + "\n")
    return python


def said(python: Path, folder: Path, *words: str, typed: str = "") -> str:
    book = {**os.environ, "REVIEW_BOOK": str(folder / "family.book")}
    book.pop("PYTHONPATH", None)
    done = subprocess.run(
        [str(python), *words], cwd=folder, env=book, input=typed, capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


# --- the locks --------------------------------------------------------------------------------------------

LOCKED = re.compile(r"^([A-Za-z0-9._-]+)==[^ ;\\]+ *(?:; *(.*?))? *\\$", re.MULTILINE)
SYSTEMS = {
    "linux": {"sys_platform": "linux", "platform_system": "Linux", "os_name": "posix"},
    "macos": {"sys_platform": "darwin", "platform_system": "Darwin", "os_name": "posix"},
    "windows": {"sys_platform": "win32", "platform_system": "Windows", "os_name": "nt"},
}
PYTHONS = ("3.11", "3.12", "3.13", "3.14")


def pinned(lock: str, system: dict[str, str]) -> set[str]:
    """What a lock installs on such a computer."""
    rows = LOCKED.findall((TOP / "locks" / lock).read_text(encoding="utf-8"))
    return {
        str(canonicalize_name(name))
        for name, marker in rows
        if not marker or Requirement(f"x; {marker}").marker.evaluate(system)  # type: ignore[union-attr]
    }


def asked_for(package: str, system: dict[str, str]) -> set[str]:
    """What a package needs besides itself there, as it declares."""
    needs = map(Requirement, requires(package) or ())
    return {
        str(canonicalize_name(need.name))
        for need in needs
        if not need.marker or need.marker.evaluate({**system, "extra": ""})
    }


@pytest.mark.parametrize("python", PYTHONS)
@pytest.mark.parametrize("name", SYSTEMS)
def test_a_family_can_install_all_that_is_asked_for(name: str, python: str) -> None:
    """With `--require-hashes` one package that no line names stops the installation."""
    system = {**SYSTEMS[name], "python_version": python, "python_full_version": f"{python}.1"}
    found = pinned("run.txt", system)
    there = {package for package in found if package != "tzdata"}  # which needs nothing
    wanted = set().union(*(asked_for(package, system) for package in ("review", *there)))
    assert wanted <= found
    assert found - wanted <= {"pip", "tzdata"}
