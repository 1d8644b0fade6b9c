"""A recipe made larger or smaller, until nothing is refused that it was not and no draw is left out."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from typing import Any, Final

from coach.bench.outlook import Outlook, outlook
from coach.drafting.begun_from import with_draws_of
from coach.drafting.rolled_bars import next_rolled_mm
from coach.drafting.scaled import Changes, about, in_its_text, limits_of
from coach.ledger.laid_steel import laid_steels
from coach.ledger.looking_back import look_back
from coach.ledger.verdict import ON_PLAN_CHANCE
from coach.ledger.working import LedgerError
from coach.quantities.units import System
from coach.recipe.faults import RecipeFaults
from coach.recipe.limits_written import size_text
from coach.recipe.reader import read_recipe
from coach.recipe.spelling import spelt_out

#: So many zones are drawn first at most (our choice).
_MOST_DRAWN: Final = 8


def with_enough_steel(text: str, source: str) -> str:
    """The text with the steel that is laid on a face as thick as what is to remain of it needs.

    What its heats and its stone take is the same of a smaller one, which has less to give.
    """
    with suppress(RecipeFaults, LedgerError):
        spelt = spelt_out(text, source)
        unit: System = "in" if spelt.get("units") == "in" else "mm"
        changes: Changes = {}
        for steel in laid_steels(look_back(read_recipe(text, source))):
            if not steel.enough and steel.dimension == "thickness":
                changes |= _thicker(spelt, steel.steel, round(steel.needed.value, 1), unit)
        return in_its_text(text, source, changes)
    return text


def _thicker(spelt: Mapping[str, Any], steel: str, thick_mm: float, unit: System) -> Changes:
    """The steel with another thickness: its drawing, the steps that ask for it, and its bar."""
    drawn = spelt["drawing"][steel].get("thickness")
    stock = spelt["pieces"].get(steel, {}).get("stock")
    if drawn is None or not isinstance(stock, Mapping) or "thickness" not in stock:
        return {}
    was_mm, bar_mm = (limits_of(str(one), unit).nominal for one in (drawn, stock["thickness"]))
    changes: Changes = {("drawing", steel, "thickness"): about(str(drawn), thick_mm, unit)}
    for at, step in enumerate(spelt["steps"]):
        asked = step.get("to")
        told = asked.get("thickness") if step.get("zone") == steel and isinstance(asked, Mapping) else None
        if told is not None and limits_of(str(told), unit).nominal == was_mm:
            changes[("steps", at, "to", "thickness")] = about(str(told), thick_mm, unit)
    if thick_mm > bar_mm:
        rolled_mm = next_rolled_mm("thickness", thick_mm, unit)
        changes[("pieces", steel, "stock", "thickness")] = size_text(rolled_mm, unit)
    return changes


def with_surer_draws(text: str, source: str, bars: Mapping[str, Mapping[str, Any]], times: float) -> str:
    """The text with a draw first of each zone whose size across is unsure without it, as its bar is rolled.

    Only where the whole is the surer for it, and nothing is found that was not.
    """
    with suppress(RecipeFaults, LedgerError):
        seen, tried = _seen(text, source), set[str]()
        while seen.chance < ON_PLAN_CHANCE and len(tried) < _MOST_DRAWN:
            unsure = sorted(
                (one for one in seen.sizes if one.dimension != "length" and one.zone not in tried),
                key=lambda one: one.chance,
            )
            if not unsure or unsure[0].chance >= ON_PLAN_CHANCE:
                break
            zone = unsure[0].zone
            tried.add(zone)
            with suppress(RecipeFaults, LedgerError):
                now = with_draws_of(text, source, bars, times, {zone})
                then = _seen(now, source)
                if len(then.findings) <= len(seen.findings) and then.chance > seen.chance:
                    text, seen = now, then
    return text


def _seen(text: str, source: str) -> Outlook:
    return outlook(look_back(read_recipe(text, source)))
