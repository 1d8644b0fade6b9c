"""A reading that speaks against the reckoning makes it less sure of itself before it is believed."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from coach.forms import form_kind
from coach.ledger.belief import Belief, Change
from coach.ledger.branching import CUT_ACROSS
from coach.ledger.heats import left_shares
from coach.ledger.in_cleft import read_longer_doubt_mm
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.possible import Bound
from coach.ledger.reading import QUESTIONED_BEYOND, Reading, Surprise
from coach.ledger.settling import followed, reset
from coach.ledger.tines import beside_the_middle_mm
from coach.ledger.workpiece import Workpiece, size_name, volume_name
from coach.operations.measures import MARK
from coach.recipe.model import Step

#: A reading that is insisted on against the reckoning widens the reckoning until it is this surprising
#: (judgement).
_INSISTED_AT = 2.0
#: A size with a doubt of its own is then what was read, to the digit that the doubt of the reading leaves
#: (judgement).
_TAKEN_AT = 0.5
#: What such a reading of one zone says of another that nobody read: no more than so many standard
#: uncertainties, beyond which a reading of it would be questioned itself (judgement).
_BESIDE_DOUBTS = QUESTIONED_BEYOND
_STOOD_BY = "a reading stood by"


def worn_further(now: Workpiece, reading: Reading, surprise: Surprise, *, is_cut: bool) -> Workpiece:
    """What a saw or a stone took too much of says nothing of the fire: that metal may have gone there.

    Nor does what `is_cut` further out say anything of its section: that much more of the bar was left on it.
    """
    off_mm = surprise.expected.value - surprise.cold.size_mm
    volume = volume_name(reading.zone)
    slope = surprise.expected.slopes.get(volume, 0.0)
    if (off_mm <= 0.0 and not is_cut) or not off_mm or slope <= 0.0:
        return now
    gone = Change(now.belief.mean(volume), {volume: 1.0}, (off_mm / slope) ** 2)
    return now._replace(belief=now.belief.predict({volume: gone}))


def driven_with(
    stage: Stage | None, reading: Reading, surprise: Surprise, asked: Collection[str]
) -> list[str]:
    """Which of the `asked` sizes are still to be worked where a length is not there yet."""
    if stage is None or stage.leaves(reading.dimension):
        return []
    if not stage.drives(reading.dimension, -surprise.standardised):
        return []
    return [name for name in asked if name.rsplit(".", 1)[0] == reading.zone]


def on_its_way(now: Workpiece, names: Collection[str], surprise: Surprise) -> Workpiece:
    """A length that is not there yet says that its section is not, however far that was thought to be.

    The sizes that it hangs on and that nobody read are so much less sure that it is no surprise: else half
    the way would be told as metal that is not there.
    """
    times = surprise.standardised**2
    if times <= 1.0:
        return now
    belief = now.belief
    changes = {
        name: Change(belief.mean(name), {name: 1.0}, (times - 1.0) * belief.variance(name)) for name in names
    }
    return reset(now, changes)


def widened(now: Workpiece, reading: Reading, surprise: Surprise, bound: Bound | None) -> Workpiece:
    """The reckoning made less sure of itself, for a reading that the smith stands by.

    `bound` is what no work of its step could pass and the reading does: then it says nothing of the rest.
    """
    zone, state = reading.zone, now.zones.get(reading.zone)
    shape = state.shape if state is not None else None
    dimension = (shape.one_with(reading.dimension) if shape else None) or reading.dimension
    off = surprise.cold.size_mm - surprise.expected.value
    own = size_name(zone, dimension)
    at = _TAKEN_AT if own in now.belief and surprise.questioned else _INSISTED_AT
    spread = (off / at) ** 2 - surprise.cold.doubt_mm**2 - surprise.expected.doubt**2
    if spread <= 0.0:
        return now
    if own in now.belief:
        if bound is None and (cut := _cut_aside(now, zone, dimension)):
            return now._replace(belief=_along(now.belief, cut, spread))
        belief = now.belief.predict({own: Change(now.belief.mean(own), {own: 1.0}, spread)})
        if state is not None:
            one = {
                name: dimension for name in state.shape.dimensions if state.shape.one_with(name) == dimension
            }
            belief = followed(belief, state, one)
        return now._replace(belief=belief)
    shared = _shared(now, reading, surprise.expected.slopes, spread)
    along = sum(surprise.expected.slopes.get(name, 0.0) * share for name, share in shared.items())
    return now._replace(belief=_along(now.belief, shared, spread / along**2))


def _shared(now: Workpiece, reading: Reading, slopes: Mapping[str, float], spread: float) -> dict[str, float]:
    """How much the metal of each zone moves with what a reading that is stood by may be wrong about.

    What a zone has more of its bar than was thought, its neighbours have less: by the doubt they share. But
    what a neighbour has that was measured is no guess any more: metal lost here is lost here. A mark moves
    all that, and no mark but its own was read then. A length that its zone's section does not make says it
    of that zone: of others whose mark nobody read no more than they were in doubt by themselves.
    """
    is_mark = reading.dimension == MARK
    of_zones = {
        volume_name(part): one.known or (one.marked and not is_mark)
        for one in now.zones.values()
        for part in one.parts
    }
    volumes = [name for name in now.belief.names if name in slopes or of_zones.get(name) is False]
    shared = {name: now.belief.covariance_with(name, slopes) for name in volumes if name in of_zones}
    if is_mark:
        return shared
    along = sum(slopes.get(name, 0.0) * share for name, share in shared.items())
    for name, share in shared.items():
        if name not in slopes:
            most = _BESIDE_DOUBTS * now.belief.doubt(name) * abs(along) / spread**0.5
            shared[name] = max(-most, min(most, share))
    return shared


def _along(belief: Belief, shares: Mapping[str, float], variance: float) -> Belief:
    """Quantities made less sure by a doubt that they share."""
    belief = belief.predict({_STOOD_BY: Change(0.0, variance=variance)})
    changes = {
        name: Change(belief.mean(name), {name: 1.0, _STOOD_BY: share})
        for name, share in shares.items()
        if share
    }
    return belief.predict(changes, dropped=[_STOOD_BY])


def _cut_aside(now: Workpiece, zone: str, dimension: str) -> dict[str, float]:
    """How much a branch, its metal and the other branches move with how wide it was cut; empty of any other.

    What was measured of its length as it is now is no guess any more.
    """
    branches = next((one.parted for one in now.zones.values() if zone in one.parted), ())
    own = size_name(zone, dimension)
    if not branches or dimension not in CUT_ACROSS or not (variance := now.belief.variance(own)):
        return {}
    names = [volume_name(one) for one in branches if not now.zones[one].measured]
    names += [size_name(one, dimension) for one in branches]
    shares = {
        name: now.belief.covariance_with(name, {own: 1.0}) / variance for name in names if name in now.belief
    }
    return {**shares, own: 1.0}


def unformed_mm(plan: Plan, now: Workpiece, step: Step, reading: Reading, believed: Collection[str]) -> float:
    """How much more doubtful the length of a form on its way is as a measure of its metal, mm.

    A row of stations is one greatest width and thickness with fixed shares of them. While one of the two has
    more to go the stations between are on their way from the bar's full section too, and nobody measures
    those: by the share of the way that is left the form may be as full as its box. `believed` are the sizes
    that were read in the step. And steel that stands out of a cleft may be as it was laid, or beaten further.
    Of a bar that is split into two tines, one of them tells little of both.
    """
    if off_mm := beside_the_middle_mm(now, step, reading):
        return off_mm
    state = now.zones[reading.zone]
    if reading.dimension == state.free and state.stands_out_mm:
        return read_longer_doubt_mm(state)
    stage = plan.by_step[step.number].get(reading.zone)
    if stage is None or reading.dimension != stage.after.free or stage.before.shape == stage.after.shape:
        return 0.0
    if not form_kind(stage.after.shape.kind).STATIONS:
        return 0.0
    read = (name for name in stage.step.targets if size_name(reading.zone, name) in believed)
    names = [name for name in read if name != reading.dimension]
    left = left_shares(plan, now, step, [size_name(reading.zone, name) for name in names])
    have, sizes = stage.form_before.sizes_mm(), stage.form_after.sizes_mm()
    to_go = 0.0
    for name in names:
        aim_mm = step.targets[name].nominal
        source = stage.after.shape.worked_from(name, aim_mm, have)
        whole_mm = aim_mm - have[source] if source is not None else 0.0
        if whole_mm:
            full = size_name(reading.zone, name)
            share = min(1.0, max(0.0, (aim_mm - now.belief.mean(full)) / whole_mm))
            to_go = max(to_go, share * (1.0 - left[full]))
    box_mm3 = sizes["length"] * sizes["width"] * sizes["thickness"]
    return to_go * reading.size_mm * (box_mm3 / stage.form_after.volume_mm3() - 1.0)
