"""How much of a bar may stand free while it is driven back on itself."""

from __future__ import annotations

from typing import Final

#: Upset in one go a bar is driven up evenly only if no more than three thicknesses of it are free: Forging
#: Industry Association, Design Rules for Parts Made by Upset Forgings, rule 1, undated (confirmed). By hand
#: it is done in short heats beyond that (common practice, no source).
FREE_LENGTHS: Final = 3
#: From here on it is straightened often (from memory; judgement).
STRAIGHTEN_FROM: Final = 2.25
