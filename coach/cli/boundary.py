"""The one place where an answer is printed, and where an error becomes a sentence and an exit code."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING

from coach.cli.codes import GOOD, PIPE_CLOSED, UNTOLD
from coach.cli.masks import for_the_user_alone
from coach.cli.stopping import code_of, stop_if_told, stops_in_order, told_to_stop
from coach.cli.streams import let_go_of, make_ready, say_aside

if TYPE_CHECKING:
    from coach.cli.reply import Reply
    from coach.telling.writing import Shown

#: Told beside whatever is asked, which is done all the same.
_SETTINGS_AT_FAULT = "Something in the settings is wrong and counts as not set: `coach config check` tells."
_NO_STREAM = "standard output is closed"


def carry_out(words: Sequence[str]) -> int:
    """Do what a command line asks, print the answer, and return the exit code."""
    was_collecting = gc.isenabled()
    # Loading the program makes many objects that stay: looking through them for rubbish again and again costs
    # a tenth of the time to the first screen. The screens collect again once they are up.
    gc.disable()
    try:
        with for_the_user_alone(), stops_in_order():
            return _answered(words, is_heard=make_ready())
    except KeyboardInterrupt as stop:
        return code_of(stop)
    except Exception as error:
        if (stopped := told_to_stop(error)) is None:
            raise
        return code_of(stopped)
    finally:
        if was_collecting:
            gc.enable()


def _answered(words: Sequence[str], *, is_heard: bool) -> int:
    as_json = False
    try:
        if (told := _of_itself(words)) is not None:
            return _written(told, None, is_heard=is_heard)
        from coach.cli.line import understood, wants_json
        from coach.metals import look_in
        from coach.places import grade_folder

        as_json = wants_json(words)
        look_in(grade_folder())  # before what was typed is read: it may name a grade of the smith's own
        _take_settings()
        run, asked = understood(words)
        answer = run(asked)
    except SystemExit as ended:  # argparse has shown its help or the version
        return _written("", None, is_heard=is_heard) or int(ended.code or 0)
    except Exception as error:
        return _print_trouble(error, words, as_json)
    try:
        told = _as_text(answer, words, as_json)
    except Exception as error:
        return _print_trouble(error, words, as_json)
    return _written(told, answer, is_heard=is_heard) or answer.code


def _take_settings() -> None:
    """Go by what the smith has set; where there is no such file, nothing is loaded for it."""
    from coach.places import settings_file

    file = settings_file()
    if os.path.lexists(file) or "coach.settings" in sys.modules:
        from coach.settings import use

        if use(file).faults:
            say_aside(_SETTINGS_AT_FAULT)


def _of_itself(words: Sequence[str]) -> str | None:
    """What is told of the program, at once; None where something else is asked."""
    if words in (["-h"], ["--help"]):
        from coach.cli.help import help_text

        return help_text()
    if words == ["--version"]:
        from coach import __version__

        return f"coach {__version__}\n"
    return None


def _written(told: str, answer: Reply[object] | None, *, is_heard: bool) -> int:
    """Write an answer out; the exit code where that failed, or GOOD."""
    if answer is not None and not told:  # that of a screen, whose terminal may be gone
        return GOOD
    try:
        if told and not is_heard:
            raise OSError(0, _NO_STREAM)
        sys.stdout.write(told)
        sys.stdout.flush()
    except BrokenPipeError:
        let_go_of(1)
        return PIPE_CLOSED
    except (OSError, ValueError) as error:
        let_go_of(1)
        say_aside(f"{_done(answer)} ({getattr(error, 'strerror', None) or error}).")
        return UNTOLD
    return GOOD


def _done(answer: Reply[object] | None) -> str:
    """What is told in the place of an answer that cannot be written."""
    from coach.telling.harmless import harmless

    values = answer.values if answer is not None else None
    if getattr(values, "answers", ()):  # something was entered
        job = getattr(values, "job", "")
        return harmless(f"Job {job}: entered, see `coach history {job}`, but the answer could not be written")
    return "The answer could not be written"


def _as_text(answer: Reply[object], words: Sequence[str], as_json: bool) -> str:
    if as_json:
        if answer.values is None:
            return ""
        return f"{_json(answer.values, answer.shown or _shown(words))}\n"
    from coach.cli.painting import has_colour, printed

    colour = has_colour()
    return "".join(f"{printed(line, colour=colour)}\n" for line in answer.lines)


def _json(values: object, shown: Shown) -> str:
    import json

    from coach.telling.harmless import harmless_json
    from coach.telling.values import json_values

    told = json.dumps(json_values(values, shown), ensure_ascii=False, indent=2, allow_nan=False)
    return harmless_json(told)


def _shown(words: Sequence[str], error: Exception | None = None) -> Shown:
    """The units asked for, also when the line is wrong otherwise; else those of the file that is refused."""
    from coach.cli.line import wants_units
    from coach.telling.writing import Shown

    return Shown(wants_units(words) or getattr(error, "system", None) or "mm")


def _print_trouble(error: Exception, words: Sequence[str], as_json: bool) -> int:
    """Say what kept the request from being carried out; raises Stopped where that was a signal to stop."""
    stop_if_told()
    if isinstance(error, BrokenPipeError):
        let_go_of(1)
        return PIPE_CLOSED
    from coach.cli.trouble import what_happened

    shown = _shown(words, error)
    code, sentence, values = what_happened(error, words, shown)
    from coach.telling.harmless import harmless

    for line in sentence.splitlines():
        say_aside(harmless(line))
    if as_json:
        values = {"error": sentence, **values}
        if _written(f"{_json(values, shown)}\n", None, is_heard=True) == PIPE_CLOSED:
            return PIPE_CLOSED
    return code
