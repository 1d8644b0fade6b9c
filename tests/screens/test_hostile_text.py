"""What files and entries hold is shown on every screen, and no terminal gets it as an order.

The walk that shows it is one that may not talk to the network.
"""

from __future__ import annotations

import ast
import json
from pathlib import Path

import pytest

from tests.hostile import CARRIED_OUT
from tests.screens.stage import ROOMY, SMALL
from tests.terminal import on_a_terminal

#: Textual's own: the shape of the mouse's pointer.
POINTER = "\x1b]22;default\x07"


@pytest.mark.parametrize("size", [SMALL, ROOMY])
def test_no_screen_lets_hostile_text_reach_the_terminal_as_it_is(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    with on_a_terminal(("tests.screens.walked", str(tmp_path)), size=size) as terminal:
        assert terminal.end() == 0, terminal.shown[-3000:]
    seen = json.loads((tmp_path / "seen.json").read_text(encoding="utf-8"))
    assert len(seen) >= 12
    assert [place for place, shows_it in seen.items() if not shows_it] == []
    painted = terminal.painted.decode("utf-8", "surrogateescape").replace(POINTER, "")
    assert CARRIED_OUT.findall(painted) == []


#: Where text from elsewhere is made content of a screen.
GATES = {"wording.py", "widgets/box.py"}


def test_text_becomes_content_of_a_screen_at_the_gates_alone() -> None:
    rooms = Path(__file__).parents[2] / "coach" / "screens"
    past = []
    for path in sorted(rooms.rglob("*.py")):
        if path.relative_to(rooms).as_posix() in GATES:
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and ast.unparse(node.func) in MAKE_CONTENT:
                past += [
                    f"{path.name}:{node.lineno}: {ast.unparse(node)}"
                    for given in node.args[:1]
                    if not isinstance(given, ast.Constant)
                ]
    assert past == []


MAKE_CONTENT = {"Content", "Content.styled", "Content.from_markup", "Content.from_text", "Text", "Input"}
