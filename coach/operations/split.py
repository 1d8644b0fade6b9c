"""Splitting: the end of a bar is cut lengthwise, into two tines of one form or into zones of their own."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import accumulate
from types import MappingProxyType
from typing import Final

from coach.forms import Form, listed
from coach.forms.fork import Fork
from coach.forms.uneven_fork import UnevenFork
from coach.operations.base import Operation, Work
from coach.operations.does import Cause, Does
from coach.operations.measures import OTHER_TINE, TINE
from coach.operations.shape import Shape
from coach.quantities import Kind, Words, as_words, mm, run_on, say

#: What each branch is once a bar of that form is cut along its length, across its width.
_BRANCHES: Final = {"flat": "flat", "square": "flat", "taper": "taper"}
#: A bar that runs by less than this share of its width is as wide at both ends (our choice).
_SAME_SHARE: Final = 0.01
#: What is done about a tine that is left too thin (common practice, no source).
_OFF_THE_MIDDLE: Final = as_words(
    "The thinner tine has not the metal to be drawn as the drawing has it: weld a piece on to it, or draw "
    "both shorter or thinner and change the drawing."
)


class Split(Operation):
    """One zone becomes two tines alike, or the zones that it splits into; a hot chisel takes nothing."""

    DOES = frozenset({Does.PARTS})
    SUMMARY = (
        "Punch a small hole where the split is to end, so that it runs no further, and cut to it along the "
        "middle from both faces with the hot chisel; then open the tines."
    )
    ALSO_CALLED = ("slit", "cleave")
    ACCOUNT = (
        "a zone that `splits into` others becomes those, each with its share of the metal and of the width; "
        "any other becomes a fork, or an uneven fork where that `form` is named; "
        "`slit`, how wide a saw cuts, × thickness × length: nothing unless said; `tine` is how wide either"
        " tine is, half of the bar until it is drawn"
    )
    FORM = "fork"
    KEEPS_SECTION = "a chisel parts the bar and draws neither half, which is done after it"
    HEATS = 2
    GAUGE = "rule"
    AMOUNTS = {"slit": Kind.LENGTH}  # no `kerf`: what is usual for a saw is not for a chisel
    AFTER_OUT = MappingProxyType(dict.fromkeys((TINE, OTHER_TINE), _OFF_THE_MIDDLE))
    HAZARDS = ("struck-end",)

    def branch(self, shape: Shape) -> Shape | None:
        """A flat of a flat or a square, a taper of a taper; anything else is forged to one of them before."""
        kind = _BRANCHES.get(shape.kind)
        return None if kind is None else Shape(kind)

    def taken_mm3(self, before: Form, volume_mm3: float, work: Work) -> dict[Cause, float]:
        """What a saw takes along the whole zone."""
        slit_mm = work.amounts.get("slit_mm", 0.0)
        thick = [point[1] for point in before.section(0.0).outline]
        cut_mm3 = work.cuts * slit_mm * before.length_mm * (max(thick) - min(thick))
        return {Cause.KERF: cut_mm3} if slit_mm else {}

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

    def know_cuts(self, before: Form, shares: Mapping[str, float]) -> Iterator[Words]:
        """Each cut by how far it runs from one edge; at the narrow end of a taper as well."""
        told = listed([f"{name} {_percent(share)}" for name, share in shares.items()])
        parts = list(accumulate(shares.values()))[:-1]
        wide = [_wide_mm(before, at) for at in (0.0, before.length_mm)]
        for at_mm, where in zip(wide, ("", " at its far end"), strict=True):
            if where and abs(wide[1] - wide[0]) < _SAME_SHARE * wide[0]:
                break
            runs = run_on([say("{}", mm(share * at_mm)) for share in parts], " and ")
            yield say(f"Scribe the line of the cut {{}} from one edge{where}. From there: {told}.", runs)


def _wide_mm(form: Form, at_mm: float) -> float:
    wide = [point[0] for point in form.section(at_mm).outline]
    return max(wide) - min(wide)


def _percent(share: float) -> str:
    return f"{100 * share:.0f} %"
