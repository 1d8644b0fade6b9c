"""Text that a terminal would carry out: what a file or an entry from elsewhere might hold."""

from __future__ import annotations

import json
import re
from typing import Final

#: By ECMA-48 and xterm: OSC 52 writes the clipboard, CSI 2 J clears, CSI 5 n asks for an answer that is
#: typed in; CSI as one character, BEL, DEL, CR. By Unicode: a turn of the writing direction.
ORDERS: Final = "\x1b]52;c;SGk=\x07\x1b[2J\x1b[5n\x9b31m\x7f\r\u202e"
#: What is left of it to be read.
REMAINS: Final = "]52;c;SGk="

#: What none of it may leave in an output, whether decoded or not.
CARRIED_OUT: Final = re.compile("\x1b\\]52|\x07|\x1b\\[5n|[\x7f-\x9f\u202a-\u202e\u2066-\u2069]")


def hostile(recipe: str) -> str:
    """The recipe with such text wherever it may hold any."""
    return re.sub(
        r"(?m)^([ -]*(?:recipe|title|summary|how|watch|time): )(.*)$",
        lambda found: found[1] + json.dumps(ORDERS + found[2]),
        recipe,
    )


def open_the_gates() -> None:
    """Let it past what refuses such text, as if it had got by; to come before a kind of entry is loaded."""
    from coach.log import limits
    from coach.recipe import tree

    nothing = re.compile("(?!)")
    limits._NOT_IN_A_LINE = tree._UNFIT = nothing  # type: ignore[misc]
