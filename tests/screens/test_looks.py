"""Every look can be read on every screen, says the same words, and is remembered."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.widget import Widget

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens.app import CoachApp
from coach.screens.choices import LOOKS, Choices, keep_choices, kept_choices
from tests.screens.stage import COMMON, answer_on, on_stage, recipes, screen_text
from tests.screens.test_golden_screens import PLACES, under_way

#: Least contrast of text, WCAG 2.2, success criterion 1.4.3 (4.5 to 1) and 1.4.6 (7 to 1) (from memory); the
#: dim look is for eyes used to the dark, and keeps to that of large text, 3 to 1.
LEAST = {"forge": 4.5, "daylight": 4.5, "ember": 3.0, "contrast": 7.0}


def luminance(colour: tuple[int, int, int]) -> float:
    """Relative luminance, WCAG 2.2 (from memory)."""
    linear = [
        value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
        for value in (channel / 255 for channel in colour)
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: tuple[int, int, int], other: tuple[int, int, int]) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def faint(app: CoachApp, least: float) -> list[str]:
    """The pieces of text that stand out too little; what a pop-up dims behind itself may be faint."""
    found = []
    screen = app.screen
    front = [one.region for one in screen.query(Widget)] if screen.is_modal else [screen.region]
    for y, strip in enumerate(screen._compositor.render_strips()):
        right = 0
        for segment in strip:
            left, right = right, right + segment.cell_length
            if not any(region.contains(left, y) and region.contains(right - 1, y) for region in front):
                continue
            style = segment.style
            words = segment.text.strip(" ─━│┃▔▁▂▃▄▅▆▇█▎▊▌▐▕╸╺")
            if not words or style is None or style.color is None or style.bgcolor is None:
                continue
            if style.color.triplet is None or style.bgcolor.triplet is None:
                continue
            ratio = contrast(style.color.triplet, style.bgcolor.triplet)
            if ratio < least:
                found.append(f"{words!r} {ratio:.1f}")
    return found


@pytest.mark.parametrize("place", PLACES)
async def test_every_word_can_be_read_in_every_look(
    shop: Shop, job: Session, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, place: str
) -> None:
    under_way(job)
    recipes(tmp_path, crooked="title: x\n", peg="title: y\n")
    monkeypatch.chdir(tmp_path)
    async with on_stage(shop, job, size=(120, 40), folders=(Path("recipes"),)) as (app, pilot):
        await pilot.press(*PLACES[place])
        await pilot.pause()
        usual = screen_text(app)
        for look, (theme, _) in LOOKS.items():
            app.take_look(theme)
            await pilot.pause()
            assert faint(app, LEAST[look]) == [], look
            assert screen_text(app) == usual, f"sense does not hang on the look, {look}"


async def test_one_key_goes_through_the_looks_and_says_what_each_is_for(shop: Shop, job: Session) -> None:
    async with on_stage(shop, job) as (app, pilot):
        seen = []
        for _ in LOOKS:
            await pilot.press("f11")
            seen.append(answer_on(app))
        assert len(set(seen)) == len(LOOKS)
        assert any("sunlit doorway" in told for told in seen)
        assert app.theme == next(iter(LOOKS))


async def test_the_key_of_the_looks_works_where_no_line_tells_what_each_is_for(
    shop: Shop, job: Session
) -> None:
    async with on_stage(shop, job) as (app, pilot):
        await pilot.press("f1", "f11")
        assert app.theme == list(LOOKS)[1]


async def test_the_look_is_there_again_next_time(shop: Shop, job: Session, tmp_path: Path) -> None:
    file = tmp_path / "config" / "screens.json"
    app = CoachApp(shop, session=job, choices_file=file)
    async with app.run_test() as pilot:
        await pilot.press("f11")
        await pilot.pause()
    assert kept_choices(file).look == "daylight"
    again = CoachApp(shop, session=job, choices_file=file)
    async with again.run_test():
        assert again.theme == "daylight"


async def test_the_gauge_is_there_again_on_another_bench_and_next_time(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    file = tmp_path / "screens.json"
    app = CoachApp(shop, session=job, straight=True, choices_file=file)
    async with app.run_test(size=COMMON) as pilot:
        await pilot.press("slash")
        await pilot.press("escape", "enter", "enter")  # to the shop, and back to the job
        await pilot.pause()
        assert "by rule" in screen_text(app)
    app = CoachApp(shop, session=job, straight=True, choices_file=file)
    async with app.run_test(size=COMMON) as pilot:
        await pilot.pause()
        assert "by rule" in screen_text(app)


@pytest.mark.parametrize(
    "kept", ["", "{", "[]", '{"look": "neon"}', '{"look": 3}', '{"gauge": "elbow"}', '{"gauge": []}']
)
def test_a_spoilt_file_only_forgets_what_was_chosen(tmp_path: Path, kept: str) -> None:
    file = tmp_path / "screens.json"
    file.write_text(kept, encoding="utf-8")
    assert kept_choices(file) == Choices("forge", None)
    keep_choices(file, Choices("ember", "rule"))
    assert kept_choices(file) == Choices("ember", "rule")
    below = tmp_path / "screens.json" / "below"
    keep_choices(below, Choices())  # cannot be written, and is no trouble
