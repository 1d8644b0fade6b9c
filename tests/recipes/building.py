"""A recipe made of its plain tree, without a file."""

from __future__ import annotations

from collections.abc import Mapping

from coach.recipe.faults import RecipeFaults
from coach.recipe.findings import Findings, Places
from coach.recipe.model import Recipe
from coach.recipe.reader import assemble


def build(tree: Mapping[str, object], source: str = "job.yaml") -> Recipe:
    """The recipe of a plain tree; raises RecipeFaults with every fault of meaning."""
    findings = Findings()
    recipe = assemble(tree, source, "", findings)
    if findings.found:
        raise RecipeFaults(findings.faults(Places(), source))
    return recipe
