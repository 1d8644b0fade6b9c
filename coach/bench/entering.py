"""Reads what was typed for a reading: which size, how big, by what gauge and how hot."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import isclose
from typing import NamedTuple, TypeGuard, get_args

from coach.bench.gauged import usual_gauge
from coach.bench.job_state import JobState
from coach.bench.no_such_zone import no_such_zone
from coach.bench.out_of_true import by_corners, size_by_two_mm
from coach.bench.read_there import read_there
from coach.bench.short_names import zones_by_short_name
from coach.fire.colours import COLOUR_DOUBT_C, FIGURE_DOUBT_C, HEAT_COLOURS, word_doubt_c
from coach.forms import label, said
from coach.ledger.course import Course
from coach.ledger.own_curves import treatment_before
from coach.ledger.tines import splits_alike
from coach.ledger.wanting import centre_wanted
from coach.ledger.weighing import kind_of
from coach.log.body import Body
from coach.log.kinds.corrected import Corrected
from coach.log.kinds.reading import Reading
from coach.metals.thermal import elongation
from coach.operations import Does, operation
from coach.operations.does import HeatKind
from coach.operations.gauges import BY_COLOUR, GAUGES, PYROMETER, TOLD_BY, by_gauge, doubts_of
from coach.operations.measures import CENTRE, DIAGONALS, HARDNESS, MASS, MEASURED, OTHER_TINE, SLUG, looked_at
from coach.operations.shape import Shape
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import Kind, SizeError, read_temperature_c
from coach.quantities.amounts import LENGTH, read_mass_g
from coach.quantities.errors import briefly, did_you_mean, nearest, odd_in
from coach.quantities.figure import COVERAGE
from coach.quantities.numerals import NUMBER, tidy
from coach.quantities.refusal import NotKnown, OutOfRange, Refusal
from coach.quantities.units import System
from coach.recipe.model import Step

#: When a size is read hot and nobody says how hot: between a dull and a full heat, late in the heat
#: (judgement).
USUAL_HOT_C = 900.0
#: A size that is meant shares so much of its letters with the one that was typed: one of another step is not
#: guessed to be a test for the word that they share (our choice).
_NEAR_SHARE = 0.75


class EntryFault(Refusal):
    """Something that cannot be entered; one clear sentence, and nothing was written."""


class AsTyped(NamedTuple):
    """A reading as it was typed."""

    name: str  # the size, as "blade.thickness"
    text: str  # what was read, as a smith writes it
    gauge: str | None = None  # what it was read with; None takes the step's
    hot: str | None = None  # None for cold metal; "" for the step's own heat; else a temperature or a colour
    insist: bool = False  # stand by it though it seems impossible


class Then(NamedTuple):
    """When a reading was taken."""

    step: Step
    course: Course | None  # the step as far as it had gone; None where it could not be reckoned
    taken_at: str = ""  # ISO 8601 UTC where it is entered later; else ""


def read_typed(state: JobState, then: Then, system: System, typed: AsTyped) -> Reading:
    """The entry of a reading at a step; a bare number is in the units of `system`.

    Raises EntryFault: the size, its name, the gauge or the heat cannot be read.
    """
    step = then.step
    zone, dimension = _size_named(state, then, _weighed_as(state, then, typed))
    dimension = by_corners(dimension, typed.text, lambda: dimensions_now(state, zone, then))
    size, told_by, own_doubt = _size(zone, dimension, typed.text, step, system)
    usual = usual_gauge(state.plan.recipe, step, zone, dimension)
    used = told_by or _gauge(usual if typed.gauge is None else typed.gauge)
    if typed.gauge is not None and typed.gauge.strip().lower() != used:
        told = "{} is read {}, which no {} gives: leave the gauge out, or write {}."
        raise EntryFault(told, label(zone, dimension), by_gauge(used), repr(typed.gauge.strip()[:30]), used)
    # What lies on the scales weighs the same hot or cold, and a temperature is no size.
    hot_c, doubt_c = _heat_of(None if told_by else typed.hot, step)
    return Reading(
        zone=zone,
        dimension=dimension,
        typed=typed.text.strip(),
        size=size,
        gauge=used,
        hot_c=hot_c,
        hot_doubt_c=doubt_c or own_doubt,
        insisted=typed.insist,
        step=step.number,
        taken_at=then.taken_at,
        doubts=doubts_of(used),
    )


def read_correction(entry: int, was: Reading, step: Step, system: System, typed: str) -> Corrected:
    """The entry that says what a reading, number `entry`, really was; raises EntryFault.

    Gauge and heat stay as they were.
    """
    size, _, own_doubt = _size(was.zone, was.dimension, typed, step, system)
    return Corrected(
        entry=entry,
        typed=typed.strip(),
        size=size,
        hot_doubt_c=own_doubt or was.hot_doubt_c,
        insisted=False,
    )


def reading_is_of(state: JobState, then: Then, read: Reading) -> bool:
    """Whether a reading is what its text is read as, in one of the systems; raises EntryFault as typing it.

    How its heat was told is not kept: it must be one that can be told.
    """
    named = f"{read.zone}.{read.dimension}"
    hot = None if read.hot_c is None else f"{read.hot_c:.3f} °C"
    typed = AsTyped(named, read.typed, read.gauge, hot, read.insisted)

    def made(system: System) -> Reading:
        one = read_typed(state, then, system, typed).replaced(doubts=read.doubts)
        if one.hot_c is not None and _is_a_heat(read, then.step):
            return one.replaced(hot_c=read.hot_c, hot_doubt_c=read.hot_doubt_c)
        return one

    return _is_any(made, read)


def correction_is_of(made: Corrected, was: Reading, step: Step) -> bool:
    """Whether a correction is what its text is read as; see `reading_is_of`."""
    return _is_any(lambda system: read_correction(made.entry, was, step, system, made.typed), made)


def _is_any(make: Callable[[System], Body], held: Body) -> bool:
    refused: list[EntryFault] = []
    for system in get_args(System):
        try:
            if _is_as(make(system), held):
                return True
        except EntryFault as wrong:
            refused.append(wrong)
    if len(refused) == len(get_args(System)):
        raise refused[0]
    return False


def _is_as(made: Body, held: Body) -> bool:
    """Whether two entries say the same; the last digits of a figure are the computer's own."""
    pairs = zip(vars(made).values(), vars(held).values(), strict=True)
    return all(a == b or (_is_figure(a) and _is_figure(b) and isclose(a, b)) for a, b in pairs)


def _is_figure(value: object) -> TypeGuard[float]:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _is_a_heat(read: Reading, step: Step) -> bool:
    """Whether the heat that a size was read at can be told: by a figure, by a colour or as the step's own."""
    if read.hot_doubt_c == FIGURE_DOUBT_C:
        return True
    words = (word for one in HEAT_COLOURS.table().colours for word in (one.name, *one.aliases))
    told = [(HEAT_COLOURS.temperature_c(word), word_doubt_c(word)) for word in words]
    if not _is_cold(step):
        told.append(_own_heat(step))
    held = read.hot_c or 0.0, read.hot_doubt_c
    return any(isclose(hot_c or 0.0, held[0]) and isclose(doubt_c, held[1]) for hot_c, doubt_c in told)


def _size(zone: str, dimension: str, typed: str, step: Step, system: System) -> tuple[float, str, float]:
    """What was read in its kind's unit, what told of it, and the uncertainty of a temperature in °C."""
    try:
        kind = kind_of(step, dimension)
        by_two = kind is Kind.LENGTH or dimension == DIAGONALS
        if by_two and (size_mm := size_by_two_mm(dimension, typed, system)) is not None:
            return size_mm, "", 0.0
        if (
            kind is Kind.LENGTH
            and dimension in operation(step.operation).EXTRAS
            and _is_nothing(typed, system)
        ):
            return 0.0, "", 0.0  # a bend that is straight yet, a haft that does not stand proud
        return _size_of(kind, typed, step, system)
    except (SizeError, NotKnown) as error:
        raise EntryFault("{}: {}", label(zone, dimension), error.words) from None


def _is_nothing(typed: str, system: System) -> bool:
    try:
        return MEASURED[Kind.GAP].read(typed, system) == 0.0
    except SizeError:
        return False


def _size_of(kind: Kind, typed: str, step: Step, system: System) -> tuple[float, str, float]:
    """The same; raises SizeError, and NotKnown where a temperature is told by its colour."""
    if kind in (Kind.LENGTH, Kind.GAP) and system == "mm":
        _refuse_a_bare_fraction(typed)
    if kind is not Kind.TEMPERATURE:
        return MEASURED[kind].read(typed, system), TOLD_BY.get(kind, ""), 0.0
    if typed.strip()[:1].isdigit() or not typed.strip():
        return MEASURED[kind].read(typed, system), PYROMETER, MEASURED[kind].doubt or 0.0
    if step.does(Does.TEMPERS):
        from coach.fire.temper_colours import TEMPER_COLOURS, TEMPER_DOUBT_C

        return TEMPER_COLOURS.temperature_c(typed), BY_COLOUR, TEMPER_DOUBT_C / COVERAGE
    return HEAT_COLOURS.temperature_c(typed), BY_COLOUR, word_doubt_c(typed)


def _refuse_a_bare_fraction(typed: str) -> None:
    """No gauge in millimetres reads in fractions, and a slip of the unit is one of twenty-five times."""
    found = NUMBER.fullmatch(tidy(typed, LENGTH.wanted))
    if found is not None and found["bottom"] is not None:
        told, as_inches = briefly(typed), f"{typed.strip()[:20]} in"
        raise SizeError(f"{told} can be inches or millimetres; type {as_inches}, or the millimetres.")


def _gauge(name: str) -> str:
    used = name.strip().lower()
    if used not in GAUGES:
        hint = did_you_mean(used, GAUGES, f"choose from {', '.join(GAUGES)}.")
        raise EntryFault(f"There is no gauge called {name.strip()[:30]!r}{odd_in(name)}: {hint}")
    return used


def _weighed_piece(state: JobState, then: Then, name: str) -> str | None:
    """The piece that a name means when it is the piece's mass that is read; None for anything else.

    Raises EntryFault: the piece hangs on its bar still, or on another piece.
    """
    recipe = state.plan.recipe
    pieces = {piece.lower().replace(" ", "_"): piece for piece in recipe.pieces}
    found = pieces.get(name)
    if found is None:
        return None
    zones = recipe.pieces[found].zones
    done = then.step.number - 1
    for step in recipe.steps:
        if step.does(Does.CUTS_FREE) and zones[-1] in step.zones and step.number > done:
            raise EntryFault(
                f"The {found} hangs on its bar until step {step.number} cuts it off: weigh it after that."
            )
    course = then.course
    if course is not None and (host := course.now.zones[zones[0]].within) is not None:
        raise EntryFault(
            f"The {found} is welded on the {host}: weigh the {recipe.drawing[host].piece} it is part of now."
        )
    return found


def _weighed_as(state: JobState, then: Then, typed: AsTyped) -> str:
    """The name of a reading as it was typed; of a weighing, however it is told, that of the piece's mass.

    `mass` alone is of the piece in hand, and so is a piece's name before a weight.

    Raises EntryFault: the step in hand is of several pieces.
    """
    recipe, cleaned = state.plan.recipe, typed.name.strip().lower().replace(" ", "_")
    pieces = {piece.lower().replace(" ", "_"): piece for piece in recipe.pieces}
    of_piece, is_mass = cleaned.removesuffix(f"_{MASS}"), cleaned == MASS or cleaned.endswith(f"_{MASS}")
    is_zone = cleaned in (zone.lower().replace(" ", "_") for zone in recipe.drawing)
    if of_piece in pieces and (is_mass or (weighs(typed.text) and not is_zone)):
        return f"{of_piece}.{MASS}"
    if cleaned != MASS:
        return typed.name
    now, found = then.course.now.zones if then.course is not None else {}, set()
    for zone in then.step.zones or recipe.drawing:
        host = now[zone].within if zone in now else None
        found.add(recipe.drawing[host or zone].piece)
    if len(found) > 1:
        first, *_ = named = sorted(found)
        raise EntryFault(f"Which piece was weighed? Say one of {', '.join(named)}, such as {first}.{MASS}.")
    return f"{found.pop()}.{MASS}"


def weighs(text: str) -> bool:
    """Whether a text is a weight with its unit: nothing else is told in grams or pounds.

    >>> weighs("108 g"), weighs("1 lb 4 oz"), weighs("108"), weighs("8 mm")
    (True, True, False, False)
    """
    try:
        read_mass_g(text)
    except SizeError:
        return False
    return text.strip()[-1:].isalpha()


def _size_named(state: JobState, then: Then, name: str) -> tuple[str, str]:
    """The zone and dimension that a reading's name means, checked against what the zone has now."""
    drawing = state.plan.recipe.drawing
    cleaned = name.strip().lower().replace(" ", "_")
    zone, dot, dimension = cleaned.rpartition(".")
    if dimension == MASS and (piece := _weighed_piece(state, then, zone)) is not None:
        return piece, dimension
    zones = {z.lower().replace(" ", "_"): z for z in drawing}
    if not dot and dimension in zones:
        sizes = dimensions_now(state, zones[dimension], then)
        listed = ", ".join(said(one) for one in sizes)
        such_as = f"{dimension}.{sizes[0]}"
        raise EntryFault(f"Which size of the {zones[dimension]}? Say one of {listed}, such as {such_as}.")
    short = zones_by_short_name(state.plan.recipe, then.step)
    spoken = max((z for z in (*zones, *short) if cleaned.startswith(f"{z}_")), key=len, default="")
    if not dot and spoken:  # as it is shown: "blade thickness"
        zone, dimension = spoken, cleaned.removeprefix(f"{spoken}_")
    elif not dot:
        zone = then.step.zones[0].lower().replace(" ", "_") if len(then.step.zones) == 1 else ""
    if zone not in zones and zone not in short:
        raise EntryFault(no_such_zone(name.strip()[: len(zone)], zones, drawing))
    found = zones.get(zone) or short[zone]
    allowed = dimensions_now(state, found, then)
    if dimension not in allowed:
        names, what = [said(one) for one in allowed], said(dimension)
        near = nearest(what, names, _NEAR_SHARE)
        meant = f": did you mean {near}?" if near else "."
        told = f"The {found} has no {what[:30]!r}{odd_in(what)} at this step; it has {', '.join(names)}"
        of_another = read_there(state.plan.recipe, then.step, found, dimension)
        raise EntryFault(of_another or f"{told}{meant}")
    return found, _shape_now(state, found, then).one_with(dimension) or dimension


def dimensions_now(state: JobState, zone: str, then: Then) -> tuple[str, ...]:
    """What can be read of a zone at a step; raises EntryFault where it has no form of its own any more."""
    step = then.step
    extras: tuple[str, ...] = tuple(operation(step.operation).EXTRAS) if zone in step.zones else ()
    if CENTRE in extras and centre_wanted(state.plan, zone) is None:
        extras = tuple(one for one in extras if one != CENTRE)  # nothing is punched there
    if zone in step.zones and "slug" in operation(step.operation).AMOUNTS:
        extras = (*extras, SLUG)
    if zone in step.zones and step.heats and operation(step.operation).RESHAPES:
        seen = looked_at(_shape_now(state, zone, then).dimensions)
        extras = (*extras, *(one for one in seen if one not in extras))
    if splits_alike(_shape_now(state, zone, then), step, zone):
        extras = (*extras, OTHER_TINE)
    if HARDNESS not in extras and treatment_before(state.plan, step, zone) is not None:
        extras = (*extras, HARDNESS)  # a tester is put to hard steel at any step
    return (*_shape_now(state, zone, then).dimensions, *extras, *shop_tests_of(state, zone))


def _shape_now(state: JobState, zone: str, then: Then) -> Shape:
    """The shape that a zone has when it is read."""
    if then.course is not None:
        now = then.course.now.zones[zone]
        if not now.has_form:
            raise EntryFault("{}; measure the {}.", now.where_it_is, now.instead)
        return now.shape
    stages = state.plan.by_step[then.step.number]
    return stages[zone].after.shape if zone in stages else state.plan.recipe.drawing[zone].shape


def shop_tests_of(state: JobState, zone: str) -> Iterator[str]:
    """The tests of the shop that a zone can be put to: of a weld only where one is planned or made."""
    does = {
        what
        for step in state.plan.recipe.steps
        if zone in step.zones
        for what in operation(step.operation).DOES
    }
    for name, test in SHOP_TESTS.items():
        if not test.of_work or does.intersection(test.of_work):
            yield name


def _is_cold(step: Step) -> bool:
    """Whether a step has no heat of its own."""
    return step.heat_kind is HeatKind.COLD and step.temperature_c is None


def _own_heat(step: Step) -> tuple[float, float]:
    """What metal has in a step where nobody says it, at the end of a heat, when some of it is lost."""
    usual = step.temperature_c if step.temperature_c is not None else USUAL_HOT_C
    return min(usual, USUAL_HOT_C), 2.0 * COLOUR_DOUBT_C


def _heat_of(hot: str | None, step: Step) -> tuple[float | None, float]:
    """The metal's temperature when it was read and its standard uncertainty, °C."""
    if hot is None:
        return None, 0.0
    text = hot.strip()
    if not text:
        if _is_cold(step):
            raise EntryFault(
                f"Step {step.number}, {step.title}, is done cold: read it cold, or say how hot the metal is, "
                "such as 700 °C."
            )
        return _own_heat(step)
    try:
        if text[0].isdigit():
            temperature, doubt = read_temperature_c(text), FIGURE_DOUBT_C
        else:
            temperature, doubt = HEAT_COLOURS.temperature_c(text), word_doubt_c(text)
        elongation(temperature)
    except (SizeError, NotKnown, OutOfRange) as error:
        raise EntryFault(error.words) from None
    return temperature, doubt
