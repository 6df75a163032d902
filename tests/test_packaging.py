"""The wheel carries the catalogue inside the package; a clone has it beside the package."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

from review import catalogue, config

TOP = Path(__file__).parent.parent


def test_a_clone_finds_the_sets_beside_the_package() -> None:
    assert config.catalogue_folder() == TOP / "card_sets"
    assert len(catalogue.names()) >= 30


def test_an_installed_wheel_finds_the_same_sets(tmp_path: Path) -> None:
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(tmp_path)]
    subprocess.run(build, cwd=TOP, check=True, capture_output=True)
    (wheel,) = tmp_path.glob("*.whl")
    installed = tmp_path / "site"
    zipfile.ZipFile(wheel).extractall(installed)
    code = "from review import catalogue, config; print(config.__file__); print(*catalogue.names())"
    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(installed)},
        capture_output=True,
        text=True,
        check=True,
    )
    place, names = done.stdout.splitlines()
    assert Path(place).is_relative_to(installed)
    assert names.split() == catalogue.names()
