"""SHA-256 alone: `hashlib` reads in OpenSSL too, 2 ms of every start (measured here).

Python's own is looked for as its `random` does; where there is none, `hashlib` has it. What is hashed on the
way to a problem is short, so that neither is faster.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from hashlib import sha256
else:
    try:
        from _sha256 import sha256  # up to Python 3.11
    except ImportError:
        try:
            from _sha2 import sha256  # since
        except ImportError:
            from hashlib import sha256

__all__ = ["sha256"]
