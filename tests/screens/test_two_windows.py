"""What another window enters is shown whole by the screen in front, and by none that lies below it."""

from __future__ import annotations

from pathlib import Path

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens.bench import BenchScreen
from coach.screens.resume import ResumeScreen
from coach.screens.screen import LiveScreen
from tests.screens.stage import a_shop, answer_on, at_the_bench, screen_text


async def test_table_and_figures_tell_the_same_though_another_screen_lies_below(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    job.heat()
    last = job.standing().last_at
    with a_shop(tmp_path) as elsewhere:  # the same log, in another window
        async with at_the_bench(shop, job, now=lambda: last) as (bench, pilot):
            assert len(pilot.app.screen_stack) > 1, "the summary that the job opened with lies below"
            elsewhere.open(job.job).read("point.side", "9.5")
            for screen in pilot.app.screen_stack:  # as their clocks come round, the lower first
                if isinstance(screen, (LiveScreen, ResumeScreen)):
                    screen.catch_up()
            await pilot.pause()
            assert isinstance(bench, BenchScreen)
            assert "Entered elsewhere: point side 9.5 mm" in answer_on(bench.coach)
            row = next(line for line in screen_text(bench.coach).splitlines() if "1= side" in line)
            assert "9.5" in row
