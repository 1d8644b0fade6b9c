"""A paste is one text however it is cut on its way, and what stands around it is keys as ever."""

from __future__ import annotations

import pytest
from textual import events

from coach.screens.line_in import Reader

# xterm's control sequences, "Bracketed Paste Mode": a paste begins with CSI 200 ~ and ends with CSI 201 ~.
BEGINS, ENDS = "\x1b[200~", "\x1b[201~"
LOST = "\N{REPLACEMENT CHARACTER}"


def told(*pieces: str) -> list[str]:
    """The keys and texts that a reader tells of what comes in these pieces."""
    reader = Reader()
    found = [message for piece in pieces for message in reader.feed(piece)]
    return [
        one.key if isinstance(one, events.Key) else repr(one.text if isinstance(one, events.Paste) else one)
        for one in found
    ]


@pytest.mark.parametrize(
    ("inside", "text"),
    [
        ("31.5", "31.5"),
        ("a\nb\r\nc\td", "a\nb\r\nc\td"),
        ("one \x1b[31mtwo\x1b[0m", f"one {LOST}[31mtwo{LOST}[0m"),
        ("\x1b[15~\x1bOS\x1b[27;5;99~", f"{LOST}[15~{LOST}OS{LOST}[27;5;99~"),
        ("\x1b[A\x1b", f"{LOST}[A{LOST}"),
        ("\x1b\x1b\x1b", LOST * 3),
        (f"x{BEGINS}y", f"x{LOST}[200~y"),
        ("\x1b[20\x1b[201\x1b[2", f"{LOST}[20{LOST}[201{LOST}[2"),
        ("\x1b[48;24;80;0;0t\x1b[I\x1b[<0;1;1M", f"{LOST}[48;24;80;0;0t{LOST}[I{LOST}[<0;1;1M"),
        ("\x1b" + "9" * 40, LOST + "9" * 40),
        ("\x03\x11\x1a", "\x03\x11\x1a"),
    ],
)
def test_a_paste_is_told_whole_wherever_it_is_cut_in_two(inside: str, text: str) -> None:
    sent = f"a{BEGINS}{inside}{ENDS}\x1b[17~b"
    expected = ["a", f"{text!r}", "f6", "b"]
    assert told(sent) == expected
    assert told(*sent) == expected
    for at in range(1, len(sent)):
        assert told(sent[:at], sent[at:]) == expected


def test_what_follows_a_closing_bracket_in_the_text_is_keys_for_nobody_can_tell() -> None:
    assert told(f"{BEGINS}one{ENDS}q\r") == ["'one'", "q", "enter"]
    # The bracket of the paste itself then closes nothing: it is no key, and the next paste is whole.
    assert told(f"{BEGINS}one{ENDS}q{ENDS}{BEGINS}two{ENDS}z") == ["'one'", "q", "'two'", "z"]


def test_escapes_outside_of_a_paste_are_the_keys_that_they_were() -> None:
    sent = "\x1b[17~\x1b[A\x1bOS\x1b[20~\x1b[2~"  # by xterm's control sequences
    keys = ["f6", "up", "f4", "f9", "insert"]
    assert told(sent) == keys
    assert told(*sent) == keys
