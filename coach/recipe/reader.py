"""Reads recipes from text and from files: every fault of layout, structure and meaning at once."""

from __future__ import annotations

from pathlib import Path

from coach.recipe.build import assemble
from coach.recipe.faults import RecipeFaults
from coach.recipe.findings import Findings
from coach.recipe.keys import check
from coach.recipe.model import Recipe
from coach.recipe.text import file_text
from coach.recipe.tree import read_plain, tree_of_sound_text


def read_recipe(text: str, source: str) -> Recipe:
    """The recipe in a file's text; raises RecipeFaults with every fault at once."""
    text = text.removeprefix("\ufeff")
    tree = tree_of_sound_text(text)
    if tree is not None and next(check(tree), None) is None:
        meant = Findings()
        recipe = assemble(tree, source, text, meant)
        if not meant.found:
            return recipe
    return read_wording_faults(text, source)


def read_wording_faults(text: str, source: str) -> Recipe:
    """The same by the parser in Python, which knows the place of every fault and what to say of it."""
    plain = read_plain(text, source)
    findings, meant = Findings(), Findings()
    findings.add_unless_explained(plain.findings.found)
    findings.add_unless_explained(check(plain.tree))
    recipe = assemble(plain.tree, source, text, meant)
    findings.add_unless_explained(meant.found)
    if findings.found:
        raise RecipeFaults(findings.faults(plain.places, source))
    return recipe


def read_recipe_file(path: Path) -> Recipe:
    """The recipe in a file of UTF-8 text; raises RecipeFaults, also when the file cannot be read."""
    return read_recipe(file_text(path), str(path))
