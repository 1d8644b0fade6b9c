"""What went of each zone's spare in each step and by each loss, and what more bar would give back."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import pairwise
from math import sqrt
from typing import Final, NamedTuple

from coach.bench.begun_with import Known
from coach.bench.looking_back import MomentOfSpare, SpareGone
from coach.bench.outlook import outlook
from coach.bench.sizes_came import SizeCame, SizeVerdict
from coach.ledger.looking_back import look_back
from coach.operations import Does
from coach.operations.inspect import Inspect
from coach.operations.shape import CROSS_SIZES
from coach.quantities import COVERAGE
from coach.quantities.refusal import Refusal
from coach.quantities.words import NOTHING, Words, say
from coach.recipe.model import Recipe

_END: Final = "end_"
#: So much more bar is tried, as a share of a zone's, to see what it gives in the dimension told (our choice).
_TRIED = 0.01
#: Less than this of the spare is not worth a change, in mm, nor as a share of what a size began with
#: (judgement).
_LEAST_MM, _LEAST_OF_SPARE = 0.3, 0.05
#: Where a fuller section makes up for at least this share of a fall, the metal stands there (judgement).
_STANDS_THERE = 0.5


class Fall(NamedTuple):
    """The spare of a zone that went within one step."""

    first: MomentOfSpare  # as the job began
    before: MomentOfSpare
    after: MomentOfSpare
    standing_mm: float = 0.0  # how much of it stands in a section that came fuller than is aimed at
    standing_doubt_mm: float = 0.0  # the standard uncertainty of that

    @property
    def gone_mm(self) -> float:
        """How much of it is metal that is gone."""
        return self.mm - self.standing_mm

    @property
    def size(self) -> tuple[str, str]:
        """The zone and the dimension that it is told in."""
        return self.first.zone, self.first.dimension

    @property
    def mm(self) -> float:
        """How much of it went."""
        return self.before.spare.value - self.after.spare.value

    @property
    def step(self) -> int:
        """The step that it went in: the one that was in hand before."""
        return self.before.step


def falls(gone: SpareGone, losses: Collection[int]) -> Iterator[Fall]:
    """What went of each zone from the beginning of a step to its end, and by each loss; `losses` are entries.

    What was read on the way, and worked or read otherwise since, is no metal that was there.
    """
    by_size: dict[tuple[str, str], list[MomentOfSpare]] = {}
    for point in gone.points:
        by_size.setdefault((point.zone, point.dimension), []).append(point)
    for points in by_size.values():
        begun = points[0]
        for before, after in pairwise(points):
            apart = after.entry in losses or after.entry in gone.redrawn
            if apart and before is not begun:
                yield Fall(points[0], begun, before)
            if after.entry in losses:
                yield Fall(points[0], before, after)
            elif after.entry not in gone.redrawn and after.step == before.step:
                continue
            elif after.entry not in gone.redrawn:
                yield Fall(points[0], begun, after)
            begun = after  # another drawing took no metal
        if begun is not points[-1]:
            yield Fall(points[0], begun, points[-1])


def beside_sizes(fall: Fall, sizes: Sequence[SizeCame]) -> Fall:
    """A fall beside the sizes that its zone came to."""
    found, doubt = standing_mm(fall, sizes)
    return fall._replace(standing_mm=found, standing_doubt_mm=doubt)


def is_worth_telling(fall: Fall, mm: float) -> bool:
    """Whether so much of a fall would be felt at the bench, by a longer mark or another way."""
    return mm >= max(_LEAST_MM, _LEAST_OF_SPARE * fall.first.spare.value)


def is_surely_gone(fall: Fall) -> bool:
    """Whether metal is gone that would be felt: more than what stands in its section is in doubt by."""
    in_doubt_mm = min(fall.standing_mm, COVERAGE * fall.standing_doubt_mm)
    return is_worth_telling(fall, fall.gone_mm) and fall.gone_mm > in_doubt_mm


def only_found_at(recipe: Recipe, title: str, zone: str) -> bool:
    """Whether a step can take nothing of a zone: what is missing then was gone before, and is seen there."""
    steps = [step for step in recipe.steps if step.title == title]
    takes = (
        zone in step.metal
        and not step.does(Does.MARKS_OUT)
        and (step.heats or step.operation != Inspect.NAME)
        for step in steps
    )
    return bool(steps) and not any(takes)


def was_foreseen(recipe: Recipe, title: str, fall: Fall) -> bool:
    """Whether what a step that takes nothing finds gone lies within the doubt that was told before."""
    at_least = fall.before.spare.at_least.value
    return only_found_at(recipe, title, fall.first.zone) and at_least <= fall.after.spare.value


def to_spare_by(recipe: Recipe, fall: Fall, known: tuple[Known, ...]) -> float:
    """How much more there is to spare, in mm, by so much more bar as the zone has; 0 where it is not so."""
    zone, had = fall.first.zone, recipe.drawing[fall.first.zone].allowance_share
    more = recipe.drawing[zone]._replace(allowance_share=had + _TRIED)
    tried = recipe._replace(drawing={**recipe.drawing, zone: more})
    spares = []
    for one in (recipe, tried):
        try:
            found = outlook(look_back(one), known).found
        except Refusal:
            return 0.0
        told = found.zones[zone].spares if zone in found.zones else ()
        spares += [spare.spare.value for spare in told if spare.dimension == fall.first.dimension]
    return (spares[1] - spares[0]) / _TRIED if len(spares) == 2 else 0.0


def marks_out(recipe: Recipe, title: str) -> bool:
    """Whether the step of that title marks out."""
    return any(step.does(Does.MARKS_OUT) for step in recipe.steps if step.title == title)


def fuller_size(fall: Fall, sizes: Sequence[SizeCame]) -> SizeCame | None:
    """The size of a section that holds what is missing of the one that metal left over goes to; else None.

    Of those that came fuller than is aimed at the fullest, where its metal makes up for most of the fall.
    """
    over = {one: _over_share(one) for one in _of_section(fall, sizes)}
    most = max(over, default=None, key=lambda one: over[one])
    return most if most is not None and standing_mm(fall, sizes)[0] >= _STANDS_THERE * fall.mm else None


def standing_mm(fall: Fall, sizes: Sequence[SizeCame]) -> tuple[float, float]:
    """How much of a fall is no metal that is gone, and its standard uncertainty, mm.

    It stands in a section that came fuller than its aim.

    A section of two sizes is fuller by both of them together: one that came under takes off what another
    came over. Of a zone that tapers the mean of its ends counts.
    """
    zone, taken_up = fall.size
    drawn = [one for one in sizes if one.zone == zone and one.wanted is not None]
    long_mm = max((_size_mm(one) for one in drawn if one.dimension == taken_up), default=0.0)
    shares: dict[str, list[tuple[float, float]]] = {}
    for one in _of_section(fall, sizes):
        shares.setdefault(one.dimension.removeprefix(_END), []).append((_over_share(one), _doubt_share(one)))
    over = variance = 0.0
    for name, each in shares.items():
        times = (2.0 if name in CROSS_SIZES else 1.0) / len(each)
        over += times * sum(share for share, _ in each)
        variance += sum((times * doubt) ** 2 for _, doubt in each)
    return min(max(over * long_mm, 0.0), max(fall.mm, 0.0)), sqrt(variance) * long_mm


def _of_section(fall: Fall, sizes: Iterable[SizeCame]) -> list[SizeCame]:
    zone, taken_up = fall.size
    told = (one for one in sizes if one.zone == zone and one.wanted is not None)
    return [one for one in told if one.dimension != taken_up]


def _size_mm(size: SizeCame) -> float:
    assert size.wanted is not None
    return size.came.value if size.came is not None else size.wanted.limits.nominal


def _over_share(size: SizeCame) -> float:
    assert size.wanted is not None
    aim_mm = size.wanted.limits.nominal
    return _size_mm(size) / aim_mm - 1.0 if aim_mm > 0.0 else 0.0


def _doubt_share(size: SizeCame) -> float:
    assert size.wanted is not None
    aim_mm = size.wanted.limits.nominal
    return (size.came.doubt or 0.0) / aim_mm if size.came is not None and aim_mm > 0.0 else 0.0


def left_full(told: Words, fall: Fall, title: str, fuller: SizeCame) -> Words:
    """What is told beside it where a step left a section fuller: longer bar is no answer to that."""
    told = say(
        "{}, but at step {}, {}, the {} fell from {} to spare to {}, for metal stands in its section",
        *(told, fall.step, title, fall.first.label, fall.before.spare, fall.after.spare),
    )
    came = fuller.label, fuller.came or NOTHING, fuller.wanted or NOTHING
    told = say("{}: the {} came {:±}, and {} is wanted", told, *came)
    if fuller.verdict is SizeVerdict.WITHIN:  # nobody needs to work it any further
        return say("{}; a longer bar is no answer to that", told)
    return say("{}; it wants working down further, and no longer bar", told)
