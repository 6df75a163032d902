"""The licences of everything the locks name, as the packages themselves declare them.

    python -m tests.licences            writes docs/licences.md anew

A package's own metadata speaks: its licence expression, else its classifiers, else the first line it gives as
a licence. What it declares nowhere, and what is only installed on other systems, stands in NOT_DECLARED here.
"""

import re
import tomllib
from importlib.metadata import PackageNotFoundError, metadata
from pathlib import Path
from typing import NamedTuple

TOP = Path(__file__).parent.parent
PLACE = TOP / "docs" / "licences.md"
PINNED = re.compile(r"^([a-z0-9-]+)==(\S+)", re.MULTILINE)
CLASSIFIER = "License :: "

NOT_DECLARED = {
    "colorama": "BSD License",  # for Windows only; from the metadata of its wheel
    "fsrs-rs-python": "BSD-3-Clause",  # from memory: its metadata names a LICENSE.txt that its wheel lacks
}

HEAD = """# Licences of what `review` stands on

`review` itself is under the MIT licence. The packages below are installed beside it, by the locks in \
`locks/`; nothing of them is copied into the project. Each licence is as the package declares it, of the \
version the lock names. The first table is all that a family needs; the rest serves an extra or the tests. \
Written by `python -m tests.licences`, and held against the locks by a test.
"""


class Package(NamedTuple):
    name: str
    version: str
    licence: str


def locked(lock: str) -> dict[str, str]:
    """Name -> version; where a lock has two for two Pythons, both."""
    found: dict[str, str] = {}
    for name, version in PINNED.findall((TOP / "locks" / lock).read_text(encoding="utf-8")):
        found[name] = f"{found[name]}, {version}" if name in found else version
    return found


def licence(name: str) -> str:
    try:
        told = metadata(name)
    except PackageNotFoundError:
        return NOT_DECLARED[name]
    classifiers = [one.split(" :: ")[-1] for one in told.get_all("Classifier", []) if CLASSIFIER in one]
    lines = [*told.get_all("License-Expression", []), *classifiers, *told.get_all("License", [])]
    return lines[0].splitlines()[0] if lines else NOT_DECLARED[name]


def of_extra(extra: str) -> set[str]:
    """The packages an extra of the program names."""
    project = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    return {re.split(r"[<>=;\[]", one)[0] for one in project["optional-dependencies"][extra]}


def parts() -> dict[str, list[Package]]:
    """Title -> its packages, each where it is first needed."""
    running, testing = locked("run.txt"), locked("test.txt")
    extras = {"To fit memory (extra `fit`)": of_extra("fit"), "To write PDF (extra `pdf`)": of_extra("pdf")}
    named = {"To run": set(running), **extras}
    named["For the tests"] = testing.keys() - set().union(*named.values())
    return {
        title: [Package(name, testing.get(name) or running[name], licence(name)) for name in sorted(names)]
        for title, names in named.items()
    }


def table(title: str, packages: list[Package]) -> str:
    rows = (f"| {one.name} | {one.version} | {one.licence} |" for one in packages)
    return "\n".join([f"\n## {title}\n", "| package | version | licence |", "| --- | --- | --- |", *rows, ""])


def written() -> str:
    return HEAD + "".join(table(title, packages) for title, packages in parts().items())


if __name__ == "__main__":
    PLACE.write_text(written(), encoding="utf-8")
