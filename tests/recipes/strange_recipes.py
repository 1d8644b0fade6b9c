"""Sound recipes with one thing changed, each the same for the same number: a smith's own, not yet right."""

from __future__ import annotations

import random
import re
from functools import cache
from pathlib import Path

from coach.places import bundled_recipes

_SMALL = Path(__file__).parent / "small"
_NUMBER = re.compile(r"(?<![\w.,#])\d+(?:\.\d+)?(?![\w.])")
_STEP = re.compile(r"  - \S")


def strange_recipe(number: int) -> str:
    """The text of a sound recipe of which one number is another one, or of which one step is left out."""
    die = random.Random(f"strange {number}")
    lines = die.choice(_sound()).splitlines()
    begins = lines.index("steps:")
    steps = [at for at in range(begins, len(lines)) if _STEP.match(lines[at])]
    if len(steps) > 1 and die.random() < 0.25:
        first = die.choice(steps)
        end = next((at for at in steps if at > first), len(lines))
        return "\n".join([*lines[:first], *lines[end:], ""])
    head = lines.index("pieces:")
    with_numbers = [at for at in range(head, len(lines)) if _NUMBER.search(_said(lines[at]))]
    at = die.choice(with_numbers)
    found = die.choice([*_NUMBER.finditer(_said(lines[at]))])
    other = float(found[0]) * die.choice((0.3, 0.5, 0.7, 0.8, 0.9, 1.1, 1.2, 1.4, 1.8, 2.5))
    lines[at] = lines[at][: found.start()] + f"{other:.3g}" + lines[at][found.end() :]
    return "\n".join([*lines, ""])


def _said(line: str) -> str:
    return line.split(" #", maxsplit=1)[0]


@cache
def _sound() -> tuple[str, ...]:
    paths = sorted([*bundled_recipes().glob("*.yaml"), *_SMALL.glob("*.yaml")])
    return tuple(path.read_text(encoding="utf-8") for path in paths)
