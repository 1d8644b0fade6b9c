"""A recipe's short name, which its jobs are called by."""

from __future__ import annotations

import re
import unicodedata
from pathlib import PurePath


def short_name(title: str, source: str) -> str:
    """A short name of letters, digits and hyphens, from the title or else from the file's name.

    >>> short_name("Carpenter's adze", "adze.yaml")
    'carpenters-adze'
    """
    for told in (title, PurePath(source).stem):
        letters = unicodedata.normalize("NFKD", told).encode("ascii", "ignore").decode().lower()
        name = "-".join(re.findall("[a-z0-9]+", letters.replace("'", "")))[:60].strip("-")
        if name:
            return name
    return "recipe"
