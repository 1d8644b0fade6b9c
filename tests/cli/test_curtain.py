"""What a job last opened with is painted at once, and only where it would open with the same again."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from coach.cli import curtain as curtain_module
from coach.cli.commands.demo import FRAME_FILE
from coach.cli.curtain import Curtain
from coach.log.newest import Newest, newest_of
from coach.places import choices_file, shop_file
from tests.cli.conftest import Coach

SIZE = (80, 24)
JOB = Newest("hook", 7, "a digest")


@pytest.fixture
def painted(coach: Coach, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What is written to a terminal of the usual size."""
    told: list[str] = []
    monkeypatch.setattr(curtain_module, "_paint", told.append)
    monkeypatch.setattr(curtain_module, "_terminal", lambda: 2)
    monkeypatch.setattr(curtain_module, "_keyboard", lambda: os.open(os.devnull, os.O_RDONLY))
    monkeypatch.setattr(os, "get_terminal_size", lambda _: os.terminal_size(SIZE))
    return told


def hang(
    units: str | None = None, notice: str = "", straight: bool = False, *, newest: Newest | None = JOB
) -> None:
    with Curtain(newest, units, notice, straight) as curtain:
        curtain.hand_over()


def test_what_was_kept_is_painted_at_once(painted: list[str]) -> None:
    Curtain(None, None, "", False).keep(JOB, "the bench", SIZE)
    hang(None, "", False)
    [frame] = painted
    assert frame.endswith("the bench")


@pytest.mark.parametrize(
    ("newest", "how"),
    [
        (JOB._replace(number=8), (None, "", False)),
        (JOB._replace(digest="another"), (None, "", False)),
        (JOB._replace(job="axe"), (None, "", False)),
        (None, (None, "", False)),
        (JOB, ("in", "", False)),
        (JOB, (None, "a notice", False)),
        (JOB, (None, "", True)),
    ],
)
def test_for_anything_else_nothing_is_painted(
    painted: list[str], newest: Newest | None, how: tuple[str | None, str, bool]
) -> None:
    Curtain(None, None, "", False).keep(JOB, "the bench", SIZE)
    hang(*how, newest=newest)
    assert painted == []


def test_nothing_is_painted_in_another_window_or_look(
    painted: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    Curtain(None, None).keep(JOB, "the bench", (100, 30))
    hang(None)
    Curtain(None, None).keep(JOB, "the bench", SIZE)
    choices_file().parent.mkdir(parents=True)
    choices_file().write_text('{"look": "bright"}', encoding="utf-8")
    hang(None)
    assert painted == []
    choices_file().unlink()
    monkeypatch.setenv("COLORTERM", "another")
    hang(None)
    assert painted == []


@pytest.fixture
def usual_colours(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in [name for name in os.environ if name.startswith(("TEXTUAL", "NO_COLOR", "FORCE_COLOR"))]:
        monkeypatch.delenv(name)
    monkeypatch.setenv("COLORTERM", "truecolor")


@pytest.mark.usefixtures("coach", "usual_colours")
def test_the_demonstration_opens_at_once_the_first_time_in_a_usual_window(
    painted: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def hang_ready_made() -> list[str]:
        painted.clear()
        with Curtain(JOB, None, ready_made=FRAME_FILE) as curtain:
            curtain.hand_over()
        return painted

    [frame] = hang_ready_made()
    assert frame.endswith(FRAME_FILE.read_text(encoding="utf-8"))
    for name, value in (("COLORTERM", "256"), ("NO_COLOR", "1"), ("TEXTUAL_THEME", "ansi")):
        with monkeypatch.context() as otherwise:
            otherwise.setenv(name, value)
            assert hang_ready_made() == []
    monkeypatch.setattr(os, "get_terminal_size", lambda _: os.terminal_size((100, 30)))
    assert hang_ready_made() == []


def test_what_was_drawn_beforehand_is_not_shown_of_a_demonstration_gone_on_with(
    coach: Coach, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from coach.cli.commands import demo
    from coach.cli.reply import Reply

    given: list[object] = []

    def show(*_: object, ready_made: object, **__: object) -> Reply[None]:
        given.append(ready_made)
        return Reply((), None, 0)

    monkeypatch.setattr(demo, "need_a_terminal", lambda *_: None)
    monkeypatch.setattr(demo, "show_job", show)
    kept = tmp_path / "kept"
    words = ("demo", "--where", str(kept))
    coach(*words)
    coach(*words, "--no-screen")
    coach(*words)
    coach(*words, "--units", "in")
    coach("heat", "carpenters-adze", "--shop", str(kept / "demo.sqlite"))
    coach(*words)
    assert given == [FRAME_FILE, FRAME_FILE, None, None]


def test_where_the_job_cannot_be_opened_the_terminal_is_as_it_was(painted: list[str]) -> None:
    Curtain(None, None).keep(JOB, "the bench", SIZE)
    with pytest.raises(ZeroDivisionError), Curtain(JOB, None):
        raise ZeroDivisionError
    assert painted[1:] == ["\x1b[?25h\x1b[?1049l"]


def test_a_job_that_is_not_there_is_refused_before_a_screen_opens(
    coach: Coach, painted: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    coach.job()
    monkeypatch.setattr("coach.cli.commands.open.need_a_terminal", lambda *_: None)
    said = coach("open", "nothing")
    assert (said.code, painted) == (2, [])
    assert "nothing" in said.err


#: The command with the terminal made up; it ends with the first thing painted, and tells what is loaded.
UP_TO_THE_FIRST_FRAME = """
import json, os, sys
from coach.cli import curtain, main, screen
def tell(_):
    print(json.dumps(sorted(sys.modules)), flush=True)
    os._exit(0)
curtain._paint = tell
screen.need_a_terminal = lambda *_: None
os.get_terminal_size = lambda *_: os.terminal_size((80, 24))
main(sys.argv[1:])
"""
NOT_YET = (
    "pydantic",
    "yaml",
    "pint",
    "textual",
    "coach.ledger",
    "coach.fire",
    "coach.metals.grade",
    "coach.screens",
)


@pytest.mark.parametrize("demo", [False, True], ids=["summary", "demonstration"])
def test_the_first_frame_waits_for_no_ledger_and_no_screen(coach: Coach, demo: bool) -> None:
    if demo:
        from coach.cli.commands import demo as command

        newest, how = command._forged(), (None, command.NOTICE, True)
        line = ["demo"]
    else:
        line = ["open", coach.job()]
        found = newest_of(coach.home / "data" / "shop.sqlite", line[1])
        assert found is not None
        newest, how = found, (None, "", False)
    Curtain(None, *how).keep(newest, "the frame", SIZE)
    done = subprocess.run(
        [sys.executable, "-c", UP_TO_THE_FIRST_FRAME, *line], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    loaded = json.loads(done.stdout)
    assert [name for name in loaded if name.startswith(NOT_YET)] == []
    assert sum(name.partition(".")[0] == "coach" for name in loaded) <= 60


def test_after_a_command_has_entered_something_where_the_job_stands_is_painted_at_once(
    coach: Coach, painted: list[str]
) -> None:
    job = coach.job()
    coach("heat", job)
    newest = newest_of(shop_file(), job)
    assert newest is not None
    hang(newest=newest)
    [plain] = painted
    assert "Heats 1 in this step" in " ".join(plain.split())
    painted.clear()
    Curtain(None).keep(newest, "the summary", SIZE)  # as it looks once the screens have drawn it
    hang(newest=newest)
    [frame] = painted
    assert frame.endswith("the summary")
