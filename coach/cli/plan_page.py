"""A recipe's plan, as lines of plain text to read in a terminal or to print."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.cli.page import headed, named, paragraph, set_page, table
from coach.cli.telling import step_lines
from coach.quantities import Shown
from coach.telling.page import page, section
from coach.telling.sizes import sizes_table, spares_table

if TYPE_CHECKING:
    from coach.bench.plan_view import CutView, LaidView, PieceView, PlanView, StepPlanView

_RULE = "-"
_MM3_IN_CM3 = 1000.0


def plan_lines(view: PlanView) -> list[str]:
    """Everything about a recipe before the first heat."""
    duration = f", {view.duration}" if view.duration else ""
    lines = [*paragraph(view.title), _RULE * min(len(view.title), 80), *paragraph(view.summary)]
    mass = f"finished, it weighs about {view.finished_mass_text}"
    if view.head is not None:
        mass = f"finished, it weighs {view.head.text}"
    lines += paragraph(f"{len(view.steps)} steps, {view.fire_text}{duration}; {mass}.")
    lines += headed("Tools", [line for tool in view.tools for line in paragraph(tool, "    ", "  - ")])
    for piece in view.pieces:
        lines += headed(f"Stock for the {piece.piece}", _piece(piece))
    lines += headed(
        "To cut at, where what is still to be drawn is left off",
        table((f"step {cut.step}", cut.zone, cut.text, _short(cut)) for cut in view.cuts),
    )
    lines += headed("Steel to lay on", [line for steel in view.laid for line in _laid(steel)])
    lines += headed(
        "Skin that the fire takes the carbon out of",
        [line for skin in view.skins for line in paragraph(skin.text, "    ", "  ")],
    )
    for step in view.steps:
        lines += headed(f"{step.step.number}. {step.step.title}", _step(step))
    shown = Shown(view.units)
    drawn = (
        section("The drawing, as it can be expected to come out", [sizes_table(view.sizes, shown)]),
        section("Spare, above the least that the drawing allows", [spares_table(view.spares, shown)]),
    )
    lines += ["", *set_page(page(*drawn))]
    lines += headed(
        "To put right first", [line for text in view.warnings for line in paragraph(text, "    ", "  - ")]
    )
    return [*lines, "", *paragraph(f"{view.verdict.capitalize()}: {view.reason}")]


def _laid(steel: LaidView) -> list[str]:
    return [*paragraph(steel.text, "    ", "  "), *table(steel.parts, indent="    ")]


def _short(cut: CutView) -> str:
    return f"{cut.short_text} shorter than it will be" if cut.short_by > 0.0 else ""


def _piece(piece: PieceView) -> list[str]:
    """The bar, and where to mark and punch it, measured from the end that zones begin at."""
    bar = f"{piece.metal}, {piece.stock}: {piece.length_text} of it, {piece.mass_text}"
    left = f"; {piece.left_over_text} of the bar in hand" if piece.left_over_text else ""
    from coach.bench.plan_view import end_words

    rows = [(f"mark at {mark.text}", end_words(mark)) for mark in piece.marks]
    rows += [
        (f"centre at {centre.text}", f"middle of the {centre.zone}, for its hole") for centre in piece.centres
    ]
    lengths = [(f"{zone.zone}", f"from {zone.text} of bar") for zone in piece.zones]
    return [
        *paragraph(bar + left + ".", "  "),
        *(table(lengths) if len(lengths) > 1 else []),
        *paragraph("Measured from one end:", "  "),
        *table(rows, indent="    "),
    ]


def _step(planned: StepPlanView) -> list[str]:
    step = planned.step
    after = ", ".join(f"{size.label} {size.text}" for size in planned.after)
    taken = ", ".join(
        f"{one.cause} {one.volume / _MM3_IN_CM3:.2f} cm³ of {one.zone}" for one in planned.taken
    )
    return [
        *step_lines(step),
        *named("  Leaves", after if step.heats_planned or step.targets else ""),
        *named("  Takes", taken),
        *named("  Rest", "" if step.may_rest else "not after this step"),
    ]
