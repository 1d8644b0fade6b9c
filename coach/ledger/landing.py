"""Where a hand lands with the sizes that it works to their targets, and what a reading says of that."""

from __future__ import annotations

from collections.abc import Mapping

from coach.ledger.degrees import outside_share
from coach.ledger.hand import Landed, scatter_mm
from coach.ledger.nominal import Stage
from coach.ledger.working import reshapes
from coach.ledger.workpiece import Workpiece, size_name
from coach.operations import operation

#: A size is taken to be worked by the hand up to so many standard uncertainties from where that stops;
#: beyond, something else has brought it there (judgement).
_WORKED_WITHIN = 2.0
#: Less surely worked than this, a size says nothing of the hand (our choice).
_HARDLY = 1e-3


def reach_of_habit_mm(stage: Stage, dimension: str) -> float:
    """How far a size lies off its target where the hand stops as soon as its limit is reached.

    It stops on the side that it comes from; a hole goes as the drift goes, and what is dressed from both
    sides stops on neither.
    """
    limits = stage.step.targets[dimension]
    if not limits.is_two_sided or "hole" in dimension or dimension in stage.dressed:
        return 0.0
    return 0.5 * limits.width * (-1.0 if dimension in stage.grows else 1.0)


def looked_back(
    workpiece: Workpiece, start: Workpiece, stages: Mapping[str, Stage], read: Mapping[str, float]
) -> Workpiece:
    """Once a step is done: what was read of its sizes beside how this hand works to a target.

    Where each lies says how true the hand is. And that it was worked to its target is kept as one more
    reading of it, as doubtful as the hand, once a step and size. That does not go into the belief, by which
    the metal and the verdicts go: it is counted where it is asked whether the tool will pass.

    Args:
        workpiece: as it is believed to be.
        start: everything before the step.
        stages: each zone's way through the step.
        read: the sizes that it works to and that were read since its last heat, as the belief names them,
            each with how surely it is left there.
    """
    hand = workpiece.hand
    landed = dict(hand.landed)
    for name in sorted(read):
        zone, dimension = name.rsplit(".", 1)
        stage, share = stages[zone], read[name]
        limits, have = stage.step.targets[dimension], stage.form_before.sizes_mm()
        source = stage.after.shape.worked_from(dimension, limits.nominal, have)
        if source is not None:  # what was past its target before, the hand has not brought there
            was = start.size(zone, source)
            share *= 1.0 - outside_share(stage.past_mm(dimension, was.value, limits.nominal), was.doubt)
        if share <= _HARDLY:
            continue
        reach_mm, usual_mm = reach_of_habit_mm(stage, dimension), scatter_mm(limits, limits.nominal)
        known_mm2 = workpiece.belief.variance(name)
        stops_mm = limits.nominal + hand.habit * reach_mm
        off_mm = workpiece.belief.mean(name) - stops_mm
        by_hand_mm2 = hand.scatter_mm2(usual_mm, reach_mm)
        far = max(1.0, off_mm**2 / (_WORKED_WITHIN**2 * (by_hand_mm2 + known_mm2)))
        landed[name] = Landed(stops_mm, by_hand_mm2 * far / share)
        hand = hand.having_landed(off_mm, usual_mm, reach_mm, known_mm2, share)
    return workpiece._replace(hand=hand._replace(landed=landed))


def carried(workpiece: Workpiece, stage: Stage) -> Workpiece:
    """Where the hand has landed with the sizes of a zone, once a later step is done there.

    What moves its metal leaves nothing of that; what only heats it, or takes metal away elsewhere, leaves it
    but for the scale.
    """
    landed, zone = workpiece.hand.landed, stage.zone
    mine = [name for name in landed if name.rsplit(".", 1)[0] == zone]
    if not mine:
        return workpiece
    kept = dict(landed)
    moves = reshapes(stage.step, zone) and not operation(stage.step.operation).FIXES
    for name in mine:
        dimension = name.rsplit(".", 1)[1]
        if moves or stage.works(dimension) or size_name(zone, dimension) not in workpiece.belief:
            del kept[name]
        else:
            was = kept[name]
            kept[name] = was._replace(size_mm=was.size_mm + stage.changes_mm(dimension))
    return workpiece._replace(hand=workpiece.hand._replace(landed=kept))
