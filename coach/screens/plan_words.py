"""The plan of a recipe as text: stock, marks, lengths to cut, steps and forecast."""

from __future__ import annotations

from textual.content import Content

from coach.bench.plan_view import PieceView, PlanView, StepPlanView, end_words
from coach.quantities import Shown, write_count
from coach.screens.wording import (
    BAD,
    LABEL,
    QUIET,
    STRONG,
    in_columns,
    joined,
    marked,
    one_line,
    said,
    titled,
)
from coach.telling.chance import chance_text
from coach.telling.figures import write_figure, write_wanted
from coach.telling.sizes import spare_text

_BLANK = Content("")


def plan_words(view: PlanView, width: int) -> Content:
    """The plan but for its steps, aligned for a place this many cells wide."""
    lines = [said(view.summary)] if view.summary else []
    mass = view.head.text if view.head is not None else f"finished mass {view.finished_mass_text}"
    facts = [view.fire_text, mass, view.duration]
    lines.append(one_line(" · ".join(fact for fact in facts if fact), STRONG))
    if view.tools:
        lines.append(titled("Tools", one_line(", ".join(view.tools))))
    lines.append(_forecast(view))
    lines += [one_line(f"! {warning}", BAD) for warning in view.warnings]
    for piece in view.pieces:
        lines += [_BLANK, *_piece(piece, width)]
    if view.cuts:
        lines += [_BLANK, one_line("Lengths to cut", LABEL), *_cuts(view, width)]
    if view.laid:
        lines += [_BLANK, one_line("Steel to lay on", LABEL)]
        for steel in view.laid:
            lines.append(one_line(steel.text, STRONG if steel.enough else BAD, indent=2))
            lines += in_columns([[one_line(what, indent=4), one_line(mm)] for what, mm in steel.parts], width)
    if view.skins:
        lines += [_BLANK, one_line("Skin that the fire takes the carbon out of", LABEL)]
        lines += [one_line(skin.text, BAD if skin.enough is False else "", indent=2) for skin in view.skins]
    lines += [_BLANK, one_line("Finished sizes", LABEL), *_sizes(view, width)]
    return joined(lines)


def steps_words(view: PlanView, width: int) -> Content:
    """Every step of the plan."""
    lines = [_BLANK, one_line("Steps", LABEL)]
    for step in view.steps:
        lines += _step(step, width)
    return joined(lines)


def _forecast(view: PlanView) -> Content:
    verdict = marked(view.verdict, capital=True)
    return joined([verdict, one_line(chance_text(view.chance), STRONG), one_line(view.reason)], "  ")


def _piece(piece: PieceView, width: int) -> list[Content]:
    head = f"{piece.piece}: {piece.metal}, {piece.stock}, {piece.length_text} of bar, {piece.mass_text}"
    lines = [one_line(head, STRONG)]
    if piece.left_over_text:
        missing = piece.left_over is not None and piece.left_over < 0.0
        lines.append(one_line(f"of the bar in hand {piece.left_over_text}", BAD if missing else "", indent=2))
    rows = []
    for mark in piece.marks:
        what = end_words(mark)
        rows.append([one_line(f"mark at {mark.text}", STRONG, indent=2), one_line(what)])
    rows += [
        [one_line(f"punch at {centre.text}", STRONG, indent=2), one_line(f"middle of the {centre.zone}")]
        for centre in piece.centres
    ]
    return lines + in_columns(rows, width)


def _cuts(view: PlanView, width: int) -> list[Content]:
    rows = [
        [
            one_line(f"{cut.zone}, step {cut.step}", indent=2),
            one_line(f"cut at {cut.text}", STRONG),
            one_line(f"{cut.short_text} short of its finished length" if cut.short_by > 0.0 else ""),
        ]
        for cut in view.cuts
    ]
    return in_columns(rows, width)


def _sizes(view: PlanView, width: int) -> list[Content]:
    shown = Shown(view.units)
    spares = {f"{spare.zone}.{spare.dimension}": spare_text(spare.spare, shown) for spare in view.spares}
    rows = [[said(word, QUIET) for word in ("  Size", "Wanted", "Expected", "Spare")]]
    for size in view.sizes:
        state = one_line(write_figure(size.expected, shown, "±"))
        if size.state != "good":
            state = Content.assemble(state, " ", marked(size.state))
        rows.append(
            [
                one_line(f"{size.label}", indent=2),
                one_line(write_wanted(size.wanted, shown), STRONG),
                state,
                one_line(spares.get(size.name, "")),
            ]
        )
    return in_columns(rows, width)


def _step(plan: StepPlanView, width: int) -> list[Content]:
    step = plan.step
    heats = write_count(step.heats_planned, "heat") if step.heats_planned else "cold"
    told = ", ".join(part for part in (heats, step.colour, step.temperature_text) if part)
    lines = [
        Content.assemble(
            f"{step.number:>3} ", one_line(step.title, STRONG), one_line(f"{told}", QUIET, indent=2)
        )
    ]
    if step.hot is not None:
        lines.append(titled("    time", one_line(step.hot.text)))
    if step.targets:
        targets = ", ".join(f"{label} {limits}" for label, limits in step.targets)
        lines.append(titled("    to", one_line(targets)))
    if plan.after:
        after = ", ".join(f"{size.label} {size.text}" for size in plan.after)
        lines.append(titled("    leaves", one_line(after)))
    lines += [titled("    mind", one_line(caution), bad=True) for caution in step.cautions]
    if not step.may_rest:
        lines.append(one_line("the job may not rest after this step", QUIET, indent=4))
    return lines
