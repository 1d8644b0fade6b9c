"""A whole job at the bench by digits, Enter and a few far keys, as a smith with gloves types it."""

from __future__ import annotations

from collections.abc import Iterator

from textual.pilot import Pilot

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.places import bundled_recipes
from coach.quantities import Kind
from coach.screens.bench import BenchScreen
from coach.screens.resume import ResumeScreen
from coach.screens.sheet import SheetScreen
from tests.screens.stage import answer_on, at_the_bench, showing

#: All that is pressed in the whole day.
KEYS = {"f2", "f3", "f4", "enter", "full_stop", *"0123456789"}


def typed(check: Check) -> str:
    """What a smith would read: what is wanted, or what is expected where nothing is."""
    if check.kind is Kind.TEST:
        return "1"
    size = check.wanted.limits.nominal if check.wanted is not None else None
    if size is None and check.expected is not None:
        size = check.expected.value
    assert size is not None
    if check.kind is Kind.TIME:
        return f"{size / 60.0:.1f}"
    if check.expected is not None and check.wanted is not None and check.dimension == "length":
        size = check.expected.value  # a length is what the metal makes it
    return f"{size:.1f}"


def keys_of(text: str) -> Iterator[str]:
    for letter in text:
        yield "full_stop" if letter == "." else letter


async def press(pilot: Pilot[None], *keys: str) -> None:
    assert set(keys) <= KEYS
    await pilot.press(*keys)
    await pilot.pause()


async def test_a_whole_job_is_done_with_digits_and_enter(shop: Shop) -> None:
    file = bundled_recipes() / "first-hook.yaml"
    session = shop.begin(file.read_text(encoding="utf-8"), file.name)
    async with at_the_bench(shop, session) as (bench, pilot):
        for _ in range(len(session.recipe.steps)):
            await _one_step(pilot, session)
            if showing(bench.app) is ResumeScreen:  # what its first fire asks for was said
                await press(pilot, "enter")
        assert session.standing().state == "finished"
        assert session.standing().verdict == "on plan"
        assert showing(bench.app) is SheetScreen
        await pilot.press("escape")  # the day's work is done by then
        await pilot.pause()
        assert "That was the last step." in answer_on(bench.coach)
        assert showing(bench.app) is BenchScreen
    assert not any(entry.struck for entry in session.history())


async def _one_step(pilot: Pilot[None], session: Session) -> None:
    step = session.standing().step
    assert step is not None
    for heat in range(step.heats_planned):
        await press(pilot, "f2")
        if heat + 1 < step.heats_planned:
            await press(pilot, "f3")
    for _ in session.standing().checks:
        check = next((one for one in session.standing().checks if one.reading is None), None)
        if check is None:
            break
        await press(pilot, *keys_of(typed(check)), "enter")
    before = step.number
    await press(pilot, "f4")
    now = session.standing().step
    if now is not None and now.number == before:  # it asked whether it is done
        await press(pilot, "f4")
    now = session.standing().step
    assert now is None or now.number == before + 1
