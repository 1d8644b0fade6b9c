"""A fire in a step that needs none, after a temper: it is said, and what it explains is not called false."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.telling.words import write
from tests.bench.jobs import shop as a_shop
from tests.ledger.test_temper_that_is_a_glow import CHISEL


@pytest.fixture
def shop() -> Iterator[Shop]:
    with a_shop() as opened:
        yield opened


def tempered(shop: Shop) -> Session:
    session = shop.begin(CHISEL + "  - sharpen: edge, edge angle 60\n", "chisel.yaml")
    while session.standing().step is not None and session.standing().step.number < 6:  # type: ignore[union-attr]
        session.done()
    return session


def test_a_heat_where_none_is_needed_is_told_to_draw_what_is_tempered(shop: Shop) -> None:
    session = tempered(shop)
    answer = session.heat()
    assert answer.bad_news
    assert "Step 5 tempered the edge, and a fire draws it further" in write(answer.beware)


def test_a_planned_heat_before_the_quench_is_told_nothing_of_it(shop: Shop) -> None:
    session = shop.begin(CHISEL, "chisel.yaml")
    session.done()
    assert not session.heat().beware
