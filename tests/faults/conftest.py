"""A book with one child, as the tests of the store have it."""

from tests.book.conftest import book, place, template

__all__ = ["book", "place", "template"]
