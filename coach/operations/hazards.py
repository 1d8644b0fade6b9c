"""What can hurt: one table of hazards with their sources, said at a step, or once as a job begins."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import Final, NamedTuple

from coach.operations.base import Operation
from coach.operations.does import Does, HeatKind
from coach.operations.shop_tests import SHOP_TESTS

_BLOWS: Final = (HeatKind.FORGING, HeatKind.WELDING)


class Moment(StrEnum):
    """When that is said which holds all day."""

    BEGIN = "begin"
    FIRST_FIRE = "first fire"


class Hazard(NamedTuple):
    """One row of `hazards.toml`, which says what its keys mean."""

    says: str
    source: str
    heats: frozenset[HeatKind] = frozenset()
    does: frozenset[Does] = frozenset()
    tests: frozenset[str] = frozenset()
    words: frozenset[str] = frozenset()
    metals: frozenset[str] = frozenset()
    first_blow: bool = False
    tempered: bool = False
    when: Moment | None = None


@cache
def hazards() -> dict[str, Hazard]:
    """Every hazard by its name, in the order in which a step says them."""
    import tomllib

    rows = tomllib.loads(Path(__file__).with_suffix(".toml").read_text(encoding="utf-8"))
    return {
        name: Hazard(
            row["says"],
            row["source"],
            frozenset(map(HeatKind, row.get("heats", ()))),
            frozenset(Does[one.upper()] for one in row.get("does", ())),
            frozenset(one.replace(" ", "_") for one in row.get("tests", ())),
            frozenset(row.get("words", ())),
            frozenset(row.get("metals", ())),
            row.get("first_blow", False),
            row.get("tempered", False),
            Moment(row["when"]) if "when" in row else None,
        )
        for name, row in rows.items()
    }


def of_untempered_steel() -> str:
    """What is said of steel that is quenched and not tempered, wherever it is handled."""
    return hazards()["hard-steel"].says


def of_tempered_steel() -> str:
    """What is said of hard steel that is tempered, where it is bent or straightened cold."""
    return hazards()["tempered-steel"].says


def of_black_metal() -> str:
    """What is said of metal that is hot and does not glow."""
    return hazards()["black"].says


@cache
def of_tests_alone() -> dict[str, frozenset[str]]:
    """What is said for the sake of tests of the shop and of nothing else, with their names."""
    rows = hazards().values()
    found = {one.says: one.tests for one in rows if one.tests and not (one.heats or one.does)}
    return found | {test.caution: frozenset({name}) for name, test in SHOP_TESTS.items() if test.caution}


def of_coupons() -> str:
    """What is said where a welded coupon is broken."""
    return hazards()["coupon"].says


def is_hot_blow(heat: HeatKind, heats: int) -> bool:
    """Whether hot metal is struck in a step of so many heats."""
    return heat in _BLOWS and heats > 0


def holds_all_day(moment: Moment, heats: Collection[HeatKind]) -> tuple[str, ...]:
    """What is said once at a moment, of a recipe that takes heats of these kinds."""
    return tuple(
        one.says
        for one in hazards().values()
        if one.when is moment and (not one.heats or one.heats.intersection(heats))
    )


def cautions_of(
    todo: Operation,
    heat: HeatKind,
    heats: int,
    tests: Collection[str],
    *,
    first_blow: bool,
    metals: Collection[str] = (),
    amounts: Collection[str] = (),
    how: str = "",
) -> Iterator[str]:
    """What a step can hurt by: what its operation says of itself, the rows of the table, then its tests' own.

    `tests` are the names of the tests of the shop that it asks for, `metals` those of what it works,
    `amounts` those that it states, and `how` what it tells to do.
    """
    named_rows = todo.hazards(amounts, hot=heats > 0)
    named = {word for metal in metals for word in metal.casefold().split()}
    spoken = set(re.findall(r"[a-z]+(?:-[a-z]+)*", how.casefold()))
    if todo.CAUTION:
        yield todo.CAUTION
    for name, hazard in hazards().items():
        if hazard.when is not None or (hazard.metals and not hazard.metals & named):
            continue
        by_heat = not hazard.heats or (heats > 0 and heat in hazard.heats)
        by_work = not hazard.does or bool(hazard.does & todo.DOES)
        of_work = bool(hazard.heats or hazard.does) and not (hazard.does and hazard.words)
        if (
            name in named_rows
            or (of_work and by_heat and by_work)
            or hazard.tests.intersection(tests)
            or (hazard.first_blow and first_blow)
            or (hazard.words & spoken and by_work)
        ):
            yield hazard.says
    for test in tests:
        if SHOP_TESTS[test].caution:
            yield SHOP_TESTS[test].caution
