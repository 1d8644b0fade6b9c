"""The app as a whole: how it ends, and that it loads no more than it shows."""

from __future__ import annotations

import subprocess
import sys

import pytest

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens.app import CoachApp, run
from tests.screens.stage import PEG, a_shop, at_the_bench


def test_a_fault_of_the_program_is_handed_on_and_paints_no_traceback(
    shop: Shop, job: Session, capfd: pytest.CaptureFixture[str]
) -> None:
    app = CoachApp(shop, session=job)

    def broken() -> None:
        raise ZeroDivisionError("an invented fault")

    app.call_later(broken)
    app.run(headless=True)
    assert isinstance(app.fault, ZeroDivisionError)
    assert app.return_code == 1
    assert "Traceback" not in "".join(capfd.readouterr())
    assert job.standing().last_entry == 1


def test_a_job_that_is_not_there_is_refused_before_a_screen_opens(shop: Shop) -> None:
    from coach.bench.session import EntryFault

    with pytest.raises(EntryFault, match="no job"):
        run(shop, job="nothing")


async def test_the_box_has_the_focus_whatever_is_pressed(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        for press in ("tab", "f2", "f7", "down", "f6", "escape", "f1", "escape"):
            await pilot.press(press)
        assert bench.focused is not None
        assert bench.focused.id == "typed"


OPEN_THE_BENCH = """
import asyncio, sys
from pathlib import Path
from tests.screens.stage import a_shop
from coach.screens.app import CoachApp
from coach.screens.bench import BenchScreen

async def main():
    with a_shop(Path(sys.argv[1])) as shop:
        app = CoachApp(shop, session=shop.open("tent-peg"))
        async with app.run_test() as pilot:
            await pilot.pause()
            assert isinstance(app.screen, BenchScreen)

asyncio.run(main())
print(*sorted({name.partition(".")[0] for name in sys.modules} & {"pint", "pydantic", "yaml"}))
"""


def test_opening_a_job_reads_no_recipe_file(tmp_path_factory: pytest.TempPathFactory) -> None:
    folder = tmp_path_factory.mktemp("lean")
    with a_shop(folder) as shop:
        shop.begin(PEG, "peg.yaml")
    done = subprocess.run(
        [sys.executable, "-c", OPEN_THE_BENCH, str(folder)], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == ""


@pytest.mark.parametrize(("straight", "screen"), [(True, "BenchScreen"), (False, "ResumeScreen")])
async def test_a_job_under_way_opens_at_its_summary_unless_its_bench_is_asked_for(
    shop: Shop, job: Session, straight: bool, screen: str
) -> None:
    job.heat()
    app = CoachApp(shop, session=job, straight=straight)
    async with app.run_test():
        assert type(app.screen).__name__ == screen
