"""The bytes a name may stand as in a file."""

import json


def written_forms(name: str) -> list[bytes]:
    """UTF-8, UTF-16 of both orders, and escaped as JSON may."""
    escaped = json.dumps(name)[1:-1]
    return [name.encode(), escaped.encode(), name.encode("utf-16-le"), name.encode("utf-16-be")]
