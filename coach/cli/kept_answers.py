"""Answers kept as the text that was printed of them, lines or JSON, to be printed again."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from coach.cli.reply import Asked, Reply

if TYPE_CHECKING:
    from coach.remembered import Memory


def how_told(asked: Asked) -> str:
    """In what units and as what an answer is told."""
    return f"in {asked.units or 'its own units'} as {'JSON' if asked.json else 'lines'}"


def recalled(memory: Memory, name: str, key: Sequence[object]) -> Reply[Any] | None:
    """The answer kept under this name, if it was kept under this key."""
    if (kept := memory.recall(name, key)) is None:
        return None
    lines, values, code = json.loads(kept)
    return Reply(tuple(lines), values, code)


def keep(memory: Memory, asked: Asked, name: str, key: Sequence[object], answer: Reply[object]) -> None:
    """Keep the lines of an answer, or its values as JSON holds them: the one of the two that is printed."""
    from coach.telling.values import json_values
    from coach.telling.writing import Shown

    values = json_values(answer.values, answer.shown or Shown(asked.units or "mm")) if asked.json else None
    lines = () if asked.json else answer.lines
    text = json.dumps([lines, values, answer.code], ensure_ascii=False, allow_nan=False)
    memory.keep(name, key, text)
