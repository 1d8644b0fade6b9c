"""`coach schema`: the schema by which an editor completes and checks recipes as they are typed."""

from __future__ import annotations

from typing import NamedTuple

from coach.cli.masks import mode_for_others
from coach.cli.opening import shop_path
from coach.cli.page import paragraph
from coach.cli.reply import Asked, Reply, reply
from coach.cli.writing_out import FORCE, write_out
from coach.quantities.takes import Take

SUMMARY = "Print the JSON Schema of recipes for an editor, or write it to a file."
TAKES = (Take("file", "where to write it; printed when left out", "FILE"), FORCE)


class TheSchema(NamedTuple):
    """The schema of recipes."""

    file: str  # where it lies


def run(asked: Asked) -> Reply[TheSchema]:
    """Print it as it ships, or write it out."""
    from coach.recipe.schema import SCHEMA_FILE

    text = SCHEMA_FILE.read_text(encoding="utf-8")
    if asked.file is None:
        return reply(text.splitlines(), TheSchema(str(SCHEMA_FILE)))
    mode, log = mode_for_others(), shop_path(asked)
    path = write_out(asked.file, text, force=asked.force, log=log, mode=mode)
    return reply(paragraph(f"Written to {path}."), TheSchema(str(path)))
