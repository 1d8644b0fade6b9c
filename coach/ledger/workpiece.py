"""The pieces at one moment: what each zone is, and what is believed of its metal and sizes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from math import exp, sqrt
from typing import NamedTuple

from coach.fire.spreading import COEFFICIENT_DOUBT
from coach.forms import Form, FormError
from coach.ledger.belief import Belief, Change
from coach.ledger.branching import to_be_split
from coach.ledger.hand import USUAL_HAND, Hand
from coach.ledger.in_cleft import read_longer_mm
from coach.ledger.plan import Plan, PlannedPiece
from coach.ledger.working import LedgerError, ZoneState, starting_state
from coach.operations.does import AT_THE_HAMMER
from coach.operations.gauges import GAUGES, bias_name
from coach.operations.measures import MARK
from coach.operations.shape import NOTHING
from coach.recipe.model import Piece, Recipe, Step
from coach.recipe.one_bar import before_on_bar

#: So many heats at the hammer a shop takes where one is planned; believed where its jobs have told it.
HEATS = "heats for one planned"
#: The shop's factor on the scale lost in a heat: 1 until readings say otherwise.
SCALE = "scale factor"

#: What the shop's own spread coefficient is above the published one: 0 until a measured heat says otherwise.
SPREAD = "spread offset"

#: By how much hammered sections are fuller than their sizes make them, bulging or out of square, as a share:
#: in the belief once a piece was weighed, for sizes alone cannot tell it from what the fire took.
FULLNESS = "fullness of sections"

#: Its doubt before anything was weighed, and how far a section that is hammered anew is from the others of
#: its piece (judgement).
FULLNESS_DOUBT_SHARE, OWN_FULLNESS_SHARE = 0.012, 0.005

#: The factor is never reckoned below this: with none or less, fire would add metal (judgement).
LEAST_SCALE = 0.05

#: Nor the heats for one planned below this (judgement).
LEAST_HEATS = 0.2

#: Step of the numeric slopes, as a share of the size; central differences of smooth forms (our choice).
_STEP_SHARE = 1e-4


def volume_name(zone: str) -> str:
    """The belief's name for the volume that came from a zone's own bar."""
    return f"{zone} volume"


def size_name(zone: str, dimension: str) -> str:
    """The belief's name for a settled size."""
    return f"{zone}.{dimension}"


def bar_name(piece: str, dimension: str) -> str:
    """The belief's name for a size of the bar that a piece is made from."""
    # Without a dot, for a smith may well call a zone "bar".
    return f"the bar's {dimension}, {piece}"


def bar_of_piece(recipe: Recipe, piece: Piece) -> str:
    """The piece that a bar's sizes are told of: the first of those that are marked in one row on it."""
    return piece.row if recipe.marks_in_row else piece.name


def mark_name(piece: str, index: int) -> str:
    """The belief's name for where a piece's mark of that place lies beside where it is told to."""
    return f"mark {index}, {piece}"


class Estimate(NamedTuple):
    """A value with its standard uncertainty and how it hangs on the believed quantities."""

    value: float
    doubt: float
    slopes: Mapping[str, float]


class Heats(NamedTuple):
    """How many heats, and how that hangs on the believed quantities."""

    number: float
    slopes: Mapping[str, float] = NOTHING


class Workpiece(NamedTuple):
    """Every zone's state and the joint belief; each step or reading makes a new one."""

    zones: Mapping[str, ZoneState]
    belief: Belief
    hand: Hand = USUAL_HAND  # how true it works, as far as readings have told
    across: Mapping[str, tuple[str, ...]] = NOTHING  # what a piece's marks are measured across just now

    def volume_mm3(self, zone: str) -> float:
        """The believed volume of a zone with all that was laid on it."""
        return sum(self.belief.mean(volume_name(part)) for part in self.zones[zone].parts)

    def volume(self, zone: str) -> Estimate:
        """The same with its uncertainty."""
        slopes = {volume_name(part): 1.0 for part in self.zones[zone].parts}
        return Estimate(self.volume_mm3(zone), sqrt(self.belief.variance_of(slopes)), slopes)

    def scale_factor(self) -> float:
        """The believed factor on the scale lost in a heat, always above zero."""
        return max(self.belief.mean(SCALE), LEAST_SCALE)

    def heats_to_come(self, step: Step, taken: float = 0.0) -> Heats:
        """The heats that a step takes from here, `taken` being those that it had."""
        if HEATS not in self.belief or step.heat_kind not in AT_THE_HAMMER:
            return Heats(max(0.0, step.heats - taken), NOTHING)
        left = max(0.0, step.heats * max(self.belief.mean(HEATS), LEAST_HEATS) - taken)
        return Heats(left, {HEATS: float(step.heats)} if left else NOTHING)

    def form(self, zone: str) -> Form:
        """The solid a zone is believed to be; raises LedgerError where its volume does not fit its sizes."""
        state = self.zones[zone]
        mean = self.belief.mean
        sizes = {d: mean(size_name(zone, d)) for d in state.shape.dimensions if d != state.free}
        try:
            return state.shape.draft({**sizes, state.free: 1.0}).solved(state.free, self.volume_mm3(zone))
        except FormError as error:
            raise LedgerError("The metal of {} cannot make its sizes: {}", zone, error.words) from None

    def size(self, zone: str, dimension: str, form: Form | None = None) -> Estimate:
        """A size of a zone with its uncertainty, the free one from the volume."""
        state = self.zones[zone]
        if dimension == MARK:
            return self._mark(zone)
        if dimension != state.free:
            name = size_name(zone, dimension)
            return Estimate(self.belief.mean(name), self.belief.doubt(name), {name: 1.0})
        solid = form if form is not None else self.form(zone)
        slopes = self.free_slopes(zone, solid)
        value_mm = solid.size_mm(dimension) + read_longer_mm(state)
        return Estimate(value_mm, sqrt(self.belief.variance_of(slopes)), slopes)

    def has_mark(self, zone: str) -> bool:
        """Whether a zone's end has a place from the end of its bar still.

        What is folded has no length, and what was laid on another lies on no bar of its own.
        """
        if zone not in self._along(self.zones[zone].piece):
            return False
        states = (self.zones[one] for one in self._up_to(zone))
        return all(state.has_form and "length" in state.shape.dimensions for state in states)

    def _mark(self, zone: str) -> Estimate:
        """Where a zone of a bar ends, from the end of the bar: the lengths up to there together."""
        return self.summed(self.size(one, "length") for one in self._up_to(zone))

    def _up_to(self, zone: str) -> list[str]:
        """The zones from the end of its bar to this one."""
        piece = self.zones[zone].piece
        zones = self._along(piece)
        before = [one for other in self.across.get(piece, ()) for one in self._along(other)]
        return [*before, *zones[: zones.index(zone) + 1]]

    def begins_mm(self, piece: str) -> float:
        """Where a piece begins on its bar while that is marked out, by those that lie before it."""
        before = (one for other in self.across.get(piece, ()) for one in self._along(other))
        return sum(self.size(one, "length").value for one in before)

    def _along(self, piece: str) -> list[str]:
        return [one for one, state in self.zones.items() if state.piece == piece and state.within is None]

    def summed(self, estimates: Iterable[Estimate], share: float = 1.0) -> Estimate:
        """A share of what several sizes come to together, which may hang on the same quantities."""
        value = 0.0
        slopes: dict[str, float] = {}
        for one in estimates:
            value += share * one.value
            for name, slope in one.slopes.items():
                slopes[name] = slopes.get(name, 0.0) + share * slope
        return Estimate(value, sqrt(self.belief.variance_of(slopes)), slopes)

    def free_slopes(self, zone: str, form: Form) -> dict[str, float]:
        """How a zone's free dimension hangs on its volume and its settled sizes."""
        state = self.zones[zone]
        per_free = volume_slope(form, state.free)
        slopes = {volume_name(part): 1.0 / per_free for part in state.parts}
        for dimension in state.shape.own_dimensions:
            if dimension != state.free:
                slopes[size_name(zone, dimension)] = -volume_slope(form, dimension) / per_free
        return slopes


def fire_by_share(before: Belief, now: Belief) -> Belief:
    """What is believed once a reading was taken in, the fire's factor being in doubt by a share of itself.

    A fire that takes twice what was reckoned is as likely as one that takes half: it is the logarithm of the
    factor that a weighing moves (the update of a log-normal quantity by its first-order slopes; A. Gelb,
    Applied Optimal Estimation, 1974, 6.1; from memory).
    """
    was = max(before.mean(SCALE), LEAST_SCALE)
    times = exp((now.mean(SCALE) - before.mean(SCALE)) / was)
    return now.stretched(SCALE, times, was * times) if times != 1.0 else now


def volume_slope(form: Form, dimension: str) -> float:
    """How much a form's volume changes with one of its sizes, mm³ per mm."""
    size = form.size_mm(dimension)
    step = size * _STEP_SHARE
    more = form.with_sizes({dimension: size + step}).volume_mm3()
    less = form.with_sizes({dimension: size - step}).volume_mm3()
    return (more - less) / (2.0 * step)


#: A zone that the bar does not reach still begins as a sliver, so that it can be reckoned with (our choice).
_SLIVER_SHARE = 0.02


def _held_by_the_bar(plan: Plan, piece: Piece) -> dict[str, Form]:
    """The length of bar each zone really has: a bar in hand that is too short leaves the last ones short."""
    forms = {zone: plan.bar_of(zone) for zone in piece.zones}
    left_over = plan.pieces[piece.name].left_over
    missing = -left_over.value if left_over is not None else 0.0
    # What is cut off it before the others has its length; what those behind lack is not lacking once more.
    missing -= (1.0 - _SLIVER_SHARE) * sum(one.length.value for one in _behind(plan, piece.name))
    for zone in reversed(piece.zones):
        if missing <= 0.0:
            break
        length = forms[zone].size_mm("length")
        left = max(length - missing, _SLIVER_SHARE * length)
        forms[zone] = forms[zone].with_sizes({"length": left})
        missing -= length - left
    return forms


def _behind(plan: Plan, name: str) -> Iterator[PlannedPiece]:
    """The pieces that are cut off the same bar after one."""
    for row in plan.rows:
        names = [one.piece for one in row.pieces]
        if name in names:
            yield from (plan.pieces[one] for one in names[names.index(name) + 1 :])


def begun_from_shop(start: Workpiece, what: str, value: float, doubt: float) -> Workpiece:
    """A marked bar, once a figure of the shop is known from other jobs; others than these change nothing.

    Args:
        start: as the job begins.
        what: `scale`, `spread`, `fullness`, `heats`, or a gauge for what it reads too much, in mm.
        value: the figure.
        doubt: its standard uncertainty.
    """
    name = {"scale": SCALE, "spread": SPREAD, "fullness": FULLNESS, "heats": HEATS}.get(
        what, bias_name(what) if what in GAUGES else ""
    )
    if not name:
        return start
    value = value - 1.0 if name == FULLNESS else value  # told as a factor
    return start._replace(belief=start.belief.predict({name: Change(value, variance=doubt**2)}))


def at_stock(plan: Plan, *, told_apart: bool = False) -> Workpiece:
    """Every piece as its marked bar, before the first heat.

    The bar's section is one doubt shared by all its zones, and a mark that is off by a millimetre gives to
    one zone what it takes from its neighbour. What each of them does may be `told_apart` to the end.
    """
    recipe = plan.recipe
    belief = Belief().predict(
        {
            SCALE: Change(1.0, variance=recipe.scale.doubt_share**2),
            SPREAD: Change(0.0, variance=COEFFICIENT_DOUBT**2),
        }
    )
    zones: dict[str, ZoneState] = {}
    bases: list[str] = []
    for piece in recipe.pieces.values():
        base: dict[str, Change] = {}
        bar = bar_of_piece(recipe, piece)
        for name, size in piece.stock.sizes_mm.items():
            if bar_name(bar, name) not in belief:
                base[bar_name(bar, name)] = Change(size, variance=(size * piece.stock.doubt_share) ** 2)
        for index in range(len(piece.zones)):
            base[mark_name(piece.name, index)] = Change(0.0, variance=recipe.mark_doubt_mm**2)
        belief = belief.predict(base)
        held = _held_by_the_bar(plan, piece)
        changes: dict[str, Change] = {}
        for index, zone in enumerate(piece.zones):
            zones[zone] = starting_state(recipe, zone)
            form = held[zone]
            slopes = {bar_name(bar, name): volume_slope(form, name) for name in piece.stock.sizes_mm}
            area = form.volume_mm3() / form.size_mm("length")
            slopes[mark_name(piece.name, index)] = area
            if index:
                slopes[mark_name(piece.name, index - 1)] = -area
            elif before := before_on_bar(recipe, piece.name):
                slopes[mark_name(before[-1], len(recipe.pieces[before[-1]].zones) - 1)] = -area
            changes[volume_name(zone)] = Change(form.volume_mm3(), slopes)
            for name, size in piece.stock.sizes_mm.items():
                changes[size_name(zone, name)] = Change(size, {bar_name(bar, name): 1.0})
        belief = belief.predict(changes, dropped=() if told_apart or recipe.marks_in_row else base)
        bases += base
        zones |= {zone: to_be_split(recipe, zone) for zone in piece.every_zone if zone not in held}
    if recipe.marks_in_row and not told_apart:  # the last mark of one piece is the first of the next
        belief = belief.predict({}, dropped=bases)
    return Workpiece(zones, belief)
