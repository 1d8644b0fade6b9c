"""A reading that speaks against the reckoning makes it less sure of itself before it is believed."""

from __future__ import annotations

from coach.ledger.belief import Change
from coach.ledger.reading import Reading, Surprise
from coach.ledger.settling import followed
from coach.ledger.workpiece import Workpiece, size_name, volume_name

#: A reading that is insisted on against the reckoning widens the reckoning until it is this surprising
#: (judgement).
_INSISTED_AT = 2.0
#: A size with a doubt of its own is then what was read, to the digit that the doubt of the reading leaves
#: (judgement).
_TAKEN_AT = 0.5
_STOOD_BY = "a reading stood by"


def worn_further(now: Workpiece, reading: Reading, surprise: Surprise) -> Workpiece:
    """What a saw or a stone took too much of says nothing of the fire: that metal may have gone there."""
    off_mm = surprise.expected.value - surprise.cold.size_mm
    volume = volume_name(reading.zone)
    slope = surprise.expected.slopes.get(volume, 0.0)
    if off_mm <= 0.0 or slope <= 0.0:
        return now
    gone = Change(now.belief.mean(volume), {volume: 1.0}, (off_mm / slope) ** 2)
    return now._replace(belief=now.belief.predict({volume: gone}))


def widened(now: Workpiece, reading: Reading, surprise: Surprise) -> Workpiece:
    """The reckoning made less sure of itself, for a reading that the smith stands by."""
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
        belief = now.belief.predict({own: Change(now.belief.mean(own), {own: 1.0}, spread)})
        if state is not None:
            one = {
                name: dimension for name in state.shape.dimensions if state.shape.one_with(name) == dimension
            }
            belief = followed(belief, state, one)
        return now._replace(belief=belief)
    # What a zone has more of its bar than was thought, its neighbours have less: by the doubt they share.
    # But what a neighbour has that was measured is no guess any more: metal lost here is lost here.
    slopes = surprise.expected.slopes
    settled = {volume_name(part) for one in now.zones.values() if one.known for part in one.parts}
    names = [volume_name(part) for part in now.zones]
    volumes = [name for name in names if name in now.belief and (name in slopes or name not in settled)]
    shared = {name: now.belief.covariance_with(name, slopes) for name in volumes}
    along = sum(slopes.get(name, 0.0) * share for name, share in shared.items())
    belief = now.belief.predict({_STOOD_BY: Change(0.0, variance=spread / along**2)})
    changes = {
        name: Change(belief.mean(name), {name: 1.0, _STOOD_BY: share})
        for name, share in shared.items()
        if share
    }
    return now._replace(belief=belief.predict(changes, dropped=[_STOOD_BY]))
