"""What brings a bar to the section that is bent, turned, rolled or headed of it."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import Any

from coach.drafting.proposed import SAME_SHARE
from coach.forms import Form, FormError, form_kind
from coach.ledger.weigh_section import is_section, section_of
from coach.ledger.working import face_loss_mm
from coach.operations import Does, operation
from coach.operations.does import HeatKind
from coach.quantities.units import System
from coach.recipe import writing
from coach.recipe.faults import RecipeFaults
from coach.recipe.limits_written import size_text
from coach.recipe.model import Recipe, Step
from coach.recipe.reader import read_recipe

Places = list[tuple[str, int] | None]


def with_sections(
    spelt: Mapping[str, Any], zones: Collection[str], places: Sequence[tuple[str, int] | None], unit: System
) -> tuple[list[dict[str, Any]], Places]:
    """The steps of a recipe spelt out and where each was written, with those that draw the bar first.

    That is of zones whose first work keeps the section of the bar, where the bar has not that of the drawing.
    A bar that is too thin for it is left as it is: no draw thickens it, and the weighing says so.
    """
    steps, places = [dict(step) for step in spelt["steps"]], list(places)
    try:
        recipe = read_recipe(writing.write_recipe(spelt), "proposed")
    except RecipeFaults:  # whoever reads it next tells them
        return steps, places
    heat = next((one["colour"] for one in steps if "colour" in one and "zone" in one), "")
    first = {zone: step for zone in zones if zone in recipe.drawing and (step := _first_work(recipe, zone))}
    begun = {zone: _first_hot(recipe, zone, step) for zone, step in first.items()}
    for zone, step in sorted(first.items(), key=lambda one: -begun[one[0]]):
        bar = _bar_of(recipe, zone, step) if operation(step.operation).KEEPS_SECTION else None
        if bar is None:
            continue
        told = _drawn_to(bar, recipe, zone, unit)
        steps.insert(begun[zone], told | ({"colour": heat} if heat else {}))
        places.insert(begun[zone], None)
    return steps, places


def begun_at(recipe: Recipe, zone: str) -> int | None:
    """Before which step a zone is drawn to what its work begins with; None where nothing shapes it."""
    work = _first_work(recipe, zone)
    return None if work is None else _first_hot(recipe, zone, work)


def _first_work(recipe: Recipe, zone: str) -> Step | None:
    """The first step that shapes a zone."""
    return next((step for step in recipe.steps if _shapes(step, zone)), None)


def _first_hot(recipe: Recipe, zone: str, work: Step) -> int:
    """Before which of the steps a zone is drawn: the first that makes it ready, as a scarf does."""
    before = recipe.steps[: work.number - 1]
    asks = (at for at, one in enumerate(before) if zone in one.zones and _makes(one))
    return next(asks, work.number - 1)


def _makes(step: Step) -> bool:
    """Whether a step makes something of a zone that a draw behind it would undo."""
    return bool(operation(step.operation).GROWS)


def _shapes(step: Step, zone: str) -> bool:
    todo = operation(step.operation)
    return zone in step.zones and ((todo.RESHAPES and not todo.FIXES) or step.shape is not None)


def _bar_of(recipe: Recipe, zone: str, step: Step) -> Form | None:
    """The bar that a step bends, where the one in hand can be drawn to it and is another."""
    drawn, stock = recipe.drawing[zone], recipe.piece_of(zone).stock
    shape = step.shape or drawn.shape
    asked = {name: one.nominal for name, one in step.targets.items() if name in shape.dimensions}
    sizes = form_kind(shape.kind).filled(asked, shape.options)
    there = section_of(stock.shape.draft({**stock.sizes_mm, "length": 1.0}))
    if shape.kind == drawn.shape.kind:
        sizes = {name: one.nominal for name, one in drawn.limits.items()} | sizes
    try:
        bar = shape.form(sizes).unbent()
    except (FormError, KeyError):
        return None
    if bar is None:
        return None
    if form_kind(shape.kind).OPENS_AT_START:  # told from its neighbour on, where it is the narrower
        sizes = bar.sizes_mm()
        near = [name for name in sizes if f"end_{name}" in sizes]
        bar = bar.with_sizes(
            {one: sizes[f"end_{one}"] for one in near} | {f"end_{one}": sizes[one] for one in near}
        )
    later = [one for one in recipe.steps[step.number :] if _shapes(one, zone)]
    if later and all(one.does(Does.CLOSES) for one in later):
        bar = _before_its_weld(bar, recipe, zone, step)  # that sets a joint and draws no bar
    elif "thickness" not in asked and later:
        # What is drawn thinner afterwards is now as thick as its bar, or square.
        thick_mm = min(*there.across_mm, bar.sizes_mm().get("width", there.across_mm[0]))
        bar = bar.with_sizes(
            {name: thick_mm for name in ("thickness", "end_thickness") if name in bar.DIMENSIONS}
        )
    if step.does(Does.PARTS):  # a chisel gathers nothing: what its fires take is there before
        room_mm = 2.0 * step.heats * face_loss_mm(recipe.scale, HeatKind.FORGING, step.temperature_c)
        sizes = {name: size + room_mm for name, size in bar.sizes_mm().items() if name != "length"}
        bar = bar.with_sizes(sizes)
    wanted = section_of(bar)
    thicker = min(wanted.across_mm) > (1.0 + SAME_SHARE) * min(there.across_mm)
    return None if thicker or is_section(there, wanted) else bar


def _before_its_weld(bar: Form, recipe: Recipe, zone: str, step: Step) -> Form:
    """A bar as much thicker as the fires take off both of its faces, from what makes it ready to its weld."""
    first = _first_hot(recipe, zone, step)
    room_mm = sum(
        2.0 * one.heats * face_loss_mm(recipe.scale, one.heat_kind, one.temperature_c)
        for one in recipe.steps[first:]
        if zone in one.heated
    )
    thick = {name: size + room_mm for name, size in bar.sizes_mm().items() if name.endswith("thickness")}
    return bar.with_sizes(thick)


def _drawn_to(bar: Form, recipe: Recipe, zone: str, unit: System) -> dict[str, Any]:
    sizes = {name: size for name, size in bar.sizes_mm().items() if name != "length"}
    form = bar.KIND
    if form == "taper" and (sizes["end_width"], sizes["end_thickness"]) == (
        sizes["width"],
        sizes["thickness"],
    ):
        form, sizes = "flat", {name: sizes[name] for name in ("width", "thickness")}
    if form == "flat":
        wide, thick = max(sizes.values()), min(sizes.values())
        square = wide - thick <= 1e-9 * wide
        stock = recipe.piece_of(zone).stock.sizes_mm
        if stock.get("width", 0.0) < stock.get("thickness", 0.0):  # the bar is told on its edge
            wide, thick = thick, wide
        form, sizes = ("square", {"side": wide}) if square else ("flat", {"width": wide, "thickness": thick})
    told = {name: size_text(round(size, 1) if unit == "mm" else size, unit) for name, size in sizes.items()}
    widest = max(recipe.piece_of(zone).stock.sizes_mm.values())
    spreads = max(sizes.values()) > (1.0 + SAME_SHARE) * widest
    return {"do": "spread" if spreads else "draw", "zone": zone, "form": form, "to": told} | (
        {"free": "length"} if spreads else {}
    )
