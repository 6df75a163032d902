"""docs/licences.md names every package of the locks, with the licence the package itself declares."""

import re
from importlib.metadata import PackageNotFoundError, version

import pytest

from tests import licences

ROW = re.compile(r"^\| ([a-z0-9-]+) \| ([\d., ]+) \| (.+) \|$", re.MULTILINE)
ROWS = [tuple(row) for row in ROW.findall(licences.PLACE.read_text(encoding="utf-8"))]
FREE = re.compile(r"MIT|BSD|Apache|ISC|MPL|LGPL|Public Domain|PSF|CC0|Zope")
COPYLEFT = re.compile(r"GPL|MPL|Mozilla")


def test_every_locked_package_is_named_once_in_the_locked_version() -> None:
    locked = licences.locked("test.txt") | licences.locked("run.txt")
    assert sorted((name, number) for name, number, _ in ROWS) == sorted(locked.items())


@pytest.mark.parametrize(("name", "number", "told"), ROWS, ids=[row[0] for row in ROWS])
def test_the_licence_is_what_the_package_declares(name: str, number: str, told: str) -> None:
    assert FREE.search(told), f"{name} is not known to be free: {told}"
    try:
        if version(name) != number:
            return  # for another Python: only its name and its version are held
    except PackageNotFoundError:
        assert name in licences.NOT_DECLARED
    assert licences.licence(name) == told


def test_what_a_family_installs_may_go_anywhere() -> None:
    """What runs on a family's computer obliges nobody to anything but to keep the notices."""
    running = licences.locked("run.txt")
    assert len(running) > 5
    assert not [name for name, _, told in ROWS if name in running and COPYLEFT.search(told)]
