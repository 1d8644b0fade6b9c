"""A recipe's plan as it is told before the first heat: what to take, where to mark it, and every step."""

from __future__ import annotations

import re
from collections.abc import Iterator

from coach.bench.planned import Planned, PlannedStep
from coach.bench.steel import head_words
from coach.forms import label
from coach.ledger.laid_steel import SteelToLay
from coach.ledger.plan import MarkOnBar, PlannedPiece
from coach.ledger.verdict import PlanState, SizeState
from coach.quantities.words import Words, as_words, counted, run_on, say
from coach.telling.figures import write_figure, write_wanted
from coach.telling.page import Line, Page, Row, Section, Table, Tone, page, section, table
from coach.telling.sizes import spare_text
from coach.telling.skin import skin_section
from coach.telling.step import step_lines
from coach.telling.why import stands_text
from coach.telling.words import sentence, write
from coach.telling.writing import Shown

#: A share too small to be told says nothing.
_NOT_NOTHING = re.compile("[1-9]")
_SIGNS = {PlanState.ON_PLAN: "✓", PlanState.TIGHT: "!", PlanState.OFF_PLAN: "✗"}
_TONES = {PlanState.ON_PLAN: Tone.GOOD, PlanState.TIGHT: Tone.CARE, PlanState.OFF_PLAN: Tone.BAD}


def plan_page(plan: Planned, shown: Shown) -> Page:
    """Everything about a recipe before the first heat."""
    return page(*outset_page(plan, shown).sections, *steps_page(plan, shown).sections)


def outset_page(plan: Planned, shown: Shown) -> Page:
    """The plan but for its steps."""
    return page(
        section("", _facts(plan, shown)),
        section(
            "To put right first",
            (
                Line(write(words, shown), mark="!", tone=Tone.BAD)
                for words in (*worth_a_look(plan), *(finding.sentence for finding in plan.findings))
            ),
        ),
        section("Tools", (Line(tool, mark="-") for tool in plan.tools)),
        *(_stock(piece, shown) for piece in plan.pieces),
        section("Lengths to cut", [table(_cuts(plan, shown))]),
        section("Steel to lay on", (part for steel in plan.laid for part in _laid(steel, shown))),
        skin_section("Skin that the fire takes the carbon out of", plan.skins, shown, planned=True),
        section("Finished sizes", [_sizes(plan, shown)]),
    )


def steps_page(plan: Planned, shown: Shown) -> Page:
    """Every step of the plan."""
    return page(
        *(
            section(f"{step.step.number}. {step.step.title}", [*_step(step, shown), Line("")])
            for step in plan.steps
        )
    )


def worth_a_look(plan: Planned) -> Iterator[Words]:
    """What to see to before the fire is lit: too little bar, and too little marked out."""
    for piece in plan.pieces:
        if piece.left_over is not None and piece.left_over.value < 0.0:
            missing = piece.left_over._replace(value=-piece.left_over.value)
            yield say("The bar for {} is too short: {} is missing.", piece.piece, missing)
        for zone in piece.zones:
            if zone.extra is not None and plan.verdict is not PlanState.ON_PLAN:
                yield say("Mark {} {} longer for a 95 % chance of enough metal.", zone.zone, zone.extra)


def _facts(plan: Planned, shown: Shown) -> Iterator[Line]:
    yield Line(plan.summary)
    yield Line(stands_text(plan, shown), mark=_SIGNS[plan.verdict], tone=_TONES[plan.verdict])
    work = say("{}, {}", counted(len(plan.steps), "step"), fire_words(plan))
    duration = as_words(plan.duration)
    mass = say("{:~}", plan.finished_mass) if plan.head is None else head_words(plan.head)
    yield Line(sentence(say("{}; finished, it weighs {}", run_on((work, duration), ", "), mass), shown))


def fire_words(plan: Planned) -> Words:
    """How long the heats keep a smith: `37 heats, 3 to 7 h at the fire`."""
    if not plan.heats:
        return as_words("no heat")
    heats, hours = counted(plan.heats, "heat"), plan.at_the_fire
    if hours.low:
        return say("{}, {} at the fire", heats, hours)
    return say("{}, up to {} at the fire", heats, hours._replace(low=hours.high))


def _stock(piece: PlannedPiece, shown: Shown) -> Section:
    """The bar, and where to mark and punch it, measured from the end that zones begin at."""
    rows = [(write(say("mark at {}", mark.at), shown), end_words(mark)) for mark in piece.marks]
    rows += [
        (write(say("punch at {}", centre.at), shown), f"middle of the {centre.zone}, for its hole")
        for centre in piece.centres
    ]
    lengths = [(zone.zone, write(say("from {} of bar", zone.length), shown)) for zone in piece.zones]
    missing = piece.left_over is not None and piece.left_over.value < 0.0
    return section(
        f"Stock for the {piece.piece}",
        [
            Line(sentence(_bar(piece), shown), tone=Tone.STRONG),
            Line(sentence(_left_over(piece), shown), tone=Tone.BAD if missing else Tone.PLAIN),
            table(lengths if len(lengths) > 1 else (), indent=1),
            Line("Measured from one end:"),
            table(rows, indent=1),
        ],
    )


def _bar(piece: PlannedPiece) -> Words:
    *across, last = piece.stock.sizes
    sizes = run_on([*(say("{:n}", size) for size in across), say("{}", last)], " × ")
    return say("{}, {} {}: {} of it, {}", piece.metal, piece.stock.form, sizes, piece.length, piece.mass)


def _left_over(piece: PlannedPiece) -> Words:
    if piece.left_over is None:
        return Words()
    over = piece.left_over.value >= 0.0
    left = piece.left_over._replace(value=abs(piece.left_over.value))
    return say("{} of the bar in hand {}", left, "is left over" if over else "is missing")


def end_words(mark: MarkOnBar) -> str:
    """What a mark is: a boundary, the end to cut at, or where a bar ends that serves as a handle."""
    if mark.begins:
        return f"{mark.ends} ends, {mark.begins} begins"
    if mark.cut_in is not None:
        return f"{mark.ends} ends, kerf and all; leave it on its bar, step {mark.cut_in} cuts it"
    return f"{mark.ends} ends: cut here"


def _cuts(plan: Planned, shown: Shown) -> Iterator[tuple[str, ...]]:
    for cut in plan.cuts:
        short = say("{} shorter than it will be drawn", cut.short_by) if cut.short_by.value > 0.0 else ""
        yield f"step {cut.step}", cut.zone, write(say("cut at {}", cut.length), shown), write(short, shown)


def _laid(steel: SteelToLay, shown: Shown) -> Iterator[Line | Table]:
    face = steel.dimension == "thickness"
    big, where = ("thick", "of steel") if face else ("long", "behind the edge")
    leaves = "" if steel.enough else say(" and leaves {}", steel.left)
    told = say(
        "{}: {} {} to leave {} {}; {} is drawn{}",
        steel.steel,
        steel.needed,
        big,
        steel.remains,
        where,
        steel.drawn,
        leaves,
    )
    yield Line(write(told, shown), tone=Tone.STRONG if steel.enough else Tone.BAD)
    parts = ((part.what, write_figure(part.size, shown)) for part in steel.parts)
    yield table((row for row in parts if _NOT_NOTHING.search(row[1])), indent=1)


def _sizes(plan: Planned, shown: Shown) -> Table:
    """The drawing as it can be expected to come out, with the spare where it shows."""
    spares = {(one.zone, one.dimension): spare_text(one.spare, shown) for one in plan.spares}
    rows = []
    for size in plan.sizes:
        good = size.state is SizeState.GOOD
        expected = write_figure(size.expected, shown, "±")
        told = expected if good else f"{expected}, {size.state.value}"
        spare = spares.get((size.zone, size.dimension), "")
        cells = (size.label, write_wanted(size.wanted, shown), told, spare)
        rows.append(Row(cells, Tone.PLAIN if good else Tone.BAD))
    return Table(tuple(rows), ("size", "wanted", "expected", "spare"))


def _step(planned: PlannedStep, shown: Shown) -> Iterator[Line]:
    step = planned.step
    yield from step_lines(step, shown)
    if step.heats_planned or step.targets:
        left = ((label(size.zone, size.dimension), size.size) for size in planned.after)
        sizes = run_on((say("{} {}", *one) for one in left), ", ")
        yield Line(write(sizes, shown), "Leaves")
    taken = run_on((say("{} {} of {}", one.cause, one.volume, one.zone) for one in planned.taken), ", ")
    yield Line(write(taken, shown), "Takes")
    yield Line("" if step.may_rest else "not after this step", "Rest")
