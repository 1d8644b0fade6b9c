"""The skin of each steel as a job stands, in the shop's words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING

from coach.bench.replay import JobState
from coach.bench.standing import SkinView
from coach.forms import said
from coach.ledger.course import HeatMark, Mark
from coach.ledger.forecast import Forecast
from coach.ledger.plan import Plan
from coach.ledger.skinning import Skin, skins
from coach.ledger.zone_forecast import expected_size
from coach.quantities import Shown, write_length

if TYPE_CHECKING:
    from coach.ledger.remedies import ShortSkin

#: Less skin than this is taken off by the first strokes of a file (judgement).
_WORTH_TELLING_MM = 0.05


def planned_skins(plan: Plan, shown: Shown) -> tuple[SkinView, ...]:
    """Every steel's skin with everything going as planned."""
    return tuple(
        _view(skin, skin.grinding.ground_mm if skin.grinding else None, shown, planned=True)
        for skin in skins(plan)
    )


def skin_views(state: JobState, found: Forecast | None, shown: Shown) -> tuple[SkinView, ...]:
    """Every steel's skin as far as the job has gone, and whether what will be ground off is enough."""
    views = [_view(skin, ground_mm, shown) for skin, ground_mm in _in_hand(state, found)]
    return tuple(view for view in views if view.now >= _WORTH_TELLING_MM or view.enough is False)


def short_skins(state: JobState, found: Forecast | None) -> tuple[ShortSkin, ...]:
    """Every skin that goes deeper than what will be ground off it, as the remedies see it."""
    from coach.ledger.remedies import ShortSkin

    return tuple(
        ShortSkin(skin.steel, skin.zone, off.step, off.dimension, ground_mm, off.needed_mm)
        for skin, ground_mm in _in_hand(state, found)
        if (off := skin.grinding) is not None and ground_mm is not None and ground_mm < off.needed_mm
    )


def _in_hand(state: JobState, found: Forecast | None) -> Iterator[tuple[Skin, float | None]]:
    """Every steel's skin as far as the job has gone, and what will be ground off it."""
    minutes: dict[int, Sequence[float | None]] = {
        record.step.number: _minutes(record.marks, record.heats) for record in state.records
    }
    step = state.step
    if step is not None:
        minutes[step.number] = _minutes(state.marks, state.heats)
    for skin in skins(state.plan, len(state.records), minutes):
        yield skin, _expected_mm(state.plan, skin, found)


def _minutes(marks: Sequence[Mark], heats: int) -> list[float | None]:
    timed: list[float | None] = [mark.minutes for mark in marks if isinstance(mark, HeatMark)]
    return [*timed, *[None] * (heats - len(timed))]


def _expected_mm(plan: Plan, skin: Skin, found: Forecast | None) -> float | None:
    """What the grinding will take off, by the sizes that are expected to come to it."""
    grinding = skin.grinding
    if grinding is None:
        return None
    before = found.after.get(grinding.step - 1) if found is not None else None
    target = plan.recipe.steps[grinding.step - 1].targets.get(grinding.dimension)
    # A length that the stone brings home finds what the recipe's own skin leaves on it.
    expected = expected_size(before, skin.zone, grinding.dimension) if before is not None else None
    if expected is None or target is None or grinding.dimension == "length":
        return grinding.ground_mm
    return max(expected.value - target.nominal, 0.0)


def _view(skin: Skin, ground_mm: float | None, shown: Shown, *, planned: bool = False) -> SkinView:
    grinding = skin.grinding
    say = partial(write_length, shown=shown)
    told = f"{skin.steel}: " + ("" if planned else f"{say(skin.now_mm)} deep by now, ")
    if grinding is None or ground_mm is None:
        if skin.ground_in is not None:
            told = f"{skin.steel}: {say(skin.now_mm)} deep since step {skin.ground_in} ground it"
        else:
            told += f"{say(skin.end_mm)} deep in the end; no step says how much is ground off"
        return SkinView(skin.steel, skin.zone, skin.metal, skin.now_mm, None, None, None, None, None, told)
    enough = ground_mm >= grinding.needed_mm
    told += f"{say(grinding.skin_mm)} {'deep ' if planned else ''}at step {grinding.step}, which grinds "
    told += f"{say(ground_mm)} off the {said(grinding.dimension)}"
    told += "" if enough else f" and should {say(grinding.needed_mm)}"
    return SkinView(
        skin.steel,
        skin.zone,
        skin.metal,
        skin.now_mm,
        grinding.skin_mm,
        grinding.dimension,
        ground_mm,
        grinding.needed_mm,
        enough,
        told,
    )


def short_skin(views: Sequence[SkinView]) -> SkinView | None:
    """The first steel whose skin is deeper than what is ground off it."""
    return next((view for view in views if view.enough is False), None)


def skin_reason(view: SkinView, shown: Shown) -> str:
    """Why a job is tight for its skin."""
    assert view.at_grinding is not None
    assert view.ground is not None
    assert view.needed is not None
    assert view.dimension is not None
    return (
        f"The skin of the {view.steel} will be up to {write_length(view.at_grinding, shown)} deep and only "
        f"{write_length(view.ground, shown)} is ground off the {said(view.dimension)}: leave "
        f"{write_length(view.needed - view.ground, shown)} more for the stone, or it comes out soft."
    )
