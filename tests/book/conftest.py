"""A book with one child, and a user's state folder, in the test's own temporary folder."""

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from review.book import store
from review.book.store import Book


class Place(NamedTuple):
    """Where a test's book stands, and the child in it."""

    path: Path
    state: Path
    child: str

    def open(self, write: bool = True) -> Book:
        return store.open_book(self.path, self.state, write)


def new_place(folder: Path) -> Place:
    path, state = folder / "family.book", folder / "state"
    store.make(path)
    key = store.new_child_key()
    with store.open_book(path, state, write=True) as book:
        book.add_child(key)
    return Place(path, state, key.hex())


@pytest.fixture(scope="session")
def template(tmp_path_factory: pytest.TempPathFactory) -> Place:
    """Made once: a copy of it is a book that was never written to from its place."""
    return new_place(tmp_path_factory.mktemp("template"))


@pytest.fixture
def place(template: Place, tmp_path: Path) -> Place:
    path = tmp_path / "family.book"
    shutil.copy(template.path, path)
    return Place(path, tmp_path / "state", template.child)


@pytest.fixture
def book(place: Place) -> Iterator[Book]:
    with place.open() as book:
        yield book
