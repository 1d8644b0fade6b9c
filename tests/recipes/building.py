"""A recipe made of its spelt-out tree, without a file."""

from __future__ import annotations

from collections.abc import Mapping
from copy import deepcopy

from coach.recipe.faults import RecipeFaults
from coach.recipe.findings import Findings, Places
from coach.recipe.keys import unit_of
from coach.recipe.model import Recipe
from coach.recipe.reader import assemble
from coach.recipe.spelling import Speller
from coach.recipe.tree import read_plain


def spelt_out(text: str) -> dict[str, object]:
    """The tree that the lines of a sound file mean."""
    tree = read_plain(text, "x").tree
    speller = Speller(tree, unit_of(tree))
    spelt = speller.spell()
    assert not speller.findings.found
    return deepcopy(spelt)


def build(tree: Mapping[str, object], source: str = "job.yaml") -> Recipe:
    """The recipe of a spelt-out tree; raises RecipeFaults with every fault of meaning."""
    findings = Findings()
    recipe = assemble(tree, source, "", findings)
    if findings.found:
        raise RecipeFaults(findings.faults(Places(), source))
    return recipe
