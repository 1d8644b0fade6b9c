"""Limits that a hand keeps, where a tool was answered for without any: none closer than its work leaves."""

from __future__ import annotations

import re
from collections.abc import Collection
from math import ceil, isclose
from statistics import NormalDist
from typing import Final

from coach.drafting.checked import Draft, checked, is_sound
from coach.drafting.in_file import Edit, InFile, edited
from coach.ledger.will_pass import LeastSure
from coach.quantities.units import System
from coach.recipe.limits_written import size_text
from coach.recipe.measuring import NUMBER
from coach.recipe.model import Recipe
from coach.recipe.reader import read_recipe

#: So often a size is to be kept by itself, so that a tool of some sizes is mostly good in all of them (our
#: choice).
_KEPT_SHARE: Final = 0.95
#: What is offered where a size is hardly kept is kept so often (by definition).
_OFFERED_SHARE: Final = 0.9
#: A size that may be off by more than this share of itself says nothing: its step is to be another
#: (judgement).
_WIDEST_SHARE: Final = 1.0 / 3.0
#: Told in steps of so much (our choice).
_STEP_MM, _STEP_IN_MM, _FINER_BELOW_MM, _FINE_MM = 0.5, 0.254, 10.0, 0.1
_WITHIN: Final = 1e-6
#: So often a limit is widened at most: a few sizes, each of them twice (our choice).
_MOST_WIDENED: Final = 12
#: A size as it stands in a line, with limits that are as far off on both sides or with none.
_SIZE: Final = re.compile(rf"({NUMBER}(?: ?(?:mm|in)\b)?)(?: ±{NUMBER}(?: ?(?:mm|in)\b)?)?")


def kept_by_hand(draft: Draft, bare: Collection[tuple[str, str]], unit: System) -> Draft:
    """The same with limits that a hand keeps at every size that was answered without, the worst first.

    `bare` are those, by zone and dimension.
    """
    for _ in range(_MOST_WIDENED):
        will_pass = draft.planned.will_pass
        least = will_pass.least if will_pass is not None else None
        if least is None or (least.zone, least.dimension) not in bare:
            break
        wider = _widened(draft.plain, least, unit)
        if wider is None:
            break
        found = checked(wider)
        if is_sound(draft) and not is_sound(found):
            break
        draft = found
    return draft


def _widened(text: str, least: LeastSure, unit: System) -> str | None:
    """A proposed recipe whose least sure size has limits that are kept; None where it can have none wider."""
    zone, dimension = least.zone, least.dimension
    limits = read_recipe(text, "proposed").drawing[zone].limits[dimension]
    if least.chance >= _KEPT_SHARE or not limits.is_two_sided:
        return None
    # By the normal law: so many times as far off as what is kept less often.
    kept_mm, share = (0.5 * limits.width, least.chance)
    if least.kept is not None:
        kept_mm, share = least.kept.value, _OFFERED_SHARE
    kept_mm *= _times(_KEPT_SHARE) / _times(share)
    step_mm = _STEP_IN_MM if unit == "in" else _FINE_MM if limits.nominal < _FINER_BELOW_MM else _STEP_MM
    off_mm = ceil(kept_mm / step_mm - _WITHIN) * step_mm
    off_mm = min(off_mm, _WIDEST_SHARE * limits.nominal // step_mm * step_mm)
    file = InFile(text, "proposed")
    start = file.at(("drawing", zone, dimension))
    found = _SIZE.match(text, start)
    if off_mm <= 0.5 * limits.width or found is None or text[found.end() :].lstrip().startswith("+"):
        return None
    said = found[1].removeprefix(found[1].rstrip("imn ")) if found[1][-1] in "mn" else ""
    wider = edited(text, [Edit(start, found.end(), f"{found[1]} ±{size_text(off_mm, unit)}{said}")])
    return wider if _is_only_that(read_recipe(wider, "proposed"), zone, dimension, off_mm) else None


def _times(share: float) -> float:
    """How many standard deviations to either side such a share lies within."""
    return NormalDist().inv_cdf(0.5 * (1.0 + share))


def _is_only_that(recipe: Recipe, zone: str, dimension: str, off_mm: float) -> bool:
    """Whether the file is understood so: a size may stand in it for another zone's as well."""
    limits = recipe.drawing[zone].limits[dimension]
    return isclose(0.5 * limits.width, off_mm, abs_tol=_STEP_IN_MM)
