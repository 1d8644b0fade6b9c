"""Welding: a piece of another alloy is laid on a zone and the two become one solid, two metals."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar, Final

from coach.forms import Form
from coach.operations.base import Operation, Work, bare_surface_mm2
from coach.operations.does import Cause, Does, HeatKind, Scope
from coach.operations.reweld import FLUX_CAUTION, Reweld
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

    NAME: ClassVar[str] = "weld"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.JOINS, Does.BRIGHT_WORK})
    SUMMARY: ClassVar[str] = "Clean, flux, set from the middle out, then weld at full heat and close."
    ACCOUNT: ClassVar[str] = (
        "`squeeze`: 1 % of both metals unless said; V is the zone and what is laid on it; `inset`"
        " and `barbs` take nothing"
    )
    SCOPE: ClassVar[Scope] = Scope.JOIN
    HEATS: ClassVar[int] = 3
    HEAT_KIND: ClassVar[HeatKind] = HeatKind.WELDING
    HEAT_NAMES: ClassVar[tuple[str, ...]] = (_SET, "weld", "close", "mend")
    UNSAFE_HEATS: ClassVar[Mapping[str, str]] = {_SET: LETS_GO}
    AMOUNTS: ClassVar[Mapping[str, Kind]] = {
        "squeeze": Kind.SHARE,
        "inset": Kind.LENGTH,
        "barbs": Kind.LENGTH,
    }
    TAKEN_DOUBT_SHARE: ClassVar[float] = 0.5
    CAUTION: ClassVar[str] = FLUX_CAUTION
    AGAIN_BY: ClassVar[str | None] = Reweld.NAME
    AGAIN_HEATS: ClassVar[int | None] = 1
    AGAIN_CAUTION: ClassVar[str] = (
        "Scale or flux shut in the joint does not weld: where it stays dark after this, cut it out."
    )

    def taken_mm3(self, before: Form, volume_mm3: float, work: Work) -> dict[Cause, float]:
        """What is squeezed out of the joint."""
        share = work.amounts.get("squeeze_share", USUAL_SQUEEZE_SHARE)
        return {Cause.SQUEEZE: volume_mm3 * share} if share else {}

    def scaling_surface_mm2(self, before: Form, after: Form, work: Work) -> float:
        """The joined solid's surface."""
        return bare_surface_mm2(after, work)
