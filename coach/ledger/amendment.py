"""What taking a way back changes: sizes wanted from here on, heats, and where the metal is."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from math import inf, isinf
from typing import Any, NamedTuple, TypeVar, get_args, get_type_hints

from coach.forms import FormError
from coach.ledger.belief import Change
from coach.ledger.hotter_again import at_heats
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.working import LedgerError
from coach.ledger.workpiece import Workpiece, size_name, volume_name
from coach.metals.quenches import QUENCHES
from coach.operations import operation
from coach.operations.measures import MARK
from coach.quantities import Limits
from coach.quantities.refusal import Refusal
from coach.recipe.model import Loss, Recipe, Step

_Thing = TypeVar("_Thing")

#: No cut is surer than this, mm (judgement).
_LEAST_CUT_DOUBT_MM = 0.1
#: A word for what steel is quenched in, and such words behind a title (our choice).
_BATH = re.compile(rf"\b({'|'.join(sorted(QUENCHES, key=len, reverse=True))})\b", re.IGNORECASE)
_IN_BATH = re.compile(rf" in (warm |hot )?{_BATH.pattern}$", re.IGNORECASE)


class NewLimits(NamedTuple):
    """What is wanted of a finished size from now on."""

    zone: str
    dimension: str
    limits: Limits


class NewTarget(NamedTuple):
    """What a step works to from now on."""

    step: int
    dimension: str
    limits: Limits


class NewHeats(NamedTuple):
    """How many heats a step is now planned to take."""

    step: int
    heats: int


class Moved(NamedTuple):
    """Metal that a zone gains or gives."""

    zone: str
    volume_mm3: float
    doubt_mm3: float


class Regained(NamedTuple):
    """A size that is worked back to its target, though the recipe's step would only take it further."""

    zone: str
    dimension: str
    size_mm: float
    doubt_mm: float


class NewBath(NamedTuple):
    """What a step quenches in from now on."""

    step: int
    quench: str


class NewAllowance(NamedTuple):
    """How much more than it needs is marked out for a zone from now on, as a share of its volume."""

    zone: str
    share: float


class NewLoss(NamedTuple):
    """How much of the length a step takes off from now on."""

    step: int
    length_mm: float


class Again(NamedTuple):
    """A step that is done once more, put into the recipe; those after it move on by one."""

    after: int  # number of the step it follows; several after one step follow each other in order
    like: int  # number of the step that is done again
    heats: int
    tests: tuple[str, ...] = ()  # "zone.test" that it is put to besides its own
    quench: str = ""  # what it is quenched in this time; empty for what it was
    heat_c: Limits | None = None  # the heats that it is done at this time, °C; None for those it was done at


class TakenBack(NamedTuple):
    """An end that is shortened; steel that lies in it gets shorter by as much."""

    zone: str
    length_mm: float


class Amendment(NamedTuple):
    """Everything that one way back changes; the recipe file is never touched."""

    limits: tuple[NewLimits, ...] = ()
    targets: tuple[NewTarget, ...] = ()
    heats: tuple[NewHeats, ...] = ()
    moved: tuple[Moved, ...] = ()
    regained: tuple[Regained, ...] = ()
    allowances: tuple[NewAllowance, ...] = ()
    again: tuple[Again, ...] = ()
    taken_back: tuple[TakenBack, ...] = ()
    losses: tuple[NewLoss, ...] = ()
    baths: tuple[NewBath, ...] = ()

    def changed_sizes(self, workpiece: Workpiece) -> frozenset[tuple[str, str]]:
        """The sizes, by zone and dimension, that are others once it is taken: readings of them are old."""
        zones = {row.zone for rows in (self.moved, self.regained, self.taken_back) for row in rows}
        zones |= {on for zone in zones if (on := workpiece.zones[zone].within) is not None}
        free = {(zone, workpiece.zones[zone].free) for zone in zones}
        return frozenset(free | {(one.zone, one.dimension) for one in self.regained})

    @property
    def cut_to_size(self) -> frozenset[str]:
        """The zones that metal is taken off to bring a size where it is wanted: nobody hammers them then."""
        less = {row.zone for row in self.moved if row.volume_mm3 < 0.0}
        return frozenset(row.zone for row in self.regained if row.zone in less and row.dimension != MARK)


def amended_recipe(recipe: Recipe, amendment: Amendment) -> Recipe:
    """The recipe as the job follows it from here on."""
    drawing = dict(recipe.drawing)
    for new in amendment.limits:
        zone = drawing[new.zone]
        drawing[new.zone] = zone._replace(limits={**zone.limits, new.dimension: new.limits})
    for allowance in amendment.allowances:
        drawing[allowance.zone] = drawing[allowance.zone]._replace(allowance_share=allowance.share)
    for back in amendment.taken_back:
        for steel in [steel for steel, weld in recipe.welds.items() if weld.zones[0] == back.zone]:
            taken_mm = drawing[steel].taken_back_mm + back.length_mm
            drawing[steel] = drawing[steel]._replace(taken_back_mm=taken_mm)
    steps: list[Step] = list(recipe.steps)
    for target in amendment.targets:
        step = steps[target.step - 1]
        steps[target.step - 1] = step._replace(targets={**step.targets, target.dimension: target.limits})
    for bath in amendment.baths:
        steps[bath.step - 1] = in_bath(steps[bath.step - 1], bath.quench)
    for loss in amendment.losses:
        steps[loss.step - 1] = steps[loss.step - 1]._replace(loses=Loss(length_mm=loss.length_mm))
    for heats in amendment.heats:
        steps[heats.step - 1] = steps[heats.step - 1]._replace(heats=heats.heats, heats_said=True)
    again = [(one.after, step_again(steps[one.like - 1], one)) for one in amendment.again]
    numbered = (step._replace(number=at) for at, step in enumerate(_put_in(steps, again), start=1))
    return recipe._replace(drawing=drawing, steps=tuple(numbered))


def titles_again(titles: Sequence[str], added: Sequence[Again]) -> list[str]:
    """The titles of a job's steps with those that are done again in their places."""
    there = (one for one in added if 0 < one.like <= len(titles))
    return _put_in(titles, [(one.after, title_again(titles[one.like - 1], one.quench)) for one in there])


def _put_in(things: Sequence[_Thing], added: Sequence[tuple[int, _Thing]]) -> list[_Thing]:
    """The things with each added one after the one of its number, counted from 1."""
    found: list[_Thing] = []
    for number, thing in enumerate(things, start=1):
        found += [thing, *(new for after, new in added if after == number)]
    return found


def step_again(step: Step, again: Again) -> Step:
    """A step as it is done again: with its temperatures and tests, aimed at no size, for those are behind it.

    Steel that was welded on lies in its place: it is welded again, not laid on again.
    """
    laid = step.lays is not None
    title = title_again(step.title, again.quench)
    step = in_bath(step, again.quench) if again.quench else step
    done_by = operation(operation(step.operation).AGAIN_BY or step.operation)
    step = at_heats(step, again.heat_c) if again.heat_c is not None else step
    checks = [name for name in step.checks if done_by.kind_of(name.partition(".")[2])]
    return step._replace(
        operation=done_by.NAME,
        title=title,
        lays=None,
        shape=None,
        targets={name: limits for name, limits in step.targets.items() if done_by.kind_of(name)},
        free=None,
        amounts={},
        loses=Loss(),
        heats=again.heats,
        heats_said=True,
        heat_names=(),
        how="" if laid else step.how,
        watch="" if laid else step.watch,
        checks=tuple(dict.fromkeys((*checks, *again.tests))),
        again=True,
    )


def title_again(title: str, quench: str = "") -> str:
    """The title of a step that is done again, and in what, where it is quenched in something else.

    >>> title_again("Weld the face on the poll")
    'Again: weld the face on the poll'
    >>> title_again("Harden the bit in oil", "water")
    'Again, in water: harden the bit'
    """
    title = _without_bath(title) if quench else title
    return f"Again{f', in {quench}' if quench else ''}: {title[:1].lower()}{title[1:]}"


def in_bath(step: Step, quench: str) -> Step:
    """A step that is quenched in something else, without what its recipe says of the bath that it was."""
    kept = {name: text for name in ("how", "watch") if not _BATH.search(text := getattr(step, name))}
    usual = QUENCHES[quench]
    cautions = (usual, *(text for text in step.cautions if text not in QUENCHES.values()))
    return step._replace(
        quench=quench,
        title=_without_bath(step.title),
        cautions=cautions,
        how=kept.get("how", ""),
        watch=kept.get("watch", ""),
    )


def _without_bath(title: str) -> str:
    return _IN_BATH.sub("", title)


def not_there(recipe: Recipe, steps: int, amendment: Amendment) -> str:
    """The first zone or step that an amendment speaks of and a job of so many steps has not; "" when none."""
    for row in (row for rows in amendment for row in rows):
        quench = getattr(row, "quench", "")
        if quench and quench not in QUENCHES:
            return f"a quench in {quench}"
        zone = getattr(row, "zone", None)
        if zone is not None and zone not in recipe.drawing:
            return f"the {zone}"
        for number in (getattr(row, name, 1) for name in ("step", "after", "like")):
            if not 0 < number <= steps:
                return f"step {number}"
    return ""


def amended_plan(plan: Plan, amendment: Amendment) -> Plan:
    """The plan of the amended recipe; raises LedgerError where the job or the metal cannot follow it."""
    if stranger := not_there(plan.recipe, len(plan.recipe.steps), amendment):
        raise LedgerError(f"A way back that was taken changes {stranger}, which this job has not.")
    if amendment._replace(moved=(), regained=()) == Amendment():
        return plan
    try:
        return look_back(amended_recipe(plan.as_written, amendment))
    except FormError as error:
        raise LedgerError("The new sizes cannot be made: {}.", error.words) from None


def amended_workpiece(workpiece: Workpiece, amendment: Amendment) -> Workpiece:
    """The metal where the way back puts it."""
    changes: dict[str, Change] = {}
    belief = workpiece.belief
    for moved in amendment.moved:
        name = volume_name(moved.zone)
        if name not in belief:
            raise LedgerError("A way back moves metal of the {}, which is in other zones by now.", moved.zone)
        changes[name] = Change(belief.mean(name) + moved.volume_mm3, {name: 1.0}, moved.doubt_mm3**2)
    for regained in amendment.regained:
        state = workpiece.zones[regained.zone]
        if regained.dimension != state.free and regained.dimension in state.shape.dimensions:
            changes[size_name(regained.zone, regained.dimension)] = Change(
                regained.size_mm, {}, regained.doubt_mm**2
            )
    zones = dict(workpiece.zones)
    for zone, _ in amendment.changed_sizes(workpiece):
        zones[zone] = zones[zone]._replace(measured=False)
    if not changes:
        return workpiece
    changed = workpiece._replace(zones=zones, belief=belief.predict(changes))
    for regained in amendment.regained:
        state = workpiece.zones[regained.zone]
        if regained.dimension == state.free and state.has_form and regained.zone in amendment.cut_to_size:
            # It is cut at a place that is measured: as good as a reading of what its metal makes then.
            there = changed.size(regained.zone, regained.dimension)
            variance = max(regained.doubt_mm, _LEAST_CUT_DOUBT_MM) ** 2
            belief = changed.belief.update(there.slopes, regained.size_mm - there.value, variance)
            # By so much shorter than it was measured it is measured still.
            zones = {**changed.zones, regained.zone: state}
            changed = changed._replace(zones=zones, belief=belief)
    return changed


def frozen(amendment: Amendment) -> dict[str, object]:
    """An amendment as JSON-able values; an open limit is None, and what a row does not have is left out."""
    return {
        name: [[_plain(value) for value in row if value is not None] for row in rows]
        for name, rows in zip(Amendment._fields, amendment, strict=True)
    }


def thawed(kept: object) -> Amendment:
    """The amendment that `frozen` made these values from; raises NotAnAmendment, saying what is wrong."""
    rows = _rows()
    if not isinstance(kept, Mapping) or kept.keys() != rows.keys():
        raise NotAnAmendment("it must have {}", ", ".join(rows))
    return Amendment(**{name: _read_rows(name, *row, kept[name]) for name, row in rows.items()})


class NotAnAmendment(Refusal):
    """Values that are no amendment; it says, in a clause, which of them and what was expected."""


#: How many fields a row had from the first; a job that was kept then has no more (our choice).
_AT_FIRST: Mapping[type, int] = {Again: 5}
#: What a file that was carried in may hold at most (our choice).
_MOST_ROWS = 1000
_LARGEST = 1e12
_LONGEST = 200


@cache
def _rows() -> Mapping[str, tuple[Any, tuple[object, ...]]]:
    """What each list of an amendment holds, with the types of its fields."""
    rows = {name: get_args(hint)[0] for name, hint in get_type_hints(Amendment).items()}
    return {name: (row, tuple(get_type_hints(row).values())) for name, row in rows.items()}


def _read_rows(name: str, row: Any, types: Sequence[object], told: object) -> tuple[Any, ...]:
    kinds = [_READ[kind] for kind in types]
    if not isinstance(told, list | tuple) or len(told) > _MOST_ROWS:
        raise NotAnAmendment("its {} must be a list of at most {}", name, _MOST_ROWS)
    read = []
    for values in told:
        if not isinstance(values, list | tuple) or len(values) not in (len(kinds), _AT_FIRST.get(row)):
            raise NotAnAmendment("each of its {} must have {}", name, ", ".join(row._fields))
        for (expected, is_one, _), value in zip(kinds, values, strict=False):
            if not is_one(value):
                raise NotAnAmendment("its {} must hold {} where something else stands", name, expected)
        read.append(row(*(make(value) for (_, _, make), value in zip(kinds, values, strict=False))))
    return tuple(read)


def _plain(value: object) -> object:
    if isinstance(value, Limits):
        return [value.nominal, *(None if isinf(one) else one for one in (value.low, value.high))]
    return list(value) if isinstance(value, tuple) else value


def _is_name(value: object) -> bool:
    return isinstance(value, str) and len(value) <= _LONGEST and value.isprintable()


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) <= _LARGEST


def _are_limits(value: object) -> bool:
    if not isinstance(value, list | tuple) or len(value) != 3:
        return False
    nominal, low, high = value
    if not _is_number(nominal) or not all(one is None or _is_number(one) for one in (low, high)):
        return False
    return (low is None or low <= nominal) and (high is None or nominal <= high)


def _limits(told: Sequence[Any]) -> Limits:
    nominal, low, high = told
    return Limits(nominal, -inf if low is None else low, inf if high is None else high, True)


#: By how a field is typed: what is expected of its value, whether it is that, and what is made of it (our
#: choice).
_READ: Mapping[object, tuple[str, Callable[[object], bool], Callable[[Any], object]]] = {
    str: ("a name", _is_name, str),
    int: ("a whole number", lambda value: type(value) is int and 0 <= value <= _MOST_ROWS, int),
    float: ("a number", _is_number, float),
    Limits: ("a size and its limits", _are_limits, _limits),
    Limits | None: (
        "a size and its limits, or nothing",
        lambda value: value is None or _are_limits(value),
        lambda value: None if value is None else _limits(value),
    ),
    tuple[str, ...]: (
        "a list of names",
        lambda value: isinstance(value, list | tuple) and all(map(_is_name, value)),
        tuple,
    ),
}
