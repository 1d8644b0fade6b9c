"""What taking a way back changes: sizes wanted from here on, heats, and where the metal is."""

from __future__ import annotations

from typing import NamedTuple

from coach.ledger.workpiece import Workpiece
from coach.metals.quenches import QUENCHES
from coach.operations.measures import MARK
from coach.quantities import Limits
from coach.recipe.model import Recipe

#: Heats of a scarf weld, or of a plate's (judgement).
WELDING_HEATS = 3
#: What a steel that is laid on is to leave in the end, named as recipes name it.
REMAINS = "remains"


class NewLimits(NamedTuple):
    """What is wanted of a finished size from now on; or of what is to remain of a steel."""

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
    """A size that is worked back to its target, though the recipe's step would only take it further.

    One that is `under_way` is what a cut leaves at the new end for now: the work ahead takes it further.
    """

    zone: str
    dimension: str
    size_mm: float
    doubt_mm: float
    under_way: bool = False


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


class CutAnew(NamedTuple):
    """A zone of a piece that is cut from its bar once more: its account begins again."""

    zone: str
    aside_mm3: float = 0.0  # of it that is set aside: what the spoiled piece held


class OffBar(NamedTuple):
    """A length that goes off the bar a piece is taken from, beside what was marked out for it."""

    zone: str
    length_mm: float
    elsewhere: bool = False  # it is another bar, for its own has not so much left
    holds: str = ""  # the piece that lies behind the spoiled one, which is the end of its bar; "" for none


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
    cut_anew: tuple[CutAnew, ...] = ()
    off_bar: tuple[OffBar, ...] = ()

    @property
    def is_of_drawing(self) -> bool:
        """Whether it changes what is asked for alone: nothing is done to the metal by it."""
        return bool(self.limits) and self._replace(limits=(), targets=()) == Amendment()

    def moves(self, zone: str) -> bool:
        """Whether it brings metal to a zone, or takes it away."""
        return any(one.zone == zone for one in self.moved)

    def changed_sizes(self, workpiece: Workpiece) -> frozenset[tuple[str, str]]:
        """The sizes, by zone and dimension, that are others once it is taken: readings of them are old."""
        zones = {row.zone for rows in (self.moved, self.regained, self.taken_back) for row in rows}
        zones |= {on for zone in zones if (on := workpiece.zones[zone].within) is not None}
        free = {(zone, workpiece.zones[zone].free) for zone in zones}
        free |= {(one.zone, name) for one in self.cut_anew for name in _sizes_of(workpiece, one.zone)}
        return frozenset(free | {(one.zone, one.dimension) for one in self.regained})

    @property
    def cut_to_size(self) -> frozenset[str]:
        """The zones that metal is taken off to bring a size where it is wanted: nobody hammers them then."""
        less = {row.zone for row in self.moved if row.volume_mm3 < 0.0}
        rows = (row for row in self.regained if not row.under_way and row.dimension != MARK)
        return frozenset(row.zone for row in rows if row.zone in less)

    @property
    def cut(self) -> frozenset[str]:
        """The zones that metal is cut off, whether to their size or on the way to it."""
        less = {row.zone for row in self.moved if row.volume_mm3 < 0.0}
        return frozenset(row.zone for row in self.regained if row.zone in less and row.dimension != MARK)


def _sizes_of(workpiece: Workpiece, zone: str) -> tuple[str, ...]:
    """Every size of a zone that may have been read."""
    return (*workpiece.zones[zone].shape.dimensions, MARK)


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
