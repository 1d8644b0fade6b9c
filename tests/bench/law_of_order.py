"""The law of order: what was read in one go tells one tale, in whatever order it was typed.

`python -m tests.bench.law_of_order N` reads some sizes of every step of every recipe of the shelf, or of
those named, N times, types the same readings in other orders and tells each difference: of every value of
what `where --json` tells, and of the ways back. Some minutes for each N. With `--mixed` they are read by
rule and by calliper, some by both.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Collection, Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from random import Random
from typing import NamedTuple

from coach.bench.ways_back import offers_of
from coach.log.kinds.heat import Heat
from coach.log.kinds.reading import Reading
from coach.operations.measures import MARK
from coach.quantities import Limits
from coach.telling.values import json_values
from tests.bench.law_of_done import NAMES, Job, Size, before, steps_of

#: How far off their aim sizes are read, in halves of what is allowed: on it, near a limit, beyond it.
PLACES = (0.0, 0.0, 0.5, -0.5, 0.95, -0.95, 1.05, -1.05, 1.5, -1.5)
#: And by so much of the size itself, to be questioned.
FAR = (0.6, 0.8, 1.25, 1.6)
#: What two readings of one size differ by that agree, mm.
AGREE_MM = (0.0, 0.02, -0.02)
#: How far a rule is off beside a calliper on the same face, mm: within its doubt. Where they do not agree
#: the later corrects the one before, or tells of a few blows between: that order is no matter of this.
BY_RULE_MM = (0.0, 0.0, 0.25, -0.25)
#: Of a size that was read by two gauges the row shows the later reading, each as it was typed.
_OF_THE_LATER = re.compile(r"\.checks\[[^]]*\]\.reading\.")
#: Figures may be so far apart, absolutely or as a share: of two readings that agree the later is shown, and
#: the update of what is not linear stops at a tenth of the gauge's doubt (our choice).
NEAR, NEAR_SHARE = 0.05, 0.01
#: Keys that tell when and as the how manieth something was typed.
_OF_TYPING = frozenset({"entry", "last_entry", "last_at", "at"})
_NUMBER = re.compile(r"\d+(?:\.\d+)?")


class Typed(NamedTuple):
    """One reading as it is typed."""

    zone: str
    dimension: str
    size: str
    hot_c: float | None = None
    insisted: bool = False
    gauge: str = "calliper"

    def __str__(self) -> str:
        """As a smith would say it."""
        hot = "" if self.hot_c is None else f" at {self.hot_c:g} °C"
        by = "" if self.gauge == "calliper" else f" by {self.gauge}"
        return f"{self.zone}.{self.dimension} {self.size}{hot}{' stood by' if self.insisted else ''}{by}"


def typed_in(job: Job, readings: Sequence[Typed]) -> Job:
    """The job with these readings, in this order."""
    step = job.step.number
    for one in readings:
        body = Reading(
            zone=one.zone,
            dimension=one.dimension,
            typed=one.size,
            size=float(one.size),
            gauge=one.gauge,
            hot_c=one.hot_c,
            hot_doubt_c=0.0 if one.hot_c is None else 15.0,
            insisted=one.insisted,
            step=step,
            taken_at="",
        )
        job = job.with_entry(body)
    return job


def _place(limits: Limits, chance: Random, *, near: bool) -> float:
    """Where a size is read, mm."""
    aim = limits.nominal
    if not near and chance.random() < 0.25:
        return aim * chance.choice(FAR)
    place = chance.choice(PLACES)
    half = min(max(limits.high - aim, 0.0) if place > 0.0 else aim - limits.low, 0.05 * aim)
    return aim + place * half


def round_of(asked: Mapping[Size, Limits], chance: Random, *, hot_c: float | None) -> list[Typed]:
    """What is read in one go: two to five readings, one of the sizes twice now and then."""
    near = chance.random() < 0.4
    some = chance.sample(sorted(asked), min(len(asked), chance.randint(2, 4)))
    found = []
    for size in some:
        at_mm = _place(asked[size], chance, near=near)
        hot = hot_c if chance.random() < 0.15 else None
        insisted = chance.random() < 0.15
        found.append(Typed(*size, f"{max(at_mm, 0.1):.2f}", hot, insisted))
        if chance.random() < 0.15:
            twice_mm = at_mm + chance.choice(AGREE_MM)
            found.append(Typed(*size, f"{max(twice_mm, 0.1):.2f}", hot, insisted))
    return found


def mixed_round_of(asked: Mapping[Size, Limits], chance: Random) -> list[Typed]:
    """What is read in one go by rule and by calliper, some sizes by both: the rule to its half millimetre."""
    some = chance.sample(sorted(asked), min(len(asked), chance.randint(1, 3)))
    found = []
    for size in some:
        at_mm = max(_place(asked[size], chance, near=chance.random() < 0.7), 1.0)
        insisted = chance.random() < 0.15
        gauges = chance.choice([("rule",), ("calliper",), ("rule", "calliper"), ("rule", "calliper")])
        gauges = gauges[:1] if size[1] == MARK else gauges  # a mark is where it was made last
        for gauge in gauges:
            off_mm = chance.choice(BY_RULE_MM) if gauge == "rule" and len(gauges) > 1 else 0.0
            read_mm = at_mm + off_mm
            typed = f"{round(2.0 * read_mm) / 2.0:.1f}" if gauge == "rule" else f"{read_mm:.2f}"
            found.append(Typed(*size, typed, None, insisted, gauge))
    return found


def told(job: Job) -> dict[str, object]:
    """Everything that is told of a job, each value by its place; rows by the name of what they tell."""
    standing = job.standing()
    ways = [one.way for one in offers_of(job.state, standing, job.entries, None)]
    return {**_flat("", json_values(standing)), **_flat("ways", json_values(ways))}


def _flat(place: str, value: object) -> dict[str, object]:
    found: dict[str, object] = {}
    if isinstance(value, dict):
        for key, one in value.items():
            if key not in _OF_TYPING:
                found |= _flat(f"{place}.{key}", one)
    elif isinstance(value, list):
        for at, one in enumerate(value):
            name: object = at
            if isinstance(one, dict):
                name = one.get("name") or f"{one.get('zone')}.{one.get('dimension')}"
            found |= _flat(f"{place}[{name}]", one)
        if place == "ways":
            found["the ways"] = " ".join(str(one["name"]) for one in value)
    else:
        found[place] = value
    return found


def is_alike(one: object, other: object) -> bool:
    """Whether two values tell the same, figures as near as they are reckoned."""
    if isinstance(one, bool) or isinstance(other, bool):
        return one is other
    if isinstance(one, float | int) and isinstance(other, float | int):
        return abs(one - other) <= max(NEAR, NEAR_SHARE * max(abs(one), abs(other)))
    if isinstance(one, str) and isinstance(other, str):
        if _NUMBER.split(one) != _NUMBER.split(other):
            return False
        pairs = zip(_NUMBER.findall(one), _NUMBER.findall(other), strict=True)
        return all(abs(float(a) - float(b)) <= max(1.0, 0.02 * float(a)) for a, b in pairs)
    return one == other


def apart(one: Mapping[str, object], other: Mapping[str, object]) -> Iterator[str]:
    """What two tales differ in."""
    for place in sorted(one.keys() | other.keys()):
        if place.endswith(".judged.below") and float(str(one.get(f"{place[:-5]}to_go.value", 1.0))) < NEAR:
            continue  # on its aim it is on neither side
        if place.endswith(".wanted.text"):
            continue  # rounded, of the limits beside it
        mine, its = one.get(place, "nothing"), other.get(place, "nothing")
        if not is_alike(mine, its):
            yield f"{place}: {mine} / {its}"


class Break(NamedTuple):
    """Two orders of the same readings that tell two tales."""

    recipe: str
    step: int
    heats: int
    one: Sequence[Typed]
    other: Sequence[Typed]
    differences: Sequence[str]

    def __str__(self) -> str:
        """On some lines."""
        head = f"{self.recipe} {self.step}, {self.heats} heats: {'; '.join(map(str, self.one))}"
        turned = f"  or {'; '.join(map(str, self.other))}"
        return "\n".join([head, turned, *(f"    {one}" for one in self.differences[:12])])


def _is_of_the_later(difference: str, by_two: Collection[str]) -> bool:
    """Whether it is only which of two readings by two gauges the row of a size shows."""
    shown = _OF_THE_LATER.match(difference)
    return shown is not None and any(f"[{name}]" in shown.group() for name in by_two)


def broken(name: str, number: int, chance: Random, *, mixed: bool = False, orders: int = 2) -> Break | None:
    """One round of readings of a step, and the first of some other orders that tells another tale.

    `mixed`: by rule and by calliper.
    """
    job = before(name, number, measured=chance.random() < 0.5)
    heats = chance.choice([0, job.step.heats, job.step.heats, chance.randint(0, job.step.heats)])
    for _ in range(heats):
        job = job.with_entry(Heat(step=number))
    asked = job.asked()
    if len(asked) < 2:
        return None
    heat_c = 900.0 if job.step.heats else None
    readings = mixed_round_of(asked, chance) if mixed else round_of(asked, chance, hot_c=heat_c)
    tale = told(typed_in(job, readings))
    by_two = {f"{one.zone}.{one.dimension}" for one in readings if mixed}
    by_two = {name for name in by_two if sum(f"{r.zone}.{r.dimension}" == name for r in readings) > 1}
    for _ in range(orders):
        order = chance.sample(readings, len(readings))
        if order == readings:
            continue
        differences = list(apart(tale, told(typed_in(job, order))))
        differences = [one for one in differences if not _is_of_the_later(one, by_two)]
        if differences:
            return Break(name, number, heats, readings, order, differences)
    return None


def breaks(name: str, each: int, seed: int, mixed: bool) -> list[Break]:
    """All that one recipe breaks."""
    found = []
    for number in range(1, steps_of(name) + 1):
        for at in range(each):
            one = broken(name, number, Random(f"{name} {number} {at} {seed}"), mixed=mixed)
            found += [one] if one is not None else []
    return found


def main(given: Sequence[str]) -> None:
    words, seed = list(given), 1
    if "--seed" in words:
        at = words.index("--seed")
        seed = int(words[at + 1])
        del words[at : at + 2]
    if mixed := "--mixed" in words:
        words.remove("--mixed")
    each = int(words.pop(0)) if words and words[0].isdigit() else 2
    count = 0
    with ProcessPoolExecutor(1) as pool:
        for some in pool.map(partial(breaks, each=each, seed=seed, mixed=mixed), words or NAMES):
            count += len(some)
            print(*some, sep="\n", flush=True) if some else None
    print(f"{count} broken")


if __name__ == "__main__":
    main(sys.argv[1:])
