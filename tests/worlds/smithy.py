"""The truth of one tool: its metal walked in plain arithmetic, by a world's fire, hand and gauges."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from tests.worlds.metal import Section, Zone
from tests.worlds.tools import Cut, Draw, Size, Tool
from tests.worlds.worlds import World

FACE_MM = 0.03  # of scale in a forging heat, as the recipes say
SCALE_SHARE = 0.4  # how unsure that is, as they say
LEAST_SCALE = 0.05
MARK_MM = 0.7  # a punch mark, and a cut: common practice, no source
ELONGATION = 0.0117  # near 900 °C, EN 1993-1-2:2005 §3.4.1.1
ELONGATION_SHARE = 0.1
COLOUR_C = 40.0
PER_C = 2e-5  # what the elongation grows by in a degree, same clause
#: One standard uncertainty, mm: cold and hot, the gauge's own, and with the size.
CALLIPER, RULE = (0.10, 0.25, 0.05, 0.0), (0.30, 0.50, 0.10, 0.001)
#: Kitchen scales, g, themselves and each weighing (common practice, no source). Steel 7.85 g/cm³, EN 10025;
#: as true as a catalogue is.
SCALES_G, G_PER_MM3, DENSITY_SHARE = 1.0, 7.85e-3, 0.005
UNEVEN_MM, UNEVEN_SHARE = 0.10, 0.002
KERF_FREE_MM = 400.0  # of bar behind the last mark, until it is cut


class Smithy:
    """One bar under one hammer."""

    def __init__(
        self, tool: Tool, ease: float, world: World, stock_mm: dict[str, float], seed: tuple[int, ...]
    ) -> None:
        self.tool, self.world, self.chance = tool, world, np.random.default_rng(seed)
        self.drawing = tool.eased(ease)
        self.scale = max(LEAST_SCALE, self._about(world.hunger, SCALE_SHARE))
        self.stretch = self._about(1.0, ELONGATION_SHARE)
        self.bias = {"calliper": self._about(world.worn, CALLIPER[2]), "rule": self._about(0.0, RULE[2])}
        self.scales, self.density = self._about(0.0, SCALES_G), self._about(1.0, DENSITY_SHARE)
        self.places: dict[tuple[str, str], float] = {}
        bar = Section(*(self._about(size, size * world.mill) for size in tool.bar_sizes))
        self.zones: dict[str, Zone] = {}
        last = 0.0
        for zone, long in stock_mm.items():
            mark = self._about(0.0, MARK_MM)
            self.zones[zone] = Zone(bar, bar, long + mark - last)
            last = mark
        self.cut_mm = stock_mm[list(stock_mm)[-1]]
        self.on_bar = list(stock_mm)[-1]
        self.zones[self.on_bar] = Zone(bar, bar, KERF_FREE_MM)

    def _about(self, mean: float, doubt: float) -> float:
        return float(self.chance.normal(mean, doubt)) if doubt else mean

    def marks_mm(self) -> dict[str, float]:
        """Where each zone's mark stands, from the end; not of the one that stays on its bar."""
        at, marks = 0.0, {}
        for name, zone in self.zones.items():
            if name != self.on_bar:
                at += zone.long
                marks[name] = at
        return marks

    def done(self, step: Draw | Cut, extra_heats: int = 0) -> None:
        """The step, as this hand and this fire do it."""
        if isinstance(step, Cut):
            self.zones[step.zone] = replace(self.zones[step.zone], long=self._about(self.cut_mm, MARK_MM))
            return
        before = self.zones[step.zone]
        sizes = {size.name: self._brought(before.size(size.name), size) for size in step.sizes}
        self._wandered(step.zone)
        volume = self.zones[step.zone].volume
        full = 1.0 + self.world.full
        after = _with(before, sizes, full)
        depth = (step.heats + extra_heats) * FACE_MM * self.scale
        after = _scaled(before, after, volume, depth)
        if self.world.to_length and step is self._last_on(step.zone):
            after = _scaled(before, self._to_length(step, after, sizes, full), volume, depth)
        self.zones[step.zone] = after

    def _last_on(self, zone: str) -> Draw | Cut:
        return next(step for step in reversed(self.tool.steps) if step.zone == zone)

    def _to_length(self, step: Draw, after: Zone, sizes: dict[str, float], full: float) -> Zone:
        """The thickness, or what stands for it, as far inside its limits as the length asks for."""
        wanted = self.drawing[step.zone][-1].aim
        name = next(n for n in ("thickness", "side", "diameter") if n in sizes)
        size = next(one for one in step.sizes if one.name == name)
        power = 1.0 if name == "thickness" else 0.5
        better = sizes[name] * (after.long / wanted) ** power
        kept = {**sizes, name: min(max(better, size.low), max(size.high, sizes[name]))}
        return _with(after, {**kept, name: min(kept[name], sizes[name] + size.limit)}, full)

    def _brought(self, was: float, size: Size) -> float:
        """A size hammered to its limits: 19 in 20 land between; what is seen to be big is worked on."""
        stop = size.aim + self.world.inside * size.limit
        doubt = self.world.scatter * size.limit / 2.0
        if was <= size.low:
            return was
        landed = self._about(stop, doubt)
        while self._about(landed, 0.16) > size.high:  # a glance with a calliper before the next step
            landed = min(landed, self._about(stop, doubt))
        return min(landed, was)

    def _wandered(self, zone: str) -> None:
        """Metal goes over the shoulders of a zone that is forged, one way or the other."""
        names = list(self.zones)
        at = names.index(zone)
        for other in names[max(0, at - 1) : at] + names[at + 1 : at + 2]:
            if not self.world.wander:
                continue
            here, there = self.zones[zone], self.zones[other]
            moved = self._about(0.0, self.world.wander * min(here.volume, there.volume))
            self.zones[zone] = here.holding(here.volume + moved)
            if other != self.on_bar:
                self.zones[other] = there.holding(there.volume - moved)

    def read(self, zone: str, size: str, *, hot: bool = False) -> float:
        """What the gauge says of a size."""
        true = self.zones[zone].size(size)
        gauge = RULE if size == "length" else CALLIPER
        said = true
        if hot:
            off = self._about(self.world.wrong_heat_c, COLOUR_C)
            said *= 1.0 + self.stretch * (ELONGATION + PER_C * off)
        unevenness = self._about(0.0, UNEVEN_MM + UNEVEN_SHARE * true)
        if self.world.one_place:
            unevenness = self.places.setdefault((zone, size), unevenness)
        said += (
            unevenness + self._about(0.0, gauge[1] if hot else gauge[0]) + self._about(0.0, gauge[3] * true)
        )
        return said + self.bias["rule" if size == "length" else "calliper"]

    def read_mark(self, zone: str) -> float:
        """What the rule says of a mark, from the end."""
        true = self.marks_mm()[zone]
        return true + self._about(0.0, RULE[0]) + self._about(0.0, RULE[3] * true) + self.bias["rule"]

    def weighed_g(self) -> float:
        """What kitchen scales say of the whole piece."""
        mass = G_PER_MM3 * sum(zone.volume for zone in self.zones.values())
        return mass * self.density + self.scales + self._about(0.0, SCALES_G)

    def passed(self) -> bool:
        """Whether every size of the drawing is inside both of its limits."""
        return all(
            size.holds(self.zones[zone].size(size.name))
            for zone, sizes in self.drawing.items()
            for size in sizes
        )

    def nothing_prevents_it(self, steps_done: int) -> bool:
        """Whether a perfect hand could still make the drawing by the steps ahead.

        It stops on the middle of what it works to and never beyond; this fire takes what it takes, and the
        metal fills its sections as it does in this world. A length that comes out too long does not count
        while its zone is still to be worked: there is metal to spare.
        """
        zones = dict(self.zones)
        full = 1.0 + self.world.full
        ahead = self.tool.steps[steps_done:]
        for step in ahead:
            before = zones[step.zone]
            if isinstance(step, Cut):
                zones[step.zone] = replace(before, long=self.cut_mm)
                continue
            sizes = {size.name: min(before.size(size.name), size.aim) for size in step.sizes}
            zones[step.zone] = _scaled(
                before, _with(before, sizes, full), before.volume, step.heats * FACE_MM * self.scale
            )
        worked = {step.zone for step in ahead}
        for zone, drawn in self.drawing.items():
            for size in drawn:
                came = zones[zone].size(size.name)
                too_long_yet = size.name == "length" and zone in worked
                if came < size.low or (came > size.high and not too_long_yet):
                    return False
        return True


def _with(before: Zone, sizes: dict[str, float], full: float) -> Zone:
    """A zone with other sections; straight along where no end is named."""
    near, far = _sections(before, sizes)
    return Zone(near, far, before.long, full)


def _sections(before: Zone, sizes: dict[str, float]) -> tuple[Section, Section]:
    wide = next((sizes[n] for n in ("width", "side", "diameter") if n in sizes), before.near.wide)
    if before.near.thick is None:
        near = Section(wide)
        return near, Section(sizes["end_diameter"]) if "end_diameter" in sizes else near
    near = Section(wide, sizes.get("side", sizes.get("thickness", before.near.thick)))
    if "end_width" not in sizes:
        return near, near
    return near, Section(sizes["end_width"], sizes["end_thickness"])


def _scaled(before: Zone, after: Zone, volume: float, depth: float) -> Zone:
    """As long as the metal makes it once the fire has had its part of the mean of both surfaces."""
    after = after.holding(volume)
    for _ in range(4):
        after = after.holding(volume - depth * (before.surface + after.surface) / 2.0)
    return after
