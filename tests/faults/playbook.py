"""Every scene by its name.

python -m tests.faults.playbook NAME FOLDER         (plays one in a folder; the watchers start it)
"""

import sys
from pathlib import Path

from tests.faults.book_scenes import OF_BOOKS, OF_BOOKS_PLANTED
from tests.faults.scenes import OF_ANSWERS, OF_ANSWERS_PLANTED

__all__ = ["EVERY", "PLANTED", "SCENES"]

SCENES = OF_ANSWERS | OF_BOOKS
PLANTED = OF_ANSWERS_PLANTED | OF_BOOKS_PLANTED
EVERY = SCENES | PLANTED

if __name__ == "__main__":
    EVERY[sys.argv[1]].work(Path(sys.argv[2]))
