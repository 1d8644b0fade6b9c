"""The one place where an answer is printed, and where an error becomes a sentence and an exit code."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Mapping, Sequence
from contextlib import suppress
from io import TextIOWrapper
from typing import TYPE_CHECKING

from coach.cli.codes import BAD_NEWS, PIPE_CLOSED, STOPPED, WRONG

if TYPE_CHECKING:
    from coach.cli.reply import Reply
    from coach.telling.writing import Shown


def carry_out(words: Sequence[str]) -> int:
    """Do what a command line asks, print the answer, and return the exit code."""
    _write_utf8()
    was_collecting = gc.isenabled()
    # Loading the program makes many objects that stay: looking through them for rubbish again and again costs
    # a tenth of the time to the first screen. The screens collect again once they are up.
    gc.disable()
    try:
        return _answered(words)
    except KeyboardInterrupt:
        return STOPPED
    except BrokenPipeError:
        _let_go_of_the_pipe()
        return PIPE_CLOSED
    finally:
        if was_collecting:
            gc.enable()


def _answered(words: Sequence[str]) -> int:
    if words in (["-h"], ["--help"]):
        from coach.cli.help import help_text

        print(help_text(), end="", flush=True)
        return 0
    from coach.cli.line import understood, wants_json
    from coach.metals import look_in
    from coach.places import grade_folder

    as_json = wants_json(words)
    try:
        run, asked = understood(words)
        look_in(grade_folder())
        answer = run(asked)
        _print_answer(answer, words, as_json)
        return answer.code
    except BrokenPipeError:
        raise
    except SystemExit as ended:  # argparse has shown its help or the version
        sys.stdout.flush()
        return int(ended.code or 0)
    except Exception as error:
        return _print_trouble(error, words, as_json)


def _write_utf8() -> None:
    """Let every character through to the terminal, a pipe or a file, whatever the locale says."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="replace")


def _print_answer(answer: Reply[object], words: Sequence[str], as_json: bool) -> None:
    if as_json:
        if answer.values is not None:
            print(_json(answer.values, answer.shown or _shown(words)))
    else:
        from coach.cli.painting import has_colour, printed

        colour = has_colour()
        for line in answer.lines:
            print(printed(line, colour=colour))
    sys.stdout.flush()


def _json(values: object, shown: Shown) -> str:
    import json

    from coach.telling.harmless import harmless_json
    from coach.telling.values import json_values

    told = json.dumps(json_values(values, shown), ensure_ascii=False, indent=2, allow_nan=False)
    return harmless_json(told)


def _shown(words: Sequence[str]) -> Shown:
    """The units asked for, also when the line is wrong otherwise."""
    from coach.cli.line import wants_units
    from coach.telling.writing import Shown

    return Shown(wants_units(words))


def _print_trouble(error: Exception, words: Sequence[str], as_json: bool) -> int:
    """Say what kept the request from being carried out."""
    from coach.quantities.refusal import Refusal

    values: Mapping[str, object] = {}
    if isinstance(error, Refusal):
        from coach.telling.words import write

        code = BAD_NEWS if error.BAD_NEWS else WRONG
        sentence, values = write(error.words, _shown(words)), error.details()
    else:
        from coach.cli.bug import told

        code, sentence = told(error, words)
    from coach.telling.harmless import harmless

    for line in sentence.splitlines():
        print(harmless(line), file=sys.stderr)
    if as_json:
        print(_json({"error": sentence, **values}, _shown(words)))
        sys.stdout.flush()
    return code


def _let_go_of_the_pipe() -> None:
    """Send what is still to be written nowhere, so that closing the stream at exit does not fail again."""
    with suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
