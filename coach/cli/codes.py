"""The exit codes that go with an answer."""

from __future__ import annotations

GOOD = 0
BAD_NEWS = 1
"""The answer itself is bad news: faults found, off plan, gone past, a reading that is questioned."""
WRONG = 2
"""The request could not be carried out."""
BUG = 3
"""The program failed."""
UNTOLD = 4
"""What was asked is done, but the answer could not be written."""
PIPE_CLOSED = 141
"""Whoever read the answer closed the pipe: 128 and the number of SIGPIPE, as shells count it."""
