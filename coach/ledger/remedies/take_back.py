"""Take the end back: a tapered end that has gone too thin is shortened to where it is thick enough."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import hypot, inf

from coach.forms import label, said
from coach.ledger.amendment import Amendment, Moved, Regained, TakenBack
from coach.ledger.laid_steel import laid_steels
from coach.ledger.lost import between_mm
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
#: An end is taken back to so many standard uncertainties inside its limit: a guard band would leave nothing
#: for the other sizes (judgement).
_SURELY = 2.0


class TakeBack(Remedy):
    """An edge ground too thin is ground back to sound thickness: the common cure at the stone."""

    NAME = "take back"

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every end section that is under its limits for good."""
        for size in situation.stuck():
            if size.state is SizeState.UNDER and size.dimension.startswith(_END):
                aim_mm = _surely_inside(size)
                now = situation.left(size)  # what was not read is where the step leaves it
                back = back_by(now, size.zone, size.dimension, aim_mm)
                further_mm = _short_enough(situation, size) if back is not None else 0.0
                if further_mm > aim_mm:
                    aim_mm = further_mm
                    back = back_by(now, size.zone, size.dimension, aim_mm) or back
                if further_mm < aim_mm and (nearer_mm := _long_enough(situation, size)) < aim_mm:
                    aim_mm = nearer_mm
                    back = back_by(now, size.zone, size.dimension, aim_mm) or back
                if back is not None:
                    yield back_idea(situation, size, aim_mm, *back)


def _surely_inside(size: FinishedSize) -> float:
    """The least that is inside the drawing beyond doubt: every millimetre further back is lost."""
    limits = size.wanted.limits
    doubt = hypot(size.expected.doubt or 0.0, _SCATTER_SHARE * limits.nominal)
    return min(limits.nominal, limits.low + _SURELY * doubt)


def _short_enough(situation: Situation, size: FinishedSize) -> float:
    """How thick the end is where what is left of the zone is no longer than it is drawn; 0 where nowhere.

    An end that ran too thin ran too long by it. Half-way between there and where another of its sizes leaves
    its limits, and no further than is sure.
    """
    form, limits = situation.left(size).form(size.zone), situation.plan.recipe.drawing[size.zone].limits
    sizes = form.sizes_mm()
    length_mm, longest_mm = sizes["length"], limits["length"].high if "length" in limits else inf
    if length_mm <= longest_mm:
        return 0.0
    just = 1.0 - longest_mm / length_mm
    most = just + COVERAGE * _SCATTER_SHARE * longest_mm / length_mm
    for name in sizes:
        if name.startswith(_END) and name in limits:
            rises_mm = sizes[name.removeprefix(_END)] - sizes[name]
            bound_mm = limits[name].high if rises_mm > 0.0 else limits[name].low
            bound_mm += _off_ahead_mm(situation, size.zone, name, sizes[name])
            if rises_mm:
                most = min(most, just + 0.5 * ((bound_mm - sizes[name]) / rises_mm - just))
    if most <= just:
        return 0.0
    return sizes[size.dimension] + most * (sizes[size.dimension.removeprefix(_END)] - sizes[size.dimension])


def _off_ahead_mm(situation: Situation, zone: str, name: str, left_mm: float) -> float:
    """How much less a size is in the end than this step leaves it, as what a grinding takes off the end."""
    told = situation.told.get(f"{zone}.{name}")
    return left_mm - told.expected.value if told is not None else 0.0


def _long_enough(situation: Situation, size: FinishedSize) -> float:
    """How thick the end may be made where more would leave the zone too short: infinite where it would not.

    Between where the end is just thick enough and where what is left is just long enough: as far from each,
    by how well it is known.
    """
    now, limits = situation.left(size), situation.plan.recipe.drawing[size.zone].limits
    form = now.form(size.zone)
    sizes = form.sizes_mm()
    rises_mm = sizes[size.dimension.removeprefix(_END)] - sizes[size.dimension]
    if "length" not in limits or rises_mm <= 0.0:
        return inf
    least = (size.wanted.limits.low - sizes[size.dimension]) / rises_mm
    most = 1.0 - limits["length"].low / sizes["length"]
    thick = (size.expected.doubt or 0.0) / rises_mm
    long = _length_doubt_mm(situation, now, size.zone) / sizes["length"]
    towards = thick / (thick + long) if thick + long > 0.0 else 0.5
    return sizes[size.dimension] + (least + towards * (most - least)) * rises_mm if most > least else inf


def _length_doubt_mm(situation: Situation, now: Workpiece, zone: str) -> float:
    """A shortened zone's length is as well known as it was, and as the place that it is cut at."""
    return hypot(now.size(zone, "length").doubt, situation.plan.recipe.mark_doubt_mm)


def back_idea(
    situation: Situation, size: FinishedSize, aim_mm: float, back_mm: float, sizes: Mapping[str, float]
) -> Idea:
    """The end taken back by so much, to where a size is what it is to be; `sizes` are its own then, mm."""
    zone = size.zone
    now = situation.left(size)
    form = now.form(zone)
    removed = form.volume_mm3() - form.with_sizes(sizes).volume_mm3()
    share = back_mm / form.size_mm("length")
    regained = tuple(
        Regained(zone, name, size_mm, between_mm(now, zone, name, size_mm, share))
        for name, size_mm in sizes.items()
        if name != "length"
    )
    regained += (Regained(zone, "length", sizes["length"], _length_doubt_mm(situation, now, zone)),)
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
    return run_on((words for words in (left, by_the_stone(situation, zone)) if words), "; ")


def by_the_stone(situation: Situation, zone: str) -> Words:
    """How an end that is hard is shortened."""
    if not situation.is_hard_at(zone):
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
    if not state.has_form or state.free != "length" or not state.bare_ends[1]:
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
