"""What the smith has set, at the bench: an alarm of one's own, keys of one's own, the look to begin with."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from threading import Thread

import pytest
from textual._xterm_parser import XTermParser

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens import alarm
from coach.screens.alarm import run_alarm, sound
from coach.screens.choices import kept_choices
from coach.settings import use
from tests.screens.stage import answer_on, at_the_bench, settled


def settings(folder: Path, text: str) -> None:
    file = folder / "settings.toml"
    file.write_text(text, encoding="utf-8")
    assert use(file).faults == ()


def writes(folder: Path) -> tuple[list[str], Path]:
    """A command that writes the words it was given, and the file that it writes them to."""
    out = folder / "alarm.json"
    code = f"import json, sys; open({str(out)!r}, 'w').write(json.dumps(sys.argv[1:]))"
    return [sys.executable, "-c", code, "$(rm x); `id`", "two  blanks"], out


def test_an_alarm_gets_its_words_as_they_are_and_no_shell(tmp_path: Path) -> None:
    command, out = writes(tmp_path)
    told: list[str] = []
    run_alarm("back", tuple(command), told.append)
    assert told == []
    assert json.loads(out.read_text(encoding="utf-8")) == ["$(rm x); `id`", "two  blanks"]


@pytest.mark.parametrize(
    ("command", "said"),
    [
        (("/no/such/horn",), "cannot be run"),
        ((sys.executable, "-c", "raise SystemExit(3)"), "ended badly, with code 3"),
    ],
)
def test_an_alarm_that_fails_is_one_sentence(command: tuple[str, ...], said: str) -> None:
    told: list[str] = []
    run_alarm("back", command, told.append)
    assert len(told) == 1
    assert said in told[0]


async def test_it_sounds_once_as_the_heat_is_over_and_its_failure_leaves_the_bench_as_it_is(
    shop: Shop, job: Session, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    settings(tmp_path, '[alarm]\nback = ["/no/such/horn"]\n')
    moments = ["2026-03-02T09:04:02Z"]
    threads: list[tuple[str, object]] = []

    def sounded(which: str, screen: object) -> object:
        threads.append((which, sound(which, screen)))  # type: ignore[arg-type]
        return threads[-1][1]

    monkeypatch.setattr("coach.screens.bench_drawn.sound", sounded)
    async with at_the_bench(shop, job, now=lambda: moments[0]) as (screen, pilot):
        await pilot.press("f2")
        await pilot.pause()
        clock = job.standing().clock
        assert clock is not None
        moments[0] = clock.since.replace(":00.000Z", ":58Z")
        screen.tick()
        screen.tick()
        assert [which for which, _ in threads] == ["back"]
        thread = threads[0][1]
        assert isinstance(thread, Thread)
        while thread.is_alive():
            await pilot.pause()
        await settled(screen.app, pilot)
        assert "alarm /no/such/horn cannot be run" in answer_on(screen.coach)
        await pilot.press("8", ".", "1", "enter")
        await settled(screen.app, pilot)
        assert job.standing().checks[0].reading is not None


async def test_without_one_nothing_is_run(shop: Shop, job: Session, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(alarm, "run_alarm", lambda *_: pytest.fail("nothing is set"))
    async with at_the_bench(shop, job) as (screen, _):
        assert sound("back", screen) is None


async def test_a_foot_switch_says_out_and_a_key_of_the_pad_done_where_sizes_are_typed(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    settings(tmp_path, '[keys]\nf13 = "out"\nplus = "in"\n')
    async with at_the_bench(shop, job) as (screen, pilot):
        await pilot.press("f13")
        await settled(screen.app, pilot)
        assert job.standing().heats == 1
        await pilot.press("plus")
        await settled(screen.app, pilot)
        assert [one.kind for one in job.history()][-2:] == ["heat", "fire"]
        await pilot.press("f6", "a", "plus", "b", "enter")
        await settled(screen.app, pilot)
        assert job.standing().notes[-1].text == "a+b"  # in a note it is a letter like any other


# F13 as xterm and its kin send it, as rxvt and the console of Linux do, and by the protocol of newer ones.
@pytest.mark.parametrize("sent", ["\x1b[1;2P", "\x1b[25~", "\x1b[57376u"])
async def test_a_foot_switch_is_known_however_the_terminal_says_its_key(
    shop: Shop, job: Session, tmp_path: Path, sent: str
) -> None:
    settings(tmp_path, '[keys]\nf13 = "out"\n')
    async with at_the_bench(shop, job) as (screen, pilot):
        for event in XTermParser().feed(sent):
            screen.app.post_message(event)
        await settled(screen.app, pilot)
        assert job.standing().heats == 1


def test_the_look_that_is_set_is_the_one_to_begin_with(tmp_path: Path) -> None:
    kept = tmp_path / "screens.json"
    kept.write_text(json.dumps({"look": "ember"}), encoding="utf-8")
    assert kept_choices(kept).look == "ember"
    settings(tmp_path, 'look = "contrast"\n')
    assert kept_choices(kept).look == "contrast"
    assert kept_choices(None).look == "contrast"
