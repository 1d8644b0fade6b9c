"""Splitting: the end of a bar is cut lengthwise into two tines."""

from __future__ import annotations

from collections.abc import Iterator

from coach.forms import Form
from coach.forms.fork import Fork
from coach.forms.uneven_fork import UnevenFork
from coach.operations.base import Operation, Work
from coach.operations.does import Cause
from coach.quantities import Kind, Words, mm, say


class Split(Operation):
    """One zone becomes two tines alike; a hot chisel takes nothing, a saw its kerf."""

    SUMMARY = (
        "Punch a small hole where the split is to end, so that it runs no further, and cut to it along the "
        "middle from both faces with the hot chisel; then open the tines."
    )
    ACCOUNT = (
        "a `form` of uneven fork may be named; "
        "`slit`, how wide a saw cuts, × thickness × length: nothing unless said; `tine` is how wide either"
        " tine is, half of the bar until it is drawn"
    )
    FORM = "fork"
    HEATS = 2
    GAUGE = "rule"
    AMOUNTS = {"slit": Kind.LENGTH}  # no `kerf`: what is usual for a saw is not for a chisel
    HAZARDS = ("struck-end",)

    def taken_mm3(self, before: Form, volume_mm3: float, work: Work) -> dict[Cause, float]:
        """What a saw takes along the whole zone."""
        slit_mm = work.amounts.get("slit_mm", 0.0)
        thick = [point[1] for point in before.section(0.0).outline]
        return {Cause.KERF: slit_mm * before.length_mm * (max(thick) - min(thick))} if slit_mm else {}

    def know(self, before: Form, after: Form) -> Iterator[Words]:
        """How wide either half of the bar is before it is drawn; of branches that differ, what each has."""
        if isinstance(after, UnevenFork) and not isinstance(before, UnevenFork):
            words = "Split {} from the edge the first branch has {} of the metal, and the other one {}."
            yield say(words, mm(after.tine_mm), _percent(after.share), _percent(1 - after.share))
        if isinstance(after, Fork) and not isinstance(before, Fork):
            wide = [point[0] for point in before.section(0.0).outline]
            half_mm = (max(wide) - min(wide)) / 2
            words = "Split along its middle it leaves tines {} wide and {} long, before they are drawn."
            yield say(words, mm(half_mm), mm(before.length_mm))


def _percent(share: float) -> str:
    return f"{100 * share:.0f} %"
