"""A program one version on, planted: its schema has one step more."""

from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from sqlite_utils import Database, Migrations

from review.book import connection, migrations


@contextmanager
def planted() -> Iterator[Migrations]:
    steps = Migrations("review")
    for step in migrations.STEPS._migrations:
        steps(name=step.name, transactional=step.transactional)(step.fn)

    @steps()
    def planted_step(db: Database) -> None:
        """A table, and something in it for each row of the log, so that many pages change."""
        db.executescript("CREATE TABLE extra (a INTEGER, b TEXT) STRICT;")
        db.executescript("INSERT INTO extra SELECT seq, body FROM log;")

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(connection, "VERSION", connection.VERSION + 1)
        patched.setattr(migrations.migrate, "__defaults__", (steps,))
        yield steps
