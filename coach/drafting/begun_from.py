"""What a recipe's steps began with is there again where it is proposed from a thicker bar."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from contextlib import suppress
from typing import Any, Final

from coach.drafting.in_file import with_steps
from coach.drafting.made_ready import Places, begun_at
from coach.ledger.looking_back import look_back
from coach.ledger.weigh import Cannot, weigh
from coach.ledger.working import LedgerError
from coach.quantities import read_length_mm
from coach.quantities.units import System
from coach.recipe.faults import RecipeFaults
from coach.recipe.limits_written import size_text
from coach.recipe.reader import read_recipe
from coach.recipe.spelling import spelt_out

#: What a bar of another section brings along.
_OF_ITS_BAR: Final = (Cannot.MAKE_DRAWING, Cannot.KEEP_SECTION)


def drawn_first(text: str, source: str, bars: Mapping[str, Mapping[str, Any]], times: float) -> str:
    """The text with a draw before the first work of each zone that ends beside its drawing without it.

    It draws to the section that the bar of the piece had, so many times as large, and stays where the zone
    then ends as it is drawn. `bars` are the bars before, each spelt out.
    """
    with suppress(RecipeFaults, LedgerError):
        before = _told(text, source)
        zones = {zone for what, zone in before if what in _OF_ITS_BAR and zone}
        while zones:
            now = with_draws_of(text, source, bars, times, zones)
            told = _told(now, source)
            still = {zone for what, zone in told if what in _OF_ITS_BAR or (what, zone) not in before}
            if not still & zones:
                return now
            zones -= still  # it takes more than that to bring these to their drawing, or a thicker bar
    return text


def _told(text: str, source: str) -> set[tuple[Cannot, str]]:
    """What is found of the recipe, and of which zone."""
    return {(one.what, one.zone) for one in weigh(look_back(read_recipe(text, source)))}


def with_draws_of(
    text: str, source: str, bars: Mapping[str, Mapping[str, Any]], times: float, zones: Collection[str]
) -> str:
    """The text with a draw of each zone to the bar that it was begun from, so many times as large."""
    recipe, spelt = read_recipe(text, source), spelt_out(text, source)
    unit: System = "in" if spelt.get("units") == "in" else "mm"
    steps: list[dict[str, Any]] = [dict(step) for step in spelt["steps"]]
    places: Places = [(text, at) for at in range(len(steps))]
    heat = next((one["colour"] for one in steps if "colour" in one and "zone" in one), "")
    begun = {zone: at for zone in zones if (at := begun_at(recipe, zone)) is not None}
    for zone, at in sorted(begun.items(), key=lambda one: -one[1]):
        bar = bars.get(recipe.piece_of(zone).name)
        if bar is None:
            continue
        told = {"do": "draw", "zone": zone, "form": bar["form"], "to": _section(bar, times, unit)}
        steps.insert(at, {**told, "free": "length"} | ({"colour": heat} if heat else {}))
        places.insert(at, None)
    return with_steps(text, source, steps, places)


def _section(bar: Mapping[str, Any], times: float, unit: System) -> dict[str, str]:
    """What a bar has across, so many times as large."""
    across = {name: told for name, told in bar.items() if name not in ("form", "length", "doubt")}
    sizes = {name: times * read_length_mm(str(told), unit) for name, told in across.items()}
    return {name: size_text(round(mm, 1) if unit == "mm" else mm, unit) for name, mm in sizes.items()}
