"""Why a request could not be carried out: in a sentence, with the exit code."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coach.cli.codes import BAD_NEWS, WRONG
from coach.files import is_of_the_program, said_by_the_system
from coach.quantities.refusal import Refusal
from coach.telling.words import write
from coach.telling.writing import Shown


def what_happened(
    error: Exception, words: Sequence[str], shown: Shown
) -> tuple[int, str, Mapping[str, object]]:
    """The exit code of what failed so, why it failed, and what JSON tells besides.

    A fault of the program itself is written to a file, with the `words` of the command line.
    """
    if isinstance(error, OSError) and not is_of_the_program(error):
        return WRONG, said_by_the_system(error), {}
    if isinstance(error, Refusal):
        return BAD_NEWS if error.BAD_NEWS else WRONG, write(error.words, shown), error.details()
    from coach.cli.bug import told

    return *told(error, words), {}
