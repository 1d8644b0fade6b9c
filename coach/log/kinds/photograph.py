"""A photograph was taken, kept in a file of its own."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import line, step_number
from coach.quantities.words import Words, say


class Photograph(Body):
    """A photograph, by the path of its file: the picture itself is not in the log."""

    CALLED = "a photograph"
    STANDS_APART = True

    file: str = line()
    text: str = line(least=0)  # what is to be seen on it; empty where nothing was said
    step: int = step_number(least=0)  # in hand then; 0 when every step was done

    def words(self) -> Words:
        """See Body."""
        return say("photograph: {}{}", self.file, f", {self.text}" if self.text else "")
