"""Text that a terminal shows as it stands, whoever wrote it."""

from __future__ import annotations

import re

# Control characters move the cursor and worse; the others reverse the direction of writing.
_UNSAFE = re.compile("[\x00-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")


def safe(text: str) -> str:
    """A line that a terminal shows as it stands, whoever wrote it."""
    return _UNSAFE.sub("\N{REPLACEMENT CHARACTER}", text)
