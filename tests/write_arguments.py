"""docs/arguments.md: what may follow each command, by what the command itself declares."""

from __future__ import annotations

import argparse
from pathlib import Path

from coach.cli.line import command_of, epilogue, verbs
from coach.cli.taking import add_arguments

PAGE = Path(__file__).parents[1] / "docs" / "arguments.md"

_HEAD = """\
# What may follow each command

Written by `python -m tests.write_pages` from the commands themselves; `coach COMMAND --help` tells the same.
[The commands](commands.md) shows them at work, and what may stand before or after every one of them.
"""


class _Listing(argparse.ArgumentParser):
    """Keeps what a command takes, as it is told."""

    def __init__(self) -> None:
        super().__init__(add_help=False)
        self.rows: list[tuple[str, str]] = []

    def add_argument(self, *names: str, **told: object) -> argparse.Action:
        """Keep it."""
        metavar = str(told.get("metavar") or names[0])
        if not names[0].startswith("-"):
            self.rows.append((metavar, str(told.get("help", ""))))
        else:
            value = "" if "action" in told else f" {metavar}"
            self.rows.append((f"{', '.join(names)}{value}", str(told.get("help", ""))))
        return argparse.Action([], "kept")


def page() -> str:
    """The whole page."""
    lines = [_HEAD]
    for verb in verbs():
        command, listing = command_of(verb), _Listing()
        add_arguments(listing, command.TAKES)
        lines += [f"## coach {verb}\n", f"{command.SUMMARY}\n"]
        if listing.rows:
            cells = [("what", "means"), ("---", "---")]
            cells += [(f"`{what}`", means.replace("%%", "%")) for what, means in listing.rows]
            lines += [f"| {' | '.join(cell.replace('|', '&#124;') for cell in row)} |" for row in cells]
            lines.append("")
        if told := epilogue(command):
            lines.append(f"{told}\n")
    return "\n".join(lines)
