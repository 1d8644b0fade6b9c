"""A forge made up by chance from the assumptions of docs/reckoning.md: the truth, without any ledger."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from coach.forms import Form, form_kind

# The numbers below are docs/reckoning.md's, typed again so that the two can disagree.
BAR_SHARE = 0.005
MARK_MM = 0.7
SCALE_SHARE = 0.4
LEAST_SCALE = 0.05
COLOUR_C = 40.0
ELONGATION_SHARE = 0.10
UNEVEN_MM, UNEVEN_SHARE = 0.10, 0.002
#: Cold, hot, own bias, with size.
GAUGES = {
    "calliper": (0.10, 0.25, 0.05, 0.0),
    "rule": (0.30, 0.50, 0.10, 0.001),
}
ROUNDS = 4
#: What lies between two faces loses scale on both; a hole gains it; a length does neither.
BETWEEN_FACES = ("width", "thickness", "diameter", "side")


class Work(NamedTuple):
    """One step on one zone, as the smith means it."""

    zone: str
    kind: str
    aims: Mapping[str, tuple[float, float]] = {}  # the limits worked to; a size not named is kept
    free: str = "length"
    options: Mapping[str, str] = {}
    heats: int = 0
    face_mm: float = 0.0  # scale in a heat
    slug_mm3: float = 0.0  # known to 30 %
    squeeze_share: float = 0.0  # known to 50 %
    lays: str = ""
    after_only: bool = False  # a weld scales what it leaves
    reach: tuple[float, str] | None = None  # ground to this length within ± what the job leaves it, by name


class Bar(NamedTuple):
    """A bar with its marked zones, in order."""

    kind: str
    sizes: Mapping[str, float]
    zones: tuple[str, ...]


def surface(form: Form, bare: tuple[bool, bool]) -> float:
    ends = bare[0] * form.end_area_mm2("start") + bare[1] * form.end_area_mm2("finish")
    return form.side_surface_mm2() + ends


def draft(kind: str, sizes: Mapping[str, float], options: Mapping[str, str]) -> Form:
    form = form_kind(kind)
    chosen = (options.get(name, allowed[0]) for name, allowed in form.OPTIONS.items())
    full = form.filled(sizes, options)
    return form(*(full[name] for name in form.DIMENSIONS), *chosen)


def elongation(temperature_c: float) -> float:
    """EN 1993-1-2:2005 §3.4.1.1 above 750 °C."""
    return 0.011 if temperature_c <= 860.0 else 2e-5 * temperature_c - 6.2e-3


class Smith(NamedTuple):
    """How the smith's hand differs from what is assumed of it."""

    scatter: float = 1.0  # in usual ones
    mends: bool = False  # whether a size that is seen to have more to go is worked again


AS_ASSUMED = Smith()
#: A glance with a calliper before the next step: its own error and the face's, mm.
GLANCE_MM = 0.16


class Forge:
    """One tool's truth: its bars, its fire, its smith's hand and gauges."""

    def __init__(
        self,
        chance: np.random.Generator,
        bars: tuple[Bar, ...],
        start_mm3: Mapping[str, float],
        limits: Mapping[str, str],
        smith: Smith = AS_ASSUMED,
    ) -> None:
        self.smith = smith
        self.limits = {name: float(limit) for name, limit in limits.items()}
        self.chance = chance
        self.scale = max(LEAST_SCALE, float(chance.normal(1.0, SCALE_SHARE)))
        self.bias = {name: float(chance.normal(0.0, gauge[2])) for name, gauge in GAUGES.items()}
        self.stretch = float(chance.normal(1.0, ELONGATION_SHARE))
        self.forms: dict[str, Form] = {}
        self.bare: dict[str, tuple[bool, bool]] = {}
        self.before_stone: dict[str, Form] = {}
        self.laid: dict[str, Form] = {}
        for bar in bars:
            sizes = {name: float(chance.normal(size, size * BAR_SHARE)) for name, size in bar.sizes.items()}
            area = draft(bar.kind, {**bar.sizes, "length": 1.0}, {}).volume_mm3()
            last = 0.0
            for at, zone in enumerate(bar.zones):
                mark = float(chance.normal(0.0, MARK_MM))
                length = start_mm3[zone] / area + mark - last
                self.forms[zone] = draft(bar.kind, {**sizes, "length": length}, {})
                self.bare[zone] = (at == 0, at == len(bar.zones) - 1)
                last = mark

    def hand(self, low: float, high: float) -> float:
        """A size worked to its limits: nineteen in twenty land between them."""
        return float(self.chance.normal((low + high) / 2.0, self.smith.scatter * (high - low) / 4.0))

    def brought(self, was: float | None, low: float, high: float) -> float:
        """The same; a smith who mends works on what is seen to stand beyond the limit that it comes from."""
        size = self.hand(low, high)
        from_above = was is not None and was > (low + high) / 2.0
        while self.smith.mends:
            seen = size + float(self.chance.normal(0.0, GLANCE_MM))
            if not (seen > high if from_above else seen < low):
                break
            size = (min if from_above else max)(size, self.hand(low, high))
        return size

    def worked(self, work: Work) -> Form:
        """The zone as the step leaves it; `forms` still holds it as it was."""
        before = self.forms[work.zone]
        # A hole is as wide on the far side as on the near one: the drift goes right through.
        have = {name: size for name, size in before.sizes_mm().items() if not name.startswith("far_")}
        sizes = {
            **have,
            **{name: self.brought(have.get(name), *limits) for name, limits in work.aims.items()},
        }
        if work.reach is not None:
            length, name = work.reach
            limit = self.limits[name]
            reached = min(have["length"], self.hand(length - limit, length + limit))
            return draft(work.kind, {**sizes, "length": reached}, work.options)
        for name in have.keys() - work.aims.keys() - {work.free}:
            layer = work.heats * work.face_mm * self.scale
            if "hole" in name:
                sizes[name] += 2.0 * layer
            elif name.endswith(BETWEEN_FACES):
                sizes[name] -= 2.0 * layer
        volume = before.volume_mm3()
        if work.lays:
            volume += self.forms[work.lays].volume_mm3()
        volume -= work.slug_mm3 * float(self.chance.normal(1.0, 0.3)) if work.slug_mm3 else 0.0
        volume *= 1.0 - work.squeeze_share * float(self.chance.normal(1.0, 0.5))
        start = draft(work.kind, {work.free: have.get(work.free, 40.0), **sizes}, work.options)
        return self.scaled(work, before, start, volume, work.heats)

    def scaled(self, work: Work, before: Form, after: Form, volume: float, heats: float) -> Form:
        """What is left once the fire has had its part."""
        bare = self.bare[work.zone]
        face = heats * work.face_mm * self.scale
        form = after.solved(work.free, volume)
        for _ in range(ROUNDS if face else 0):
            now = surface(form, bare)
            faces = now if work.after_only else (surface(before, bare) + now) / 2.0
            form = after.solved(work.free, volume - face * faces)
        return form

    def half_way(self, work: Work, after: Form, heats: int) -> Form:
        """The zone while it is worked: somewhere between where it was and where it is going."""
        before = self.forms[work.zone]
        share = float(np.clip(self.chance.normal(heats / work.heats, 0.15), 0.05, 0.95))
        end = after.sizes_mm()
        sizes = {name: have + share * (end[name] - have) for name, have in before.sizes_mm().items()}
        return self.scaled(work, before, draft(work.kind, sizes, work.options), before.volume_mm3(), heats)

    def done(self, work: Work, after: Form) -> None:
        if work.lays:
            self.laid[work.lays] = self.forms[work.lays]
        if work.reach is not None:
            self.before_stone[work.zone] = self.forms[work.zone]
        self.forms[work.zone] = after

    def read(self, size_mm: float, gauge: str, hot_c: float | None) -> float:
        """What the gauge says of a size."""
        cold_mm, hot_mm, _, share = GAUGES[gauge]
        said = size_mm
        own = cold_mm
        if hot_c is not None:
            own = hot_mm
            said *= 1.0 + self.stretch * elongation(float(self.chance.normal(hot_c, COLOUR_C)))
        spread = (own, share * size_mm, UNEVEN_MM + UNEVEN_SHARE * size_mm)
        return said + self.bias[gauge] + sum(float(self.chance.normal(0.0, one)) for one in spread)
