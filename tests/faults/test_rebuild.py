"""Memory is the fold of the log, bit for bit, also on a processor with other mathematical functions.

The whole of it, a million answers: python -m tests.faults.rebuild
"""

import sys

import pytest

from tests.faults import rebuild

ANSWERS = 10_000


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="the setting is one of glibc")
def test_two_processors_remember_the_same() -> None:
    here, older = rebuild.elsewhere(ANSWERS, ""), rebuild.elsewhere(ANSWERS, rebuild.OLDER)
    assert here["memory"] == older["memory"]


def test_other_answers_are_other_bits() -> None:
    """The control: the print sees one answer more."""
    assert rebuild.print_of(300) != rebuild.print_of(301)
