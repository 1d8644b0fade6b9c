"""The heat treatment, edge and haft of a tool that is being proposed, from the grade's own figures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import ceil, inf
from typing import Final

from coach.drafting.answers import Answers, CannotDraft, hafted_to
from coach.drafting.left_for_stone import edge_of, ground
from coach.drafting.proposed import Proposed
from coach.ledger.body_angle import body_angle
from coach.ledger.weigh_haft import is_seat, no_seat
from coach.metals.grade import grade
from coach.metals.grade_file import Grade
from coach.metals.hardening import (
    NORMALISING_HEATS,
    CannotHarden,
    dissolves_slowly,
    hardening_advice,
    soaked_s,
)
from coach.metals.tempering import TABLE_HOURS, temper_for
from coach.metals.tempering_table import hardened_through_mm, tempering_row
from coach.metals.transformation import upper_critical
from coach.operations.measures import read_kind_limits
from coach.quantities import Kind, SizeError
from coach.quantities.refusal import OutOfRange
from coach.recipe.model import Piece, ZoneDrawing
from coach.recipe.words import NO, NONE, YES

#: A normalising heat lies so far above the upper critical temperature (common practice, no source), °C.
_ABOVE_UPPER_C: Final = 30.0
#: An oven keeps its heat so well, °C (judgement).
_OVEN_C: Final = 10.0
#: A temper's heat is told to this (our choice), °C.
_TOLD_TO_C: Final = 5.0
#: What an edge is proposed with, unless its body opens by more itself; up to such an angle (judgement), °.
_EDGE_DEG: Final = 25
_MOST_EDGE_DEG: Final = 90
#: So much steeper than its body an edge is proposed at the least, ° (judgement).
_OVER_BODY_DEG: Final = 5.0
#: So many times as wide as it is thick a zone is a blade, which has an edge (judgement).
_BLADE_WIDE: Final = 5.0
#: From here on a new file hardly bites; softer steel it cuts, however right its temper is (from memory), HRC.
_HARDLY_BITTEN_HRC: Final = 54.0


def treatment_steps(
    answers: Answers,
    pieces: Mapping[str, Piece],
    zones: Mapping[str, ZoneDrawing],
    stone_mm: Mapping[str, float],
) -> Iterator[Proposed]:
    """Normalise, harden, temper, grind, sharpen and haft, as far as they are asked for."""
    hard = [] if answers.hard == NONE else answers.hard.split(" and ")
    if hard:
        yield from _hardened(answers, pieces, zones, hard)
    elif answers.hardness != NONE:
        raise CannotDraft("A hardness is asked for and no zone is hardened: say which under hard.")
    for zone in pieces[answers.piece].finished_zones:
        if zone in stone_mm:
            yield ground(zones[zone], "in" if answers.units == "in" else "mm")
        if zone in hard and edge_of(zones[zone]):
            yield from _sharpened(zones[zone])
    yield from _hafted(answers, pieces[answers.piece], zones)


def _sharpened(drawn: ZoneDrawing) -> Iterator[Proposed]:
    """The edge at a usual angle; a steeper one where the body behind it opens as far by itself."""
    sizes_mm = drawn.sizes_mm
    own_deg = body_angle(sizes_mm, drawn.shape.options).degrees
    angle_deg = max(_EDGE_DEG, ceil((own_deg + _OVER_BODY_DEG) / 5) * 5)
    if angle_deg <= _MOST_EDGE_DEG:
        yield Proposed("sharpen", f"{drawn.zone}, edge angle {angle_deg} ±2°")


def _hafted(answers: Answers, piece: Piece, zones: Mapping[str, ZoneDrawing]) -> Iterator[Proposed]:
    """The haft in its eye, or on the zone that is named for it."""
    to = hafted_to(answers.haft, answers.zones)
    if to in NO:
        return
    if to not in YES:
        if to in zones and (words := no_seat(zones, to, piece.finished_zones)) is not None:
            raise CannotDraft("Of the haft: {}", words)
        yield Proposed("haft", to)
        return
    eyed = [zone for zone in answers.zones if is_seat(zones[zone])]
    if not eyed:
        raise CannotDraft(
            "A haft wants an eye, and no zone has one: give one, name the zone that it is fitted to, such as "
            "a tang, or answer no to haft."
        )
    yield Proposed("haft", eyed[0])


def _hardened(
    answers: Answers, pieces: Mapping[str, Piece], zones: Mapping[str, ZoneDrawing], hard: list[str]
) -> Iterator[Proposed]:
    steel = grade(answers.steel if answers.laid_on in hard else answers.metal)
    try:
        advice = hardening_advice(steel)
    except CannotHarden as error:
        raise CannotDraft("{}", error.words) from None
    names = " and ".join(hard)
    body = answers.piece
    everywhere = f"all of {body}" if len(answers.zones) > 1 else body
    yield _made_fine(steel, everywhere, advice.high.value)
    quench = f", quench {advice.quench}" if advice.quench else ""
    heats = f"at {advice.low.value:.0f} to {advice.high.value:.0f} °C"
    yield Proposed(
        "harden",
        f"{names}, {heats}, soak {_soak(steel)}, warp at most 1 mm{quench}",
        (("check", "magnet, temperature, file test, warp"),),
        "Hardening heats and quench are the grade's own.",
    )
    yield _temper(answers, steel, advice.quench, zones, hard)


def _made_fine(steel: Grade, everywhere: str, high_c: float) -> Proposed:
    """What makes fine the grain that the forging left: an annealing where it is not normalised."""
    heat = f"{_normal(steel, high_c)} °C"
    if steel.normalising_low_c is None and dissolves_slowly(steel):
        how = "To an even heat, then buried in dry ash or lime until it is cold."
        why = steel.unknown.get("normalising_low_c", "")
        return Proposed("anneal", f"{everywhere}, at {heat}", (("how", how),), why)
    return Proposed(
        "normalise",
        f"{everywhere}, {NORMALISING_HEATS} heats, at {heat}",
        (("how", "Each time to an even heat, and still air until it is black."),),
    )


def _soak(steel: Grade) -> str:
    """How long it is held at its hardening heat, of most steels the least that their page says."""
    least, most = (f"{one / 60.0:g}" for one in soaked_s(steel))
    return f"{least} to {most} min" if dissolves_slowly(steel) else f"{least} min"


def _normal(steel: Grade, high_c: float) -> str:
    """What a steel is normalised at, in °C: by its own figures; without them so far above where it turns."""
    if steel.normalising_low_c is not None and steel.normalising_high_c is not None:
        low, high = f"{steel.normalising_low_c:.0f}", f"{steel.normalising_high_c:.0f}"
        return low if low == high else f"{low} to {high}"
    turned_c = upper_critical(steel.nominal).celsius if steel.composition else high_c
    return f"{-(-(turned_c + _ABOVE_UPPER_C) // 10) * 10:.0f}"


def _temper(
    answers: Answers, steel: Grade, quench: str, zones: Mapping[str, ZoneDrawing], hard: list[str]
) -> Proposed:
    names = " and ".join(hard)
    if answers.hardness == NONE:
        return Proposed(
            "temper", f"{names}, at 190 to 210 °C, soak at least 1.5 h", (("check", "temperature, soak"),)
        )
    try:
        wanted = read_kind_limits(Kind.HARDNESS, answers.hardness, "mm", None)
    except SizeError as error:
        raise CannotDraft("{}", error.words) from None
    thick_mm, through_mm = _thinnest_mm(zones, hard), hardened_through_mm(steel.name, quench)
    why = "By the published table of its steel; at once after the quench."
    if thick_mm is not None and through_mm is not None and _is_edged(zones, hard) and thick_mm > through_mm:
        why = (
            f"{why[:-1]}. Good for an edge up to {through_mm:g} mm thick: thin it to that before the quench."
        )
        thick_mm = through_mm
    row = tempering_row(steel.name, thick_mm, quench)
    if row is None:
        raise CannotDraft(
            f"No tempering of {steel.name} is published here, so no heat can be proposed for a hardness: "
            f"answer none to hardness, and temper by coupons."
        )
    try:
        found = temper_for(row, (wanted.low, wanted.high), TABLE_HOURS)
    except OutOfRange as error:
        raise CannotDraft("{}", error.words) from None
    at_c = round(found.nominal.value / _TOLD_TO_C) * _TOLD_TO_C
    line = f"{names}, at {at_c - _OVEN_C:.0f} to {at_c + _OVEN_C:.0f} °C, soak {TABLE_HOURS:g} h"
    hardness = f"{wanted.low:g} to {wanted.high:g}"
    checks = "temperature, soak" + (", file test" if wanted.low >= _HARDLY_BITTEN_HRC else "")
    return Proposed(
        "temper",
        f"{line}, hardness {hardness}",
        (("check", checks),),
        why,
    )


def _is_edged(zones: Mapping[str, ZoneDrawing], hard: list[str]) -> bool:
    """Whether all that is hardened is as wide for its thickness as a blade is: it is its edge that counts."""
    sizes = [zones[zone].sizes_mm for zone in hard]
    return all(one.get("width", 0.0) >= _BLADE_WIDE * one.get("thickness", inf) for one in sizes)


def _thinnest_mm(zones: Mapping[str, ZoneDrawing], hard: list[str]) -> float | None:
    found = [
        limits.nominal
        for zone in hard
        for name in ("end_thickness", "thickness", "side", "diameter", "across_flats", "end_diameter")
        if (limits := zones[zone].limits.get(name)) is not None
    ]
    return min(found, default=None)
