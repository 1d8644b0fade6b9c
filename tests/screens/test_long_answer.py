"""An answer that is longer than its band stands whole where there is room, and says where it is cut."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.bench.shop import Shop
from tests.screens.stage import answer_on, at_the_bench, words_on

#: As long as what is told of a second quench.
LONG = " ".join(f"word{at}" for at in range(45))


@pytest.mark.parametrize(("size", "whole"), [((80, 24), True), ((120, 40), True), ((40, 12), False)])
async def test_a_long_answer_is_told_whole_or_says_that_it_is_cut(
    shop: Shop, job: Session, size: tuple[int, int], whole: bool
) -> None:
    async with at_the_bench(shop, job, size=size) as (bench, pilot):
        bench.tell(LONG, bad=True)
        await pilot.pause()
        assert (LONG in words_on(bench.coach)) is whole
        assert answer_on(bench.coach).endswith(" …") is not whole
