"""Proposes a whole recipe for a tool as it is answered for: steps, heats, treatment, allowances."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import floor, inf
from typing import Final

from coach.bench.margins import allowances_for
from coach.drafting.answers import (
    Answers,
    CannotDraft,
    bare_sizes,
    drawn,
    head_lines,
    with_limits,
    with_steel_of,
)
from coach.drafting.checked import CHANCES, NONE_WRITTEN, Draft, checked, is_sound, worth
from coach.drafting.free_limits import with_free_limits
from coach.drafting.gathered_first import to_gather
from coach.drafting.kept_limits import kept_by_hand
from coach.drafting.left_for_stone import left_for_stone_mm, thicker, with_sizes
from coach.drafting.proposed import SAME_SHARE, Proposed
from coach.drafting.treatment import treatment_steps
from coach.drafting.zone_steps import root_section, zone_steps
from coach.finish.laid import LEAST_CLEFT_OF_THICKNESS
from coach.fire.colours import HEAT_COLOURS
from coach.fire.limits import burns_above, common_range, worked_at
from coach.ledger.looking_back import look_back
from coach.ledger.weigh_sizes import longest_on_seat_mm
from coach.ledger.working import LedgerError
from coach.metals.grade import grade
from coach.operations import Shape, operation
from coach.operations.does import HeatKind
from coach.quantities import NOTHING, SizeError, read_length_mm, say
from coach.quantities.units import System
from coach.recipe.faults import RecipeFaults
from coach.recipe.limits_written import size_text
from coach.recipe.model import Piece, Stock, ZoneDrawing
from coach.recipe.reader import read_recipe
from coach.recipe.words import NONE

#: Limits of a length that is given none, as shares of it, the closest first (judgement).
_LENGTH_SHARES: Final = (0.08, 0.12, 0.18)
#: What a saw takes (common practice, no source).
_KERF_MM: Final = 2.0
_KERF_IN: Final = "5/64"
#: A bar thicker than this is cut hot (judgement).
_SAWN_UP_TO_MM: Final = 30.0
#: The forging heat is named by the hottest colour so far below the highest that the metal stands (judgement).
_BELOW_HIGHEST_C: Final = 60.0
#: A weld is begun so far up from the least that takes towards the most that the metals stand (judgement).
_WELD_SHARE: Final = 0.5
_WELD_HEATS: Final = 2
#: Where no welding heat of a metal is published, it is so far below the least that burns one (judgement).
_BELOW_BURNING_C: Final = 30.0

#: So often is steel fitted to its seat at most (our choice).
_MOST_SEATINGS = 4


def drafted(answers: Answers) -> Draft:
    """The recipe; raises CannotDraft and LedgerError in one sentence each.

    Lengths without limits are given the closest that can be kept, and as much is marked out more as they
    leave room for. Steel that is longer than what it is laid on is proposed as long as that.
    """
    _check_names(answers)
    draft, told = _closest(answers), NOTHING
    for _ in range(_MOST_SEATINGS):
        longest_mm = _longest_mm(draft)
        if longest_mm is None:
            break
        answers = with_steel_of(answers, longest_mm)
        draft = _closest(answers)
        told = say(
            "The steel was answered longer: {} is shorter where it is laid on, and is drawn out with it "
            "afterwards. It is proposed as {}.",
            *(answers.laid_on, answers.steel_size),
        )
    draft = kept_by_hand(
        _for_the_stone(answers, draft), bare_sizes(answers), "in" if answers.units == "in" else "mm"
    )
    return draft._replace(otherwise=told)


def _for_the_stone(answers: Answers, draft: Draft) -> Draft:
    """The same with its thin hard edges forged thicker and ground, where that is as sound."""
    stone_mm = left_for_stone_mm(draft.plan, answers.hard.split(" and "))
    if not stone_mm:
        return draft
    try:
        other = _closest(answers, stone_mm)
    except (CannotDraft, LedgerError, RecipeFaults):
        return draft
    return other if is_sound(other) else max(draft, other, key=worth)


def _longest_mm(draft: Draft) -> float | None:
    """How long the steel may be at most, in mm, where it is longer than what it is laid on."""
    laying = (step for step in draft.plan.recipe.steps if step.lays is not None)
    found = (longest_on_seat_mm(draft.plan, step) for step in laying)
    return next((longest_mm for longest_mm in found if longest_mm is not None), None)


def _closest(answers: Answers, stone_mm: Mapping[str, float] = NONE_WRITTEN) -> Draft:
    tried = []
    for share in _LENGTH_SHARES:
        tried.append(_proposed(with_limits(answers, share), stone_mm, share))
        if is_sound(tried[-1]):
            break
    return max(tried, key=worth)


def _proposed(answers: Answers, stone_mm: Mapping[str, float], share: float) -> Draft:
    """With limits of such a share; what its bar has too little metal for is gathered up first."""
    first = _worked(answers, stone_mm, share, {})
    up_first = to_gather(first.plan, "in" if answers.units == "in" else "mm") if not is_sound(first) else {}
    if not up_first:
        return first
    try:
        return max(_worked(answers, stone_mm, share, up_first), first, key=worth)
    except (CannotDraft, LedgerError, RecipeFaults):
        return first


def _worked(
    answers: Answers, stone_mm: Mapping[str, float], share: float, up_first: Mapping[str, Proposed]
) -> Draft:
    pieces, zones = drawn(answers)
    unit: System = "in" if answers.units == "in" else "mm"
    _check_branches(answers, pieces[answers.piece])
    forged = thicker(zones, stone_mm)
    steps = [
        *_forging(answers, pieces, forged, unit, stone_mm, up_first),
        *treatment_steps(answers, pieces, zones, stone_mm),
    ]
    found = []
    for chance in (*CHANCES, None):
        lines = [*head_lines(answers), *_usual(answers, unit, chance), "", "steps:"]
        for step in steps:
            lines += [*step.lines(), ""]
        proposed = _with_limits("\n".join(lines).rstrip() + "\n", share, unit)
        if chance is not None and allowances_for(read_recipe(proposed.text, "proposed"), chance):
            continue  # so much spare would leave a size beside the drawing
        found.append(proposed)
        if is_sound(found[-1]):
            break
    return max(found, key=worth)


def _with_limits(text: str, share: float, unit: System) -> Draft:
    """A text as it stands, and with limits for what its metal makes."""
    limited = with_free_limits(text, "proposed", look_back(read_recipe(text, "proposed")), share, unit)
    return checked(limited)


def _check_names(answers: Answers) -> None:
    if answers.has_steel and not (answers.steel and answers.steel_bar and answers.steel_size):
        raise CannotDraft("Steel is laid on: say its metal, its bar and its size ready to be laid on.")
    asked = [one for one in (answers.laid_on, *answers.hard.split(" and ")) if one != NONE]
    for name in asked:
        if name not in answers.zones:
            raise CannotDraft(f"There is no zone “{name[:30]}”: the zones are {', '.join(answers.zones)}.")


def _check_branches(answers: Answers, body: Piece) -> None:
    """Raise CannotDraft where a zone that is split, or a branch, is asked for what is done to others."""
    for name in answers.hard.split(" and "):
        if name in body.branches:
            into = " and ".join(one.zone for one in body.branches[name])
            raise CannotDraft(f"{name} is split into {into}: name those of them that are to be hard.")
    laid_on = answers.laid_on
    if laid_on in body.branches or (answers.has_steel and laid_on not in body.zones):
        raise CannotDraft(
            f"No weld is proposed for {laid_on}, which is split or is a branch: answer none to the steel, "
            f"and write its weld into the file."
        )


def _usual(answers: Answers, unit: System, chance: float | None) -> Iterator[str]:
    colour = forging_colour(answers.metal)
    at = f"at: {colour}, " if colour else ""
    margin = f", margin: enough for {100.0 * chance:.0f} %" if chance else ""
    yield f"usual: {{{at}kerf: {_KERF_IN if unit == 'in' else size_text(_KERF_MM, unit)}{margin}}}"


def forging_colour(metal: str) -> str:
    """The hottest colour that a metal is forged at, with something in hand; empty where that is not known."""
    high = worked_at(grade(metal))[1].temperature
    if high is None:
        return ""
    within = [
        colour.name
        for colour in HEAT_COLOURS.table().colours
        if colour.temperature_c <= high.value - _BELOW_HIGHEST_C
    ]
    return within[-1] if within else ""


def no_hotter(colour: str, metal: str) -> str:
    """A forging colour, or the metal's own where that is a darker one; empty where none is said."""
    order = [one.name for one in HEAT_COLOURS.table().colours]
    own = forging_colour(metal) if metal and colour in order else ""
    return own if own and order.index(own) < order.index(colour) else colour


def _forging(
    answers: Answers,
    pieces: Mapping[str, Piece],
    zones: Mapping[str, ZoneDrawing],
    unit: System,
    stone_mm: Mapping[str, float],
    up_first: Mapping[str, Proposed],
) -> Iterator[Proposed]:
    body = pieces[answers.piece]
    order = sorted(body.zones, key=lambda zone: zones[zone].shape.kind != "eyed")
    yield Proposed(
        "mark out", body.name, (("how", "Square the end, and punch every mark from there on two faces."),)
    )
    made = {zone: [*_made(body, zone, zones, unit)] for zone in order}
    made |= {zone: [*with_sizes(made[zone], zones[zone], unit)] for zone in order if zone in stone_mm}
    made |= {zone: [up_first[zone], *made[zone]] for zone in order if zone in up_first}
    last = body.zones[-1]
    if len(body.zones) == 1:
        yield _cut(body, last, made[last])
    for zone in (one for one in order if one != last):
        yield from made[zone]
        if zone == answers.laid_on:
            raise CannotDraft(
                f"Steel is laid on the last zone of the bar, and {zone} is not that: give the zones from the "
                f"other end."
            )
    if len(body.zones) > 1:
        yield _cut(body, last, made[last])
    if last == answers.laid_on:
        yield from _laid(answers, pieces, zones, last, made[last], unit)
    else:
        yield from made[last]


def _made(body: Piece, zone: str, zones: Mapping[str, ZoneDrawing], unit: System) -> Iterator[Proposed]:
    """The steps that make a zone, and what it is split into, one branch after the other."""
    yield from zone_steps(body, zones[zone], unit)
    into = body.branches.get(zone, ())
    if not into:
        return
    yield Proposed("split", zone, (("how", _SPLIT),))
    sizes = zones[zone].sizes_mm
    wide_mm, thick_mm = (sizes.get(name, sizes.get("side", 1.0)) for name in ("width", "thickness"))
    for branch in into:
        cut = Stock(Shape("flat"), {"width": branch.share * wide_mm, "thickness": thick_mm})
        yield from _made(body._replace(stock=cut), branch.zone, zones, unit)


_SPLIT: Final = (
    "A small hole where it ends, then the hot chisel from it outwards, from both faces. Bend the branches "
    "apart, and cool the one that is not worked."
)


def _cut(body: Piece, zone: str, after: list[Proposed]) -> Proposed:
    thick_mm = min(body.stock.sizes_mm.values())
    cold = thick_mm <= _SAWN_UP_TO_MM
    remark = "Cut short of its finished length: it is drawn longer yet." if after else ""
    return Proposed("cut", f"{zone}, {'cold' if cold else '1 heat'}", (), remark)


def _laid(
    answers: Answers,
    pieces: Mapping[str, Piece],
    zones: Mapping[str, ZoneDrawing],
    zone: str,
    made: list[Proposed],
    unit: System,
) -> Iterator[Proposed]:
    """A zone that steel is welded to: worked to where it is laid on, welded, then finished."""
    drawing = zones[zone]
    steel, inset_mm = zones[answers.steel_name], _inset_mm(answers)
    section, tapers = root_section(drawing, unit), "taper" in drawing.shape.kind
    wide = drawing.limits.get("width")
    if tapers and wide is not None and (on := steel.limits.get("width")) and on.nominal > wide.nominal:
        wide = on  # the seat of what is wider than the root of the taper: that is drawn in afterwards
        section = f"{size_text(on.nominal, unit)} x {size_text(drawing.limits['thickness'].nominal, unit)}"
    if tapers:
        bar_mm = max(pieces[answers.piece].stock.sizes_mm.values())
        wider = wide is not None and wide.nominal > (1.0 + SAME_SHARE) * bar_mm
        yield Proposed(
            "spread" if wider else "draw",
            f"{zone}, {section}",
            (("how", "To the section that the steel is laid on."),),
        )
    else:
        yield from made
    if inset_mm:
        thick_mm = drawing.limits["thickness"].nominal if "thickness" in drawing.limits else 0.0
        depth_mm = max(inset_mm, LEAST_CLEFT_OF_THICKNESS * thick_mm)
        yield Proposed(
            "groove",
            f"{zone}, groove depth {size_text(depth_mm, unit)}",
            (("how", "Straight down the middle, from both sides, the chisel cooled every few blows."),),
        )
    yield Proposed("cut", f"{steel.zone}, cold")
    yield from _no_hotter(answers, zone_steps(pieces[answers.steel_name], steel, unit))
    heat, remark = _weld_heat(answers)
    more = f", inset {size_text(inset_mm, unit)}" if inset_mm else ""
    yield Proposed(
        "weld",
        f"{zone} with {steel.zone}, {section}, {_WELD_HEATS} heats{heat}{more}",
        (
            ("how", "Both brushed and fluxed; set with light blows from the middle outwards, then firmly."),
            ("watch", "Sparks mean burnt steel, which must come off."),
            ("flux", "borax, before each heat"),
        ),
        remark,
    )
    if tapers:
        yield from _no_hotter(answers, made)


def _no_hotter(answers: Answers, steps: list[Proposed]) -> Iterator[Proposed]:
    """Forging steps on the steel, at its own heat where that is below the usual one, which is the iron's."""
    usual, own = forging_colour(answers.metal), forging_colour(answers.steel)
    order = [colour.name for colour in HEAT_COLOURS.table().colours]
    if not (usual and own and order.index(own) < order.index(usual)):
        yield from steps
        return
    for step in steps:
        forged = operation(step.operation).HEAT_KIND is HeatKind.FORGING and "cold" not in step.line
        yield step._replace(line=f"{step.line}, at {own}") if forged else step


def _inset_mm(answers: Answers) -> float:
    if answers.inset == NONE:
        return 0.0
    try:
        return read_length_mm(answers.inset, answers.units)
    except SizeError as error:
        raise CannotDraft("{}", error.words) from None


def _weld_heat(answers: Answers) -> tuple[str, str]:
    """What the weld is said to be done at, and a remark where no welding heat of a metal is published."""
    metals = [grade(answers.metal), grade(answers.steel)]
    together = common_range(metals, welding=True)
    low, high = together.low, together.high or together.ceiling
    if high is not None:
        at_c = high.value if low is None else low.value + _WELD_SHARE * max(high.value - low.value, 0.0)
        return f", at {round(at_c, -1):.0f} °C", ""
    unknown = [one.name for one in metals if worked_at(one, welding=True)[1].temperature is None]
    burns_c = [limit.value for one in metals if (limit := burns_above(one, inf)) is not None]
    if len(burns_c) < len(metals):
        return "", ""
    at_c = floor((min(burns_c) - _BELOW_BURNING_C) / 10.0) * 10.0
    told = f"No welding heat is published for {' and '.join(unknown)}: weld and bend a coupon first."
    return f", at {at_c:.0f} °C", told
