"""Folding: a bar is laid back on itself."""

from __future__ import annotations

import math
from collections.abc import Iterator

from coach.forms import Form
from coach.forms.strap_eye import StrapEye
from coach.operations.base import Operation, Work
from coach.operations.does import Cause, Does
from coach.quantities import Kind, Words, mm, say

#: A section that grew by less than this was not laid double (judgement).
_DOUBLED = 1.5


class Fold(Operation):
    """No metal leaves but what is trimmed off the folded end; the section doubles and the length halves.

    Round a mandrel it makes an eye: the recipe then names the form `strap eye`.
    """

    DOES = frozenset({Does.BRIGHT_WORK})
    KEEPS_SECTION = "an eye keeps the section of the bar that is folded round"
    SUMMARY = (
        "Brush and flux what will lie inside, nick the outside of the fold half through if it is thick, and "
        "fold it back flat on itself, or round the mandrel."
    )
    ALSO_CALLED = ("wrap",)
    ACCOUNT = (
        "`trim` × section, cut off the folded end: nothing unless said; a `form` of strap eye may be named"
    )
    FREE = "length"
    GATHERS = True
    HEATS = 2
    HAZARDS = ("shut-in",)
    AMOUNTS = {"trim": Kind.LENGTH}

    def taken_mm3(self, before: Form, volume_mm3: float, work: Work) -> dict[Cause, float]:
        """The folded end that is cut off, at the section it has then."""
        trim_mm = work.amounts.get("trim_mm", 0.0)
        folded = work.shape.draft({**work.sizes_mm, work.free: before.sizes_mm().get(work.free, 1.0)})
        return {Cause.OFFCUT: trim_mm * folded.end_area_mm2("finish")} if trim_mm else {}

    def layers_times(self, before: Form, after: Form) -> int:
        """As many as its section grew by, where it was laid flat on itself."""
        end_mm2 = before.end_area_mm2("finish")
        if after.KIND != before.KIND or not end_mm2:  # what is closed has no end to lay back
            return 1
        times = after.end_area_mm2("start") / end_mm2
        return round(times) if times >= _DOUBLED else 1

    def know(self, before: Form, after: Form) -> Iterator[Words]:
        """How many layers lie on each other, and what the round end of the fold holds; of an eye, its bar."""
        if isinstance(after, StrapEye):
            words = "{} of bar go round the eye, and beside it two thicknesses lie on each other for {}."
            yield say(words, mm(after.length_mm - 2 * after.lap_mm), mm(after.lap_mm))
        times = self.layers_times(before, after)
        thick_mm = before.sizes_mm().get("thickness")
        if times == 1 or thick_mm is None:
            return
        yield say(
            "Every layer in it becomes {}. The end of the fold is round, {} deep, and holds as much as {} of "
            "the folded bar: trimmed off, it is lost.",
            times,
            mm(thick_mm),
            mm(math.pi / 4 * thick_mm),
        )
