"""The eyed zone: a block with a hole through its width or its thickness."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from types import MappingProxyType
from typing import Self

from coach.forms import holes
from coach.forms.base import CrossSection, End, Form, Loop, rectangle
from coach.quantities import Words, as_words, mm, say

#: Slices through the depth of a tapered hole when a section is drawn (our choice).
_LEVELS = 32


@dataclass(frozen=True, slots=True)
class Eyed(Form):
    """A rectangular block less a hole in the middle of its length, straight or running evenly to a far mouth.

    V = w·t·L − h/6·(A_near + 4·A_mid + A_far), h the depth of the hole and A_mid from mean dimensions: the
    prismatoid formula (Kern & Bland, Solid Mensuration, 1938, from memory). The hole's length runs along the
    bar. Through the thickness, its width runs across the bar's width; through the width, across the
    thickness. The near mouth is on the positive side. Areas and walls of the shapes: coach.forms.holes.
    """

    SUMMARY = "a block with a hole through it, straight or tapered, for a haft or a pin"
    VOLUME = "w · t · L − hole"
    FALLBACKS = MappingProxyType(
        {"hole_width": "hole_length", "far_hole_length": "hole_length", "far_hole_width": "hole_width"}
    )
    OPTIONS = MappingProxyType({"hole": holes.SHAPES, "through": ("thickness", "width")})
    FREE = "width"
    EVEN = ()
    STRAIGHT = ("width", "thickness", "length")  # a longer hole comes with a deeper block

    width_mm: float
    thickness_mm: float
    length_mm: float
    hole_length_mm: float
    hole_width_mm: float
    far_hole_length_mm: float
    far_hole_width_mm: float
    hole: str
    through: str

    def faults(self) -> list[Words]:
        """A hole that leaves no wall or no end, or whose sizes its shape cannot have."""
        found: list[Words] = []
        across_mm = self.across_mm
        side = "width" if self.through == "thickness" else "thickness"
        mouths = [("hole", self.near_mm)]
        mouths += [("far hole", self.far_mm)] if self.far_mm != self.near_mm else []
        for name, (length_mm, width_mm) in mouths:
            if width_mm >= across_mm:
                words = (
                    "the {} width of {} leaves no wall in a {} of {}: make the hole smaller or the {} larger"
                )
                found.append(say(words, name, mm(width_mm), side, mm(across_mm), side))
            if length_mm >= self.length_mm:
                words = (
                    "the {} length of {} leaves no end in a length of {}: make the hole smaller or the length"
                )
                found.append(say(f"{words} larger", name, mm(length_mm), mm(self.length_mm)))
            if self.hole == "round" and abs(length_mm - width_mm) > 1e-9 * length_mm:
                words = "a round {} has one diameter, not {} by {}"
                found.append(say(words, name, mm(length_mm), mm(width_mm)))
            if self.hole == "teardrop" and length_mm < width_mm:
                found.append(say("a teardrop {} must be at least as long as it is wide", name))
        lengthwise = self.hole_length_mm - self.hole_width_mm
        if self.hole == "slot" and lengthwise * (self.far_hole_length_mm - self.far_hole_width_mm) < 0.0:
            found.append(as_words("a slot cannot lie along the bar at one mouth and across it at the other"))
        return found

    @classmethod
    def _as_given(cls, sizes_mm: Mapping[str, float], options: Mapping[str, str]) -> dict[str, float]:
        return _paired(sizes_mm) if options.get("hole") == "round" else dict(sizes_mm)

    def with_sizes(self, sizes_mm: Mapping[str, float]) -> Self:
        """Some sizes changed, mm; one of a round mouth's two sizes carries the other with it."""
        return Form.with_sizes(self, _paired(sizes_mm) if self.hole == "round" else sizes_mm)

    @property
    def near_mm(self) -> tuple[float, float]:
        """The near mouth: its length along the bar and its width across it, mm."""
        return self.hole_length_mm, self.hole_width_mm

    @property
    def far_mm(self) -> tuple[float, float]:
        """The far mouth: its length along the bar and its width across it, mm."""
        return self.far_hole_length_mm, self.far_hole_width_mm

    @property
    def depth_mm(self) -> float:
        """How deep the hole is, mm."""
        return self.thickness_mm if self.through == "thickness" else self.width_mm

    @property
    def across_mm(self) -> float:
        """The bar across the hole, mm: the hole and its two cheeks."""
        return self.width_mm if self.through == "thickness" else self.thickness_mm

    def hole_volume_mm3(self) -> float:
        """The metal missing from the hole, mm³."""
        return holes.volume_mm3(self.hole, self.near_mm, self.far_mm, self.depth_mm)

    def hole_loop(self, depth_share: float = 0.0) -> Loop:
        """The hole's outline at a share of its depth, near 0 to far 1: (along, across) from its middle."""
        (near_length, near_width), (far_length, far_width) = self.near_mm, self.far_mm
        return holes.loop_mm(
            self.hole,
            near_length + depth_share * (far_length - near_length),
            near_width + depth_share * (far_width - near_width),
        )

    def volume_mm3(self) -> float:
        """The block less the hole, mm³."""
        return self.width_mm * self.thickness_mm * self.length_mm - self.hole_volume_mm3()

    def side_surface_mm2(self) -> float:
        """Four faces less the two mouths, and the hole's wall, mm²."""
        faces = 2 * (self.width_mm + self.thickness_mm) * self.length_mm
        near, far = self.near_mm, self.far_mm
        mouths = holes.area_mm2(self.hole, *near) + holes.area_mm2(self.hole, *far)
        return faces - mouths + holes.wall_mm2(self.hole, near, far, self.depth_mm)

    def end_area_mm2(self, end: End) -> float:
        """The rectangle at either end, mm²."""
        return self.width_mm * self.thickness_mm

    def section(self, at_mm: float) -> CrossSection:
        """The slice at that place: whole, or two cheeks, the hole's loop running out through both faces."""
        along_mm = self._share_along(at_mm) * self.length_mm - self.length_mm / 2
        outline = rectangle(self.width_mm, self.thickness_mm)
        opening = self._opening(along_mm)
        block_mm2 = self.width_mm * self.thickness_mm
        if len(opening) < 2:
            return CrossSection(block_mm2, outline)
        lost_mm2 = sum(
            (depth_1 - depth_2) * (half_1 + half_2)
            for (depth_1, half_1), (depth_2, half_2) in pairwise(opening)
        )
        loop = [(half, depth) for depth, half in opening]
        loop += [(-half, depth) for depth, half in reversed(opening) if half > 0.0]
        if self.through == "width":
            loop = [(depth, half) for half, depth in loop]
        return CrossSection(block_mm2 - lost_mm2, outline, (tuple(loop),))

    def _opening(self, along_mm: float) -> list[tuple[float, float]]:
        """(place through the depth, half opening) from the near mouth inward, where the hole is open."""
        (near_length, near_width), (far_length, far_width) = self.near_mm, self.far_mm
        reach, grow = near_length / 2 - abs(along_mm), (far_length - near_length) / 2
        # The hole is open here while reach + share·grow > 0.
        first, last = 0.0, 1.0
        if reach < 0.0 and reach + grow < 0.0:
            return []
        if reach < 0.0:
            first = -reach / grow
        elif reach + grow < 0.0:
            last = -reach / grow
        levels = 1 if self.near_mm == self.far_mm else _LEVELS
        opening: list[tuple[float, float]] = []
        for level in range(levels + 1):
            share = first + (last - first) * level / levels
            length_mm = near_length + share * (far_length - near_length)
            width_mm = near_width + share * (far_width - near_width)
            half_mm = holes.half_width_mm(self.hole, length_mm, width_mm, along_mm)
            opening.append((self.depth_mm * (0.5 - share), half_mm))
        return opening if any(half_mm > 0.0 for _, half_mm in opening) else []


_PAIRS = (("hole_length", "hole_width"), ("far_hole_length", "far_hole_width"))


def _paired(sizes_mm: Mapping[str, float]) -> dict[str, float]:
    """The sizes with each mouth's missing size filled from its other one, as a round hole has them."""
    sizes = dict(sizes_mm)
    for length, width in _PAIRS:
        if length in sizes:
            sizes.setdefault(width, sizes[length])
        elif width in sizes:
            sizes[length] = sizes[width]
    return sizes
