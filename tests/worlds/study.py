"""Tools forged in a world, told to the coach as a smith would type them, and what it said at every moment."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from coach.bench.answer import Answer
from coach.bench.entering import EntryFault
from coach.bench.learned import OfShop
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.ledger.verdict import PlanState
from coach.log.kinds.forged_with import ForgedWith
from tests.bench.jobs import shop
from tests.worlds.smithy import Smithy
from tests.worlds.tools import EASES, Cut, Draw, Tool
from tests.worlds.worlds import World

HOT_C = "900 C"
#: How often a step's sizes are read hot.
HOT = 0.3


class Moment(NamedTuple):
    """What was told when a step was done, and what was so."""

    tool: str
    number: int  # of the tool in its batch
    steps_done: int  # 0 when it is marked out; -1 as it is begun, where it is told what came of a first plan
    verdict: PlanState
    chance: float
    was_so: bool  # nothing that was done prevented the drawing
    will_pass: float
    passed: bool
    scale: tuple[float, float]  # as learned: the factor and its standard uncertainty
    true_scale: float
    is_last: bool


class Bench:
    """One job of the virtual smith."""

    def __init__(
        self,
        tool: Tool,
        world: World,
        ease: float,
        seed: tuple[int, ...],
        at: Shop,
        made: ForgedWith | None = None,
    ) -> None:
        self.world, self.tool = world, tool.name
        self.chance = np.random.default_rng((*seed, 1))
        self.session: Session = at.begin(tool.text(ease), f"{tool.name}.yaml", made=made)
        stock = {zone: self.session.plan.bar_of(zone).size_mm("length") for zone in tool.drawing}
        self.smithy = Smithy(tool, ease, world, stock, (*seed, 2))

    def mark_out(self) -> None:
        for zone in self.smithy.marks_mm():
            if self.chance.random() < self.world.takes:
                self._tell(
                    lambda z=zone: self._enter(f"{z}.mark", self.smithy.read_mark(z), "rule", hot=False)
                )
        self.session.done()

    def work(self, step: Draw | Cut) -> None:
        heats = 0 if isinstance(step, Cut) else step.heats
        extra = sum(self.chance.random() < self.world.forgets for _ in range(heats))
        self.smithy.done(step, extra)
        for _ in range(heats):
            self.session.heat()
        hot = bool(heats) and self.chance.random() < HOT
        names = ("length",) if isinstance(step, Cut) else (*(size.name for size in step.sizes), "length")
        for name in names:
            if self.chance.random() < self.world.takes:
                self._tell(lambda n=name: self._size(step.zone, n, hot=hot))
        if self.world.weighs and heats:
            self._enter(f"{self.tool}.mass", self.smithy.weighed_g(), "scales", hot=False)
        self.session.done()

    def _size(self, zone: str, name: str, *, hot: bool) -> Answer | None:
        said = self.smithy.read(zone, name, hot=hot)
        other = zone
        if self.chance.random() < self.world.wrong_zone:
            names = list(self.smithy.zones)
            other = names[(names.index(zone) + 1) % len(names)]
        gauge = "rule" if name == "length" else "calliper"
        return self._enter(f"{other}.{name}", said, gauge, hot=hot)

    def _enter(self, name: str, said: float, gauge: str, *, hot: bool) -> Answer | None:
        to = 1.0 if gauge == "scales" else self.world.rounds_mm
        try:
            return self.session.read(
                name, f"{round(said / to) * to:.2f}", gauge=gauge, hot=HOT_C if hot else None
            )
        except EntryFault:
            return (
                None  # the size is none of this zone's, or the coach will not have it: the smith lets it be
            )

    def _tell(self, reading: object) -> None:
        """Read, and once more what is questioned."""
        assert callable(reading)
        answer = reading()
        if answer is not None and self.session.standing().questioned:
            reading()

    def moment(self, tool: Tool, number: int, steps_done: int) -> Moment:
        standing = self.session.standing()
        scale = next(one.now for one in standing.learned if one.what is OfShop.SCALE)
        return Moment(
            tool.name,
            number,
            steps_done,
            standing.verdict,
            standing.chance,
            self.smithy.nothing_prevents_it(max(steps_done, 0)),
            standing.chance if standing.will_pass is None else standing.will_pass.chance,
            False,
            (scale.value, scale.doubt or 0.0),
            self.smithy.scale,
            steps_done == len(tool.steps),
        )


def forged(
    tool: Tool, number: int, world: World, seed: int, at: Shop | None = None, made: ForgedWith | None = None
) -> list[Moment]:
    """One tool, from its bar to its end; in a shop of its own, or in one that has forged others."""
    ease = EASES[number % len(EASES)]
    tool = tool.cut_first if world.weighs else tool
    bench = Bench(tool, world, ease, (seed, number), at or shop(), made)
    first = [bench.moment(tool, number, -1)] if at is not None else []
    bench.mark_out()
    moments = [*first, bench.moment(tool, number, 0)]
    for steps_done, step in enumerate(tool.steps, start=1):
        bench.work(step)
        moments.append(bench.moment(tool, number, steps_done))
    passed = bench.smithy.passed()
    return [moment._replace(passed=passed) for moment in moments]


def studied(tools: Sequence[Tool], each: int, world: World, seed: int) -> list[Moment]:
    """So many of each tool."""
    return [
        moment for tool in tools for number in range(each) for moment in forged(tool, number, world, seed)
    ]
