"""One command, one file; the file's name is the verb.

A command's module has a `SUMMARY` of one line, `TAKES`, what may follow the verb, and `run(asked)`, which
does it with what was read and returns a `Reply`. It may have `arrange(words)`, which puts the words after the
verb into the order that argparse reads rightly, and `GROUP`, the heading that `coach --help` lists it under.
Modules whose name begins with an underscore are no commands.
"""

from __future__ import annotations
