"""What a terminal brings between the brackets of a paste is text, whatever is in it; nothing else may be."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Coach
from tests.terminal import on_a_terminal

# xterm's control sequences, "Bracketed Paste Mode": a paste begins with CSI 200 ~ and ends with CSI 201 ~.
BEGINS, ENDS = b"\x1b[200~", b"\x1b[201~"
F6, CTRL_C = b"\x1b[17~", b"\x03"
LOST = "\N{REPLACEMENT CHARACTER}"


def notes_of(coach: Coach) -> list[str]:
    """What the notes of the one job say."""
    entries = coach("history", "first", "--json").part("entries")
    assert isinstance(entries, list)
    return [one["words"] for one in entries if one["kind"] == "note"]


@pytest.mark.parametrize(
    ("inside", "note"),
    [
        pytest.param(b"one \x1b[31mtwo\x1b[0m three", f"one {LOST}[31mtwo{LOST}[0m three", id="colours"),
        pytest.param(b"one \x1b[15~two \x1bOSthree", f"one {LOST}[15~two {LOST}OSthree", id="keys"),
        pytest.param(b"one \x1b[200~two \x1b\x1b", f"one {LOST}[200~two {LOST}{LOST}", id="brackets"),
        pytest.param(b"one \xff two", f"one {LOST} two", id="no UTF-8"),
    ],
)
def test_an_escape_within_a_paste_is_text_in_its_place_and_no_key(
    coach: Coach, inside: bytes, note: str
) -> None:
    coach.job()
    with on_a_terminal(("coach", "open", "first")) as terminal:
        terminal.wait_for("F1")
        terminal.type(F6)
        terminal.wait_for("note")
        terminal.type(BEGINS + inside + ENDS + b"\r")
        terminal.wait_for("Noted")
        terminal.type(CTRL_C)
        terminal.wait_for("Ctrl+C again closes it")
        terminal.type(CTRL_C)
        assert terminal.end() == 0
    assert notes_of(coach) == [f"note: {note}"]
