"""Commands as this user can type them."""

import pytest

from review.render import invoked


@pytest.mark.parametrize(
    ("text", "typable"),
    [
        ("Next: review overdue", "Next: python -m review --book a.book overdue"),
        ("its own: review --book b.book export FILE", "its own: python -m review --book b.book export FILE"),
        ("See: python -m review known --help", "See: python -m review known --help"),
        ("Parents review what was taught.", "Parents review what was taught."),
    ],
)
def test_a_command_is_made_typable_once(text: str, typable: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(invoked, "_program", "python -m review")
    monkeypatch.setattr(invoked, "_book", " --book a.book")
    assert invoked.typable(text) == typable
