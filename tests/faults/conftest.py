"""A book with one child, as the tests of the store have it."""

from tests.store.conftest import book, place, template

__all__ = ["book", "place", "template"]
