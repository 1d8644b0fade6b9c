"""A grade file to begin one of the smith's own with."""

from __future__ import annotations

from pathlib import Path

from coach.metals.grade_file import GradeFaults


def template_text(name: str) -> str:
    """A file to begin a grade of one's own with: it reads as it stands, and shows all that may be added.

    What may be added is commented out by a `#` with no blank after it. Raises GradeFaults for a name that is
    empty or holds what cannot be printed.
    """
    if not name.strip() or not name.isprintable():
        raise GradeFaults(["A grade's name must be words that can be printed, such as W2 or old file steel."])
    quoted = name.strip().replace("\\", "\\\\").replace('"', '\\"')
    template = Path(__file__).with_suffix(".toml").read_text(encoding="utf-8")
    return template.replace("NAME", quoted, 1)
