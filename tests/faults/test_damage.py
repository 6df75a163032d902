"""Whatever happens to the file: it is noticed or harmless, and there is a way back.

The whole of it: python -m tests.faults.damage
"""

from pathlib import Path

from tests.faults import damage

TIMES = 1_000


def test_damage_is_noticed_or_harmless_and_the_way_back_is_sound() -> None:
    found = damage.play(range(TIMES))
    ways = {(ended, back) for _, ended, back in found}
    assert ways <= {("harmless", ""), ("told", "sound"), ("refused", "sound")}
    assert {kind for kind, _, _ in found} == set(damage.DAMAGES)
    assert sum(count for (_, ended, _), count in found.items() if ended != "harmless") > TIMES / 3


def test_without_the_proofs_some_of_it_would_pass(tmp_path: Path) -> None:
    """The control: bits flipped inside the log, which SQLite's own check lets pass."""
    whole = damage.whole_book(tmp_path)
    at = whole.data.find(b'["50x7","42"') + len(b'["')
    for bit in range(3):
        data = bytearray(whole.data)
        data[at] ^= 1 << bit
        whole.place.path.write_bytes(data)
        assert damage.without_proofs(whole) == "harmless"
        assert damage.outcome(whole) == "told"
