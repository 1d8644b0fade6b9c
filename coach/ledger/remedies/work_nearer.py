"""Work nearer: a section full of its limits is brought to its middle size, and the length gains by it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from coach.forms import Form, FormError, label
from coach.ledger.amendment import Amendment, Regained
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.verdict import SizeState
from coach.quantities import Limits, aimed, mm, run_on, say

#: A section nearer than this to its middle size gives no length worth a heat, as a share of it (judgement).
_WORTH_SHARE = 0.005
_SCATTER_SHARE = 0.02


class WorkNearer(Remedy):
    """The usual rescue of a length that is short while the metal for it is there."""

    NAME = "work nearer"

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every zone whose length comes out short and whose section is full of its limits."""
        if situation.is_hard:
            return
        for zone in situation.found.zones.values():
            short = [
                size for size in zone.sizes if size.dimension == "length" and size.state is SizeState.UNDER
            ]
            state = situation.now.zones[zone.zone]
            if not short or not state.has_form or state.free != "length":
                continue
            if situation.is_ground(zone.zone):
                continue
            form = situation.now.form(zone.zone)
            # What a step ahead works still is brought to its size there, and the metal for that is behind it.
            worked = {size.dimension for size in zone.sizes if situation.steps_that_shape(size)}
            limits = situation.plan.recipe.drawing[zone.zone].limits
            full = {
                name: limits[name].nominal
                for name, size_mm in form.sizes_mm().items()
                if name in limits
                and name != "length"
                and name not in worked
                and "hole" not in name
                and size_mm > limits[name].nominal * (1.0 + _WORTH_SHARE)
            }
            if full and (idea := _brought_down(zone.zone, form, full, limits)) is not None:
                yield idea


def _brought_down(zone: str, form: Form, full: dict[str, float], limits: Mapping[str, Limits]) -> Idea | None:
    try:
        after = form.with_sizes(full).solved("length", form.volume_mm3())
    except FormError:
        return None
    length_mm = after.size_mm("length")
    gains = mm(length_mm - form.size_mm("length"), _SCATTER_SHARE * length_mm)
    sizes = (
        say("{} to {:aim}", label(zone, name), aimed(size_mm, limits[name])) for name, size_mm in full.items()
    )
    return Idea(
        about=zone,
        title=say("Work the {}", run_on(sizes, ", ")),
        changes=say("The metal is there: the {} gets longer by {:~}.", zone, gains),
        amendment=Amendment(
            regained=tuple(Regained(zone, name, size, _SCATTER_SHARE * size) for name, size in full.items())
        ),
        heats=1,
    )
