"""Welding: a piece of another alloy is laid on a zone and the two become one solid, two metals."""

from __future__ import annotations

from typing import Final

from coach.forms import Form
from coach.operations.base import Operation, Work, bare_surface_mm2
from coach.operations.does import Cause, Does, HeatKind, Scope
from coach.operations.reweld import Reweld
from coach.operations.tack import LETS_GO
from coach.quantities import Kind

#: Squeezed out and burnt at the joint, as a share of both metals (common practice, no source).
USUAL_SQUEEZE_SHARE = 0.01
_SET: Final = "set"


class Weld(Operation):
    """Fit, flux, set and weld.

    The joined zone's volume is that of both; what is lost is shared between them by their volumes, and
    neither metal is ever counted as the other. Its heats scale the joined solid: faces laid together and
    fluxed do not scale. `inset` is how far the steel goes into a cleft, `barbs` how high its face was
    raised to bite into the iron; neither takes metal.
    """

    DOES = frozenset({Does.JOINS, Does.BRIGHT_WORK})
    SUMMARY = "Clean, flux, set from the middle out, then weld at full heat and close."
    ALSO_CALLED = ("forge weld",)
    ACCOUNT = (
        "`squeeze`: 1 % of both metals unless said; V is the zone and what is laid on it; `inset`"
        " and `barbs` take nothing"
    )
    SCOPE = Scope.JOIN
    HEATS = 3
    HEAT_KIND = HeatKind.WELDING
    EXTRAS = {"temperature": Kind.TEMPERATURE}
    HEAT_NAMES = (_SET, "weld", "close", "mend")
    UNSAFE_HEATS = {_SET: LETS_GO}
    AMOUNTS = {
        "squeeze": Kind.SHARE,
        "inset": Kind.LENGTH,
        "barbs": Kind.LENGTH,
    }
    TAKEN_DOUBT_SHARE = 0.5
    AGAIN_BY = Reweld.NAME
    AGAIN_HEATS = 1
    AGAIN_CAUTION = (
        "Scale or flux shut in the joint does not weld: where it stays dark after this, cut it out."
    )

    def taken_mm3(self, before: Form, volume_mm3: float, work: Work) -> dict[Cause, float]:
        """What is squeezed out of the joint."""
        share = work.amounts.get("squeeze_share", USUAL_SQUEEZE_SHARE)
        return {Cause.SQUEEZE: volume_mm3 * share} if share else {}

    def scaling_surface_mm2(self, before: Form, after: Form, work: Work) -> float:
        """The joined solid's surface."""
        return bare_surface_mm2(after, work)
