"""Take the end back: a tapered end that has gone too thin is shortened to where it is thick enough."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from coach.forms import label, said
from coach.ledger.amendment import Amendment, Moved, Regained, TakenBack
from coach.ledger.laid_steel import laid_steels
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.skinning import skins
from coach.ledger.verdict import SizeState
from coach.ledger.workpiece import Workpiece
from coach.ledger.zone_forecast import FinishedSize
from coach.quantities import COVERAGE, NOTHING, Words, as_words, mm, run_on, say

_END = "end_"
#: How well a hand-ground or cut end hits the place, as a share of each size (common practice, no source).
_SCATTER_SHARE = 0.02
_REMOVED_DOUBT_SHARE = 0.1


class TakeBack(Remedy):
    """An edge ground too thin is ground back to sound thickness: the common cure at the stone."""

    NAME = "take back"

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every end section that is under its limits for good."""
        for size in situation.stuck():
            if size.state is SizeState.UNDER and size.dimension.startswith(_END):
                aim_mm = _surely_inside(size)
                back = back_by(situation.now, size.zone, size.dimension, aim_mm)
                if back is not None:
                    yield _idea(situation, size, aim_mm, *back)


def _surely_inside(size: FinishedSize) -> float:
    """The least that is inside the drawing beyond doubt: every millimetre further back is lost."""
    limits = size.wanted.limits
    doubt = max(size.expected.doubt or 0.0, _SCATTER_SHARE * limits.nominal)
    return min(limits.nominal, limits.low + COVERAGE * doubt)


def _idea(
    situation: Situation, size: FinishedSize, aim_mm: float, back_mm: float, sizes: Mapping[str, float]
) -> Idea:
    zone = size.zone
    form = situation.now.form(zone)
    removed = form.volume_mm3() - form.with_sizes(sizes).volume_mm3()
    regained = tuple(
        Regained(zone, name, size_mm, _SCATTER_SHARE * size_mm)
        for name, size_mm in sizes.items()
        if name != "length"
    )
    return Idea(
        about=size.name,
        title=say("Take the {}'s end back by {}", zone, mm(back_mm)),
        changes=say(
            "To where the {} is {}; the {} is then {}.",
            said(size.dimension.removeprefix(_END)),
            mm(aim_mm),
            label(zone, "length"),
            mm(sizes["length"]),
        ),
        amendment=Amendment(
            moved=(Moved(zone, -removed, _REMOVED_DOUBT_SHARE * removed),),
            regained=regained,
            taken_back=(TakenBack(zone, back_mm),),
        ),
        price_mm=back_mm,
        caution=end_cautions(situation, zone, back_mm),
    )


def steel_left(situation: Situation, zone: str, back_mm: float) -> Words:
    """What is left of the hard steel in an end that is shortened."""
    # A layer lies on the end where it is ground by the zone's length.
    on_end = {
        skin.steel for skin in skins(situation.plan) if skin.grinding and skin.grinding.dimension == "length"
    }
    for steel in laid_steels(situation.plan):
        if steel.zone == zone and (steel.dimension == "length" or steel.steel in on_end):
            left = mm(max(0.0, steel.left.value - back_mm))
            return say("about {} of hard steel is then left in it, {} is wanted", left, steel.remains)
    return as_words("the steel in it gets shorter by as much")


def end_cautions(situation: Situation, zone: str, back_mm: float) -> Words:
    """What to take care of where an end is shortened: the steel left in it, and that it may be hard."""
    left = steel_left(situation, zone, back_mm) if len(situation.now.zones[zone].parts) > 1 else NOTHING
    return run_on((words for words in (left, _by_the_stone(situation)) if words), "; ")


def _by_the_stone(situation: Situation) -> Words:
    """How an end that is hard is shortened."""
    if not situation.is_hard:
        return NOTHING
    return as_words("it is hard: by the stone, wet and with light strokes, for what turns blue is soft again")


def back_by(
    now: Workpiece, zone: str, dimension: str, wanted_mm: float
) -> tuple[float, dict[str, float]] | None:
    """How far a tapered end is taken back until a size of it is what is wanted, and its sizes then.

    By similar triangles: the end runs evenly from its start to its finish, which is the end of its piece.
    None where it cannot be done, or would leave less than half of the length.
    """
    state = now.zones[zone]
    start = dimension.removeprefix(_END)
    if state.laid_on is not None or state.free != "length" or not state.bare_ends[1]:
        return None
    names = [name for name in state.shape.dimensions if name.startswith(_END)]
    if dimension not in names:
        return None
    sizes = now.form(zone).sizes_mm()
    if not sizes[dimension] < wanted_mm < sizes[start]:
        return None
    share = (wanted_mm - sizes[dimension]) / (sizes[start] - sizes[dimension])
    if share > 0.5:
        return None
    after = {name: sizes[name] + share * (sizes[name.removeprefix(_END)] - sizes[name]) for name in names}
    length = sizes["length"]
    return share * length, {**after, "length": (1.0 - share) * length}
