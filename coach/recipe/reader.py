"""Reads recipes from text and from files: every fault of layout, structure and meaning at once."""

from __future__ import annotations

from codecs import BOM_UTF8
from pathlib import Path

from coach.recipe.build import assemble
from coach.recipe.faults import Fault, RecipeFaults
from coach.recipe.findings import Findings
from coach.recipe.model import Recipe
from coach.recipe.schema import check
from coach.recipe.tree import LARGEST_BYTES, read_plain, too_large


def read_recipe(text: str, source: str) -> Recipe:
    """The recipe in a file's text; raises RecipeFaults with every fault at once."""
    text = text.removeprefix("\ufeff")
    plain = read_plain(text, source)
    findings = Findings()
    findings.add_unless_explained(plain.findings.found)
    findings.add_unless_explained(check(plain.tree))
    meant = Findings()
    recipe = assemble(plain.tree, source, text, meant)
    findings.add_unless_explained(meant.found)
    if findings.found:
        raise RecipeFaults(findings.faults(plain.places, source))
    return recipe


def read_recipe_file(path: Path) -> Recipe:
    """The recipe in a file of UTF-8 text; raises RecipeFaults, also when the file cannot be read."""
    return read_recipe(file_text(path), str(path))


def file_text(path: Path) -> str:
    """The text of a recipe file, with or without a byte-order mark; raises RecipeFaults."""
    source = str(path)
    try:
        with path.open("rb") as file:
            written = file.read(LARGEST_BYTES + 1)
    except OSError as error:
        message = _CANNOT.get(type(error), f"the file cannot be read: {error.strerror}")
        raise _unread(source, message) from None
    except ValueError:
        raise _unread(source, "a file cannot have this name") from None
    if len(written) > LARGEST_BYTES:
        raise too_large(source)
    plain = written.removeprefix(BOM_UTF8)
    try:
        return plain.decode("utf-8")
    except UnicodeDecodeError as error:
        before = plain[: error.start].decode("utf-8")
        place = (before.count("\n") + 1, len(before) - before.rfind("\n"))
        offset = error.start + len(written) - len(plain)
        message = (
            f"this is not UTF-8 text: byte {offset} (0x{plain[error.start]:02X}) cannot be read; "
            f"save the file as UTF-8"
        )
        raise RecipeFaults([Fault(source, *place, message)]) from None


_CANNOT = {
    FileNotFoundError: "there is no such file",
    IsADirectoryError: "this is a folder, not a recipe file",
    PermissionError: "the file may not be read: look at its permissions",
}


def _unread(source: str, message: str) -> RecipeFaults:
    return RecipeFaults([Fault(source, 1, 1, message)])
