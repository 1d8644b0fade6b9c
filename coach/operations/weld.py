"""Welding: a piece of another alloy is laid on a zone and the two become one solid, two metals."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar, Final

from coach.forms import Form
from coach.operations.base import Operation, Work, bare_surface_mm2

#: Squeezed out and burnt at the joint, as a share of both metals (common practice, no source).
USUAL_SQUEEZE_SHARE = 0.01

FLUX_CAUTION: Final = (
    "Flux and scale spray at the first blows: face, arms and bystanders covered; "
    "flux fume outdoors or drawn off."
)


class Weld(Operation):
    """Fit, flux, tack and weld.

    The joined zone's volume is that of both; what is lost is shared between them by their volumes, and
    neither metal is ever counted as the other. Its heats scale the joined solid: faces laid together and
    fluxed do not scale. `inset` is how far the steel goes into a cleft, `teeth` how high its face was
    raised to bite into the iron; neither takes metal.
    """

    NAME: ClassVar[str] = "weld"
    SUMMARY: ClassVar[str] = "Clean, flux, tack from the middle out, then weld at full heat and blend."
    SCOPE: ClassVar[str] = "join"
    HEATS: ClassVar[int] = 3
    HEAT_KIND: ClassVar[str] = "welding"
    HEAT_NAMES: ClassVar[tuple[str, ...]] = ("tack", "weld", "blend", "touch up")
    AMOUNTS: ClassVar[Mapping[str, str]] = {"squeeze": "share", "inset": "length", "teeth": "length"}
    TAKEN_DOUBT_SHARE: ClassVar[float] = 0.5
    CAUTION: ClassVar[str] = FLUX_CAUTION

    def taken_mm3(self, before: Form, volume_mm3: float, work: Work) -> dict[str, float]:
        """What is squeezed out of the joint."""
        share = work.amounts.get("squeeze_share", USUAL_SQUEEZE_SHARE)
        return {"squeeze": volume_mm3 * share} if share else {}

    def scaling_surface_mm2(self, before: Form, after: Form, work: Work) -> float:
        """The joined solid's surface."""
        return bare_surface_mm2(after, work)
