"""Every setting there is: what it is for, how it is written, and what it may be."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, Final, NamedTuple

from coach.operations.gauges import (
    LEAST_DOUBT_MM,
    LEAST_SPAN_MM,
    MOST_DOUBT_MM,
    MOST_SPAN_MM,
    USUAL_GAUGES,
    USUAL_SPANS_MM,
    by_gauge,
)
from coach.quantities.errors import nearest

#: How whole numbers are typed at the bench, and what may be said of it.
WHOLE_NUMBERS: Final = "whole_numbers"
TENTHS: Final = "tenths"
#: Keys that a smith may give another key for, by what they do at the bench.
ACTIONS: Final = {
    "out": "f2",
    "in": "f3",
    "done": "f4",
    "back": "f5",
    "note": "f6",
    "hot": "f7",
    "undo": "f8",
    "rest": "f10",
    "enter": "enter",
}
#: A key as the toolkit of the screens names it: `f13`, `pause`, `plus`, `ctrl+b`.
_KEY: Final = re.compile(r"[a-z0-9_]+(\+[a-z0-9_]+)*")
#: What types a size, tells the keys, or leaves the coach, stays what it is.
_KEPT_KEYS: Final = {
    *"0123456789",
    "x",
    "full_stop",
    "comma",
    "f1",
    "enter",
    "escape",
    "backspace",
    "ctrl+c",
    "ctrl+q",
}
_LONGEST: Final = 1000
_LONGEST_CALLED: Final = 40
_MOST_WORDS: Final = 40


class Wrong(ValueError):
    """A value that a setting cannot have: what was expected of it."""


class Setting(NamedTuple):
    """One setting of the file."""

    name: str  # `units`, `alarm.back`; the part before the last dot is its table in the file
    told: str  # what it is for
    example: str  # a value as it is written in the file
    read: Callable[[object], Any]  # the value of what stands in the file; raises Wrong
    usual: str  # what counts where nothing is set, in words or with its unit


def _one_of(*allowed: str) -> Callable[[object], str]:
    def read(value: object) -> str:
        if not isinstance(value, str) or value not in allowed:
            near = nearest(value, allowed) if isinstance(value, str) else None
            hint = f"; did you mean {near}?" if near else "."
            raise Wrong(f"expected one of {', '.join(allowed)}, not {_briefly(value)}{hint}")
        return value

    return read


def _path(value: object) -> str:
    if not isinstance(value, str) or not value.strip() or "\0" in value or len(value) > _LONGEST:
        raise Wrong(f"expected the path of a folder, not {_briefly(value)}.")
    return value


def _called(value: object) -> str:
    if not isinstance(value, str) or not value.strip() or not value.isprintable():
        raise Wrong(f"expected what you call it, in one line, not {_briefly(value)}.")
    if len(value) > _LONGEST_CALLED:
        raise Wrong(f"expected a name of at most {_LONGEST_CALLED} characters, not one of {len(value)}.")
    return value.strip()


def _command(value: object) -> tuple[str, ...]:
    """A program and its words, each by itself: no shell takes it apart."""
    held = value if isinstance(value, list) else [value]
    words = [one for one in held if isinstance(one, str)]
    if not 0 < len(words) <= _MOST_WORDS or len(words) < len(held):
        raise Wrong('expected a program and its words in a list, as in ["play", "bell.wav"].')
    if not words[0].strip() or any("\0" in one or len(one) > _LONGEST for one in words):
        raise Wrong('expected the name of a program first, as in ["play", "bell.wav"].')
    return tuple(words)


def _doubt(value: object) -> float:
    least, most = LEAST_DOUBT_MM, MOST_DOUBT_MM
    if isinstance(value, int | float) and not isinstance(value, bool) and least <= value <= most:
        return float(value)
    raise Wrong(f"expected millimetres from {least} to {most:g}, not {_briefly(value)}.")


def _span(value: object) -> float:
    least, most = LEAST_SPAN_MM, MOST_SPAN_MM
    if isinstance(value, int | float) and not isinstance(value, bool) and least <= value <= most:
        return float(value)
    raise Wrong(f"expected millimetres from {least:g} to {most:g}, not {_briefly(value)}.")


def _looks() -> tuple[str, ...]:
    """The looks of the screens, by the file that they are declared in; nothing of the screens is loaded."""
    import tomllib

    file = Path(__file__).parents[1] / "screens" / "looks.toml"
    return tuple(tomllib.loads(file.read_text(encoding="utf-8")))


def _briefly(value: object) -> str:
    told = repr(value)
    return told if len(told) <= 40 else f"{told[:30]}…"


def table() -> dict[str, Setting]:
    """Every setting by its name, in the order of the file; a key's own is made by `key_setting`."""
    return {one.name: one for one in _settings()}


def _settings() -> Iterator[Setting]:
    looks = _looks()
    yield Setting(
        "units",
        "The units that sizes are told in, and that a bare number is in: mm or in. It is as if --units were "
        "typed each time; without it each job has those of its recipe.",
        '"in"',
        _one_of("mm", "in"),
        "those of each recipe",
    )
    yield Setting(
        "look",
        f"The look that the screens begin with: {', '.join(looks)}. Without it, the one chosen last by F11.",
        f'"{looks[-1]}"',
        _one_of(*looks),
        "the one chosen last by F11",
    )
    yield Setting(
        WHOLE_NUMBERS,
        "What a bare whole number is at the bench, where a size is read in millimetres with a calliper: "
        f"{TENTHS}, so that 184 is 18.4 and the point need not be typed, or mm, as usual. A number with a "
        "point, or with its unit, is as it stands.",
        f'"{TENTHS}"',
        _one_of(TENTHS, "mm"),
        "mm",
    )
    yield Setting(
        "second_folder",
        "A second folder for copies of the log, such as one on a stick, as `coach backups --second` sets it.",
        '"/mnt/stick"',
        _path,
        "none",
    )
    for what, example in (("fire", "coke"), ("hammer", "two pounds")):
        yield Setting(
            what,
            f"The {what} that a job is begun with, as you call it: what jobs teach counts for those with the "
            f"same {what}. `coach begin --{what}` names another for one job.",
            f'"{example}"',
            _called,
            "not named",
        )
    yield Setting(
        "alarm.back",
        "A command of your own that is run when the metal is to go back into the fire, for a bell is not "
        "heard beside a hammer: the program, then its words. No shell has a hand in it.",
        '["play", "horn.wav"]',
        _command,
        "none",
    )
    yield Setting(
        "alarm.soaked",
        "The same when the metal has soaked long enough in the fire.",
        '["play", "gong.wav"]',
        _command,
        "none",
    )
    for gauge, usual in USUAL_GAUGES.items():
        for field, words, value in (
            ("cold_mm", "of one reading on cold metal", usual.cold_mm),
            ("hot_mm", "of one reading at heat", usual.hot_mm),
            ("bias_mm", "of the gauge itself, the same in every reading of a job", usual.bias_mm),
        ):
            yield Setting(
                f"gauges.{gauge}.{field}",
                f"Reading {by_gauge(gauge)}: the standard uncertainty {words}, mm; {value:g} unless said. It "
                "counts for what is read from then on; what was entered before stays as it was.",
                f"{value:g}",
                _doubt,
                f"{value:g} mm",
            )
        if (usual_mm := USUAL_SPANS_MM.get(gauge)) is not None:
            yield Setting(
                f"gauges.{gauge}.span_mm",
                f"Reading {by_gauge(gauge)}: the most that yours spans, mm; {usual_mm:g} unless said. "
                "What is read by it beyond that is asked about once in a job.",
                f"{usual_mm:g}",
                _span,
                f"{usual_mm:g} mm",
            )


def setting_of(name: str) -> Setting | None:
    """The setting of a name, a key's among them; None where there is none."""
    if name.startswith("keys."):
        return key_setting(name.removeprefix("keys."))
    return table().get(name)


def key_setting(key: str) -> Setting | None:
    """The setting that gives a key something to do; None where no key has this name or it must stay."""
    if not _KEY.fullmatch(key) or key in _KEPT_KEYS:
        return None
    return Setting(
        f"keys.{key}",
        "What this key does at the bench.",
        '"out"',
        _one_of(*ACTIONS),
        "what it does by itself",
    )


KEYS_TOLD: Final = (
    "Other keys for what the hand does at the bench, for a foot switch or the number pad: the key, and one "
    f"of {', '.join(ACTIONS)}. A key is named as in f13, pause, plus, asterisk or ctrl+b."
)
