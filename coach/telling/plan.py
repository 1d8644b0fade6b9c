"""A recipe's plan as it is told before the first heat: what to take, where to mark it, and every step."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from itertools import zip_longest
from types import MappingProxyType
from typing import NamedTuple

from coach.bench.planned import Planned, PlannedStep, SizeLeft
from coach.bench.steel import head_words
from coach.forms import label, listed
from coach.ledger.laid_steel import SteelToLay
from coach.ledger.plan import MarkOnBar, PlannedPiece
from coach.ledger.plan import Row as BarRow
from coach.ledger.verdict import PlanState, SizeState
from coach.quantities.figure import Figure, share
from coach.quantities.words import Words, as_words, counted, run_on, say
from coach.telling.doubt import sources_text
from coach.telling.figures import NOT_KNOWN, write_figure, write_span, write_wanted
from coach.telling.page import Line, Page, Row, Section, Table, Tone, page, section, table
from coach.telling.sizes import expected_text, spare_text
from coach.telling.skin import skin_section
from coach.telling.step import step_lines
from coach.telling.why import stands_text
from coach.telling.will_pass import will_pass_text
from coach.telling.words import sentence, write
from coach.telling.worth_a_look import worth_a_look
from coach.telling.writing import Shown

#: A share too small to be told says nothing.
_NOT_NOTHING = re.compile("[1-9]")
_NOTHING_DRAWN: Mapping[str, str] = MappingProxyType({})
#: What a step adds is told where it is this share of all that comes together, with that of the marked bar
#: (our choice).
_ADDS_MUCH = 0.15
#: What is drawn out later by less than this is cut as it is to be, mm (our choice).
_DRAWN_LATER_MM = 0.05
_SIGNS = {PlanState.ON_PLAN: "✓", PlanState.TIGHT: "~", PlanState.OFF_PLAN: "✗"}
_TONES = {PlanState.ON_PLAN: Tone.GOOD, PlanState.TIGHT: Tone.CARE, PlanState.OFF_PLAN: Tone.BAD}


class Drawings(NamedTuple):
    """What is drawn of a plan, as lines of text."""

    bars: Mapping[str, str] = _NOTHING_DRAWN  # each piece's, with its marks
    finished: Mapping[str, str] = _NOTHING_DRAWN  # what is left in the end, by its piece


NOTHING_DRAWN = Drawings()


def plan_page(plan: Planned, shown: Shown, drawn: Drawings = NOTHING_DRAWN) -> Page:
    """Everything about a recipe before the first heat."""
    return page(
        section("", facts(plan, shown)),
        right_first(plan, shown),
        *stock_page(plan, shown, drawn).sections,
        *(
            section(f"The finished {piece}", [Line(lines, as_it_stands=True)])
            for piece, lines in drawn.finished.items()
        ),
        *outcome_page(plan, shown).sections,
        section("Steps", [steps_table(plan, shown), *doubt_lines(plan, shown)]),
        *(
            Section(part.heading, (*part.body, Line("")))
            for part in (step_section(step, shown) for step in plan.steps)
        ),
    )


def right_first(plan: Planned, shown: Shown) -> Section:
    """What is to be put right before the fire is lit."""
    wrong = (
        *(finding.placed for finding in plan.findings),
        *(question.placed for question in plan.questions),
        *worth_a_look(plan),
    )
    return section(
        "To put right first", (Line(write(words, shown), mark="!", tone=Tone.BAD) for words in wrong)
    )


def stock_page(plan: Planned, shown: Shown, drawn: Drawings = NOTHING_DRAWN) -> Page:
    """What to have at hand: tools, bars with their marks, lengths to cut, steel to lay on."""
    return page(
        section("Tools", (Line(tool, mark="-") for tool in plan.tools)),
        *(_stock(piece, shown, drawn.bars.get(piece.piece, "")) for piece in plan.pieces),
        *(_row(row, shown) for row in plan.rows),
        section("Lengths to cut", [table(cut_rows(plan, shown))]),
        section("Steel to lay on", (part for steel in plan.laid for part in _laid(steel, shown))),
    )


def outcome_page(plan: Planned, shown: Shown) -> Page:
    """How the drawing can be expected to come out."""
    return page(
        skin_section("Skin that the fire takes the carbon out of", plan.skins, shown, planned=True),
        section("Finished sizes", [_sizes(plan, shown)]),
    )


def step_section(step: PlannedStep, shown: Shown) -> Section:
    """One step in full."""
    return section(step_heading(step), _step(step, shown))


def step_heading(step: PlannedStep) -> str:
    """A step by its number and its title."""
    return f"{step.step.number}. {step.step.title}"


def facts(plan: Planned, shown: Shown) -> Iterator[Line]:
    """What it makes, how it stands and how long it takes."""
    yield Line(plan.summary)
    yield Line(stands_text(plan, shown), mark=_SIGNS[plan.verdict], tone=_TONES[plan.verdict])
    will = will_pass_text(plan.will_pass, shown)
    yield Line(f"Will pass: {will}." if will else "")
    yield Line(write(_shops_own(plan), shown))
    work = say("{}, {}", counted(len(plan.steps), "step"), fire_words(plan))
    duration = as_words(plan.duration)
    mass = say("{:~}", plan.finished_mass) if plan.head is None else head_words(plan.head)
    yield Line(sentence(say("{}; finished, it weighs {}", run_on((work, duration), ", "), mass), shown))


def _shops_own(plan: Planned) -> Words:
    """Which figures are the shop's own, and how it would stand by the published ones."""
    if plan.published is None:
        return Words()
    told = run_on(plan.shops_own, "; ")
    stood, chance = str(plan.published.verdict), share(plan.published.chance)
    return say("By the shop's own figures: {}. By the published ones: {}, {:chance}.", told, stood, chance)


def fire_words(plan: Planned) -> Words:
    """How long the heats keep a smith: `37 heats, 3 to 7 h at the fire`."""
    if not plan.heats:
        return as_words("no heat")
    heats, hours = counted(plan.heats, "heat"), plan.at_the_fire
    if plan.heats_here not in (None, plan.heats):
        heats = f"{heats} planned and about {plan.heats_here} taken as this shop takes them"
    if hours.low:
        return say("{}, {} at the fire", heats, hours)
    return say("{}, up to {} at the fire", heats, hours._replace(low=hours.high))


def _stock(piece: PlannedPiece, shown: Shown, drawn: str) -> Section:
    """The bar, and where to mark and punch it, measured from the end that zones begin at."""
    rows = [(write(say("mark at {}", mark.at), shown), end_words(mark)) for mark in piece.marks]
    rows += [
        (write(say("punch at {}", centre.at), shown), f"middle of the {centre.zone}, for its hole")
        for centre in piece.centres
    ]
    lengths = [(zone.zone, write(say("from {} of bar", zone.length), shown)) for zone in piece.zones]
    left_over = None if piece.in_row else piece.left_over  # told of the whole row
    missing = left_over is not None and left_over.value < 0.0
    return section(
        f"Stock for the {piece.piece}",
        [
            Line(bar_text(piece, shown), tone=Tone.STRONG),
            Line(sentence(_left(left_over), shown), tone=Tone.BAD if missing else Tone.PLAIN),
            table(lengths if len(lengths) > 1 else (), indent=1),
            Line("Measured from one end:"),
            Line(drawn, as_it_stands=True),
            table(rows, indent=1),
        ],
    )


def _row(row: BarRow, shown: Shown) -> Section:
    """Several pieces on one bar: their marks in one row."""
    names = listed([one.piece for one in row.pieces])
    rows = []
    for one, after in zip_longest(row.pieces, row.pieces[1:]):
        then = f", {after.piece} begins" if after is not None else ""
        cut = f"; step {one.cut_in} cuts it off, kerf and all" if one.cut_in is not None else ""
        rows.append((write(say("mark at {}", one.ends), shown), f"{one.piece} ends{then}{cut}"))
    return section(
        f"One bar for {names}",
        [
            Line(write(say("{} of it in all, marked in one row from its end:", row.length), shown)),
            table(rows, indent=1),
            Line(f"{row.order[:1].upper()}{row.order[1:]}." if row.order else ""),
            Line(sentence(_left(row.left_over), shown)),
        ],
    )


def bar_text(piece: PlannedPiece, shown: Shown) -> str:
    """A piece's bar or its stack: its metal, its section, how much of it and what that weighs."""
    return " ".join(filter(None, (sentence(_bar(piece), shown), _layers_text(piece))))


def section_text(piece: PlannedPiece, shown: Shown) -> str:
    """The section of a piece's bar: `flat 45 × 35 mm`."""
    return write(_section(piece), shown)


def _section(piece: PlannedPiece) -> Words:
    *across, last = piece.stock.sizes
    sizes = run_on([*(say("{:n}", size) for size in across), say("{}", last)], " × ")
    return say("{} {}", piece.stock.form, sizes)


def _bar(piece: PlannedPiece) -> Words:
    if piece.stack:
        return say("{}, each {} long, {} in all", _stacked(piece), piece.length, piece.mass)
    metal = f"from the {piece.source}" if piece.source else piece.metal
    return say("{}, {}: {} of it, {}", metal, _section(piece), piece.length, piece.mass)


def _stacked(piece: PlannedPiece) -> Words:
    """The bars of a stack, those alike told together."""
    alike = Counter(piece.stack)
    bars = (
        say("{} of {}, {:n} × {}", count, one.metal, one.sizes[0], one.sizes[1])
        for one, count in alike.items()
    )
    return run_on(bars, "; ")


def _layers_text(piece: PlannedPiece) -> str:
    """How the layers of a stack lie, and how many they come to; nothing of a bar."""
    if not piece.stack:
        return ""
    row = ", ".join(one.metal for one in piece.stack)
    folded = f", folded to {piece.layers}" if piece.layers > len(piece.stack) else ""
    return f"{len(piece.stack)} layers{folded}, from below {row}."


def _left(left_over: Figure | None) -> Words:
    if left_over is None:
        return Words()
    over = left_over.value >= 0.0
    left = left_over._replace(value=abs(left_over.value))
    return say("{} of the bar in hand {}", left, "is left over" if over else "is missing")


def end_words(mark: MarkOnBar) -> str:
    """What a mark is: a boundary, the end to cut at, or where a bar ends that serves as a handle."""
    if mark.begins:
        return f"{mark.ends} ends, {mark.begins} begins"
    if mark.cut_in is not None:
        return f"{mark.ends} ends, kerf and all; leave it on its bar, step {mark.cut_in} cuts it"
    return f"{mark.ends} ends: cut here"


def cut_rows(plan: Planned, shown: Shown) -> Iterator[tuple[str, ...]]:
    """Each length to cut at, and how much of it is drawn out later."""
    for cut in plan.cuts:
        short = (
            say("{} shorter than it will be drawn", cut.short_by)
            if cut.short_by.value >= _DRAWN_LATER_MM
            else ""
        )
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
        expected = expected_text(size, shown)
        told = expected if good else f"{expected}, {size.state.value}"
        spare = spares.get((size.zone, size.dimension), "")
        cells = (size.label, write_wanted(size.wanted, shown), told, spare)
        rows.append(Row(cells, Tone.PLAIN if good else Tone.BAD))
    return Table(tuple(rows), ("size", "wanted", "expected", "spare"))


def _size_left(size: SizeLeft) -> Words:
    told = say("{} {}", label(size.zone, size.dimension), size.size)
    if size.beaten is None:
        return told
    return say("{} with its steel standing out, {} once both are one section", told, size.beaten)


def _step(planned: PlannedStep, shown: Shown) -> Iterator[Line]:
    step = planned.step
    yield from step_lines(step, shown)
    if step.heats_planned or step.targets:
        sizes = run_on(map(_size_left, planned.after), ", ")
        yield Line(write(sizes, shown), "Leaves")
    taken = run_on((say("{} {} of {}", one.cause, one.volume, one.zone) for one in planned.taken), ", ")
    yield Line(write(taken, shown), "Takes")
    yield Line("" if step.may_rest else "not after this step", "Rest")


def steps_table(plan: Planned, shown: Shown) -> Table:
    """Every step in a row: its heats, how long they take, and how well what decides is known after it."""
    brings = brought_in(plan)
    marked = plan.decides.doubt_marked if plan.decides is not None else None
    all_of_it = [*brings.values(), *([marked] if marked is not None else [])]
    much = _ADDS_MUCH * sum(one.value**2 for one in all_of_it)
    rows = []
    for one in plan.steps:
        number, doubt = one.step.number, one.doubt
        brought = brings.get(number)
        tells = brought is not None and brought.value**2 >= much
        cells = (
            f"{number:>2}",
            one.step.title,
            f"{one.step.heats_planned or '-':>5}",
            write_span(one.at_the_fire, shown) if one.at_the_fire is not None else NOT_KNOWN,
            give_or_take(brought, shown) if brought is not None and tells else "",
            give_or_take(doubt, shown) if doubt is not None else "",
        )
        rows.append(Row(cells, Tone.CARE if tells else Tone.PLAIN))
    return Table(tuple(rows), STEP_HEADS, gives=1)


STEP_HEADS = ("", "step", "heats", "time", "adds", "known to")


def brought_in(plan: Planned) -> dict[int, Figure]:
    """The doubt that each step brings in to the size that decides, by its number: a standard uncertainty.

    Doubts that have nothing to do with one another add up by their squares. A cut takes doubt away: what it
    leaves is known by the cut.
    """
    before = plan.decides.doubt_marked if plan.decides is not None else None
    found = {}
    for one in plan.steps:
        if one.doubt is None:
            continue
        if before is not None and one.doubt.value > before.value:
            more = (one.doubt.value**2 - before.value**2) ** 0.5
            found[one.step.number] = one.doubt._replace(value=more)
        before = one.doubt
    return found


def give_or_take(doubt: Figure, shown: Shown) -> str:
    """A doubt by itself, as it is told beside a value: `±7 mm`."""
    told = write_figure(Figure(0.0, doubt.kind, doubt.value), shown, "±")
    return f"±{told.partition('±')[2]}"


def doubt_lines(plan: Planned, shown: Shown) -> Iterator[Line]:
    """Where the doubt of the size that decides comes from."""
    decides = plan.decides
    if decides is None:
        return
    marked = decides.doubt_marked
    begins = f"{give_or_take(marked, shown)} on the marked bar, " if marked is not None else ""
    yield Line(
        f"Where the doubt comes from: the {label(decides.zone, decides.dimension)} decides. "
        f"Unmeasured it is known to {begins}{give_or_take(decides.doubt, shown)} at the end"
        f"{f': {sources_text(decides.sources)}' if decides.sources else ''}."
    )


def step_text(plan: Planned, at: int, shown: Shown) -> str:
    """A step by its place, in a line: its heats, their time, and what it does to the size that decides."""
    one, brought = plan.steps[at], brought_in(plan).get(plan.steps[at].step.number)
    heats = counted(one.step.heats_planned, "heat") if one.step.heats_planned else "no heat"
    time = write_span(one.at_the_fire, shown) if one.at_the_fire is not None else "time not known"
    told = f"Step {one.step.number} of {len(plan.steps)}: {heats}, {time}."
    if one.doubt is None or plan.decides is None:
        return told
    size = label(plan.decides.zone, plan.decides.dimension)
    adds = f" It adds {give_or_take(brought, shown)} of doubt;" if brought is not None else ""
    after = f" the {size}, which decides, is known to {give_or_take(one.doubt, shown)} after it."
    return f"{told}{adds}{after if adds else f' T{after[2:]}'}"
