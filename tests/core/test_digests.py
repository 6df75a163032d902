"""SHA-256 alone is SHA-256."""

import hashlib

from hypothesis import example, given
from hypothesis import strategies as st

from review.core.digests import sha256


@given(st.binary(max_size=300))
@example(b"abc")
def test_it_is_what_the_library_has(data: bytes) -> None:
    assert sha256(data).hexdigest() == hashlib.sha256(data).hexdigest()


def test_the_published_digest() -> None:
    """FIPS 180-2, appendix B.1."""
    assert sha256(b"abc").hexdigest() == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
