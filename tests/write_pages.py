"""`python -m tests.write_pages` writes what is made from the code: pages of docs/, the schema, the
demonstration's job and what it opens with.

In docs/commands.md only what the commands answer is written; the rest is written by hand.

A new form, operation, test of the shop, grade or kind of entry is told by these pages as its own file says.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from pathlib import Path

from coach.cli.commands.demo import FRAME_FILE, JOB_FILE
from coach.forms import Form, kinds, listed, said
from coach.metals.grade import grades
from coach.operations import Operation, operations
from coach.operations.shop_tests import SHOP_TESTS
from coach.recipe.keys import PIECE, RECIPE, SCALE, STEP, USUAL, ZONE
from coach.recipe.naming import named
from coach.recipe.says import Part
from coach.recipe.schema import SCHEMA_FILE, schema_text
from coach.recipe.shapes import bar_kinds
from tests import write_arguments, write_shown, write_sources
from tests.demo_frame import demo_frame
from tests.half_forged import demonstration
from tests.write_keys import PAGE as KEYS_PAGE
from tests.write_keys import page as keys_page

WORDS_PAGE = Path(__file__).parents[1] / "docs" / "words.md"

_HEAD = """\
# The words of a recipe

Written by `python -m tests.write_pages` from what each operation, form, test and grade says of itself. How
they are used is told by [writing a recipe](recipes.md).

## Operations

The account of a step is always **V′ = V − taken − scale**. Unless its own line says otherwise an operation
takes nothing but scale and what `loses` says, and moves the rest into the free dimension. Where nothing
stands under *leaves*, the form stays; where nothing stands under *free*, it is the form's own. Those marked °
move no metal on purpose; the scale of their heats still comes off.
"""
_TESTS = """
Any step may ask for a test of the shop under `check`; at the bench it is answered with pass, doubt or fail
(1, 2 or 3). A pass finds no fault; it proves nothing.
"""


_KEYS = """\
What belongs where in a file, made from the table by which it is read. A step begins with its operation as a
key. What a line may say behind a comma may stand below it as a key of its own.
"""
_LINES = """\
A number stands behind one of these. Sizes stand in the line of a zone and in that of a step, the others in
the line of the steps that are named.
"""
PARTS = (RECIPE, USUAL, SCALE, PIECE, ZONE, STEP)


def words_page() -> str:
    """The whole page of words."""
    return "\n".join(
        [
            _HEAD,
            *_table(
                (
                    "operation",
                    "leaves",
                    "free",
                    "heats",
                    "gauge",
                    "what it takes, and what can be measured",
                ),
                (_operation_row(name, todo) for name, todo in operations().items()),
            ),
            "\n## Forms\n",
            f"A bar, as stock is, is {listed(bar_kinds(), 'or')}.\n",
            *_table(
                ("form", "dimensions", "free", "volume", "what it is"),
                (
                    (
                        f"`{name}`",
                        ", ".join(map(said, form.DIMENSIONS)),
                        said(form.FREE),
                        form.VOLUME,
                        form.SUMMARY,
                    )
                    for name, form in kinds().items()
                ),
            ),
            "",
            *(
                f"`{name}` of `{kind}` is {listed(choices, 'or')}.\n"
                for kind, form in kinds().items()
                for name, choices in form.OPTIONS.items()
            ),
            "## Tests\n" + _TESTS,
            *_table(
                ("test", "what is done, and what passes"),
                ((f"`{said(name)}`", told.how) for name, told in SHOP_TESTS.items()),
            ),
            "\n## Keys\n",
            _KEYS,
            *(line for part in PARTS for line in _part_of_the_file(part)),
            "### Words of a line\n",
            _LINES,
            *_table(("word", "what it is"), _words_of_a_line()),
            "\n## Grades\n",
            "What is known of each, with its sources: `coach steel GRADE`.\n",
            *(f"- {grade.name}" for grade in grades()),
            "",
        ]
    )


def _operation_row(name: str, todo: Operation) -> tuple[str, ...]:
    stated = [f"`{said(one)}`" for one in todo.AMOUNTS if f"`{said(one)}`" not in todo.ACCOUNT]
    measured = [f"`{said(one)}`" for one in todo.EXTRAS if f"`{said(one)}`" not in todo.ACCOUNT]
    told = [
        todo.ACCOUNT,
        f"{listed(stated, 'and')} may be stated" if stated else "",
        f"{listed(measured, 'and')} can be measured" if measured else "",
    ]
    sign = "" if todo.RESHAPES else "°"
    heats = f"{todo.HEATS} {todo.HEAT_KIND}"
    leaves, free = todo.FORM or "", said(todo.FREE or "")
    return f"`{name}`{sign}", leaves, free, heats, todo.GAUGE, "; ".join(part for part in told if part)


def _part_of_the_file(part: Part) -> list[str]:
    """A table of the keys of a part of the file, without those that are a word of a line as well."""
    rows = (
        (f"`{said(key.name)}`", "needed" if key.needed else "", key.told)
        for key in part.keys.values()
        if (part is USUAL or not _is_in_a_line(key.name)) and said(key.name) not in operations()
    )
    return [f"### {part.name}\n", f"{part.told}\n", *_table(("key", "", "what it says"), rows), ""]


def _is_in_a_line(name: str) -> bool:
    return said(name) in named() or name.endswith("hole")


def _words_of_a_line() -> Iterator[tuple[str, ...]]:
    found: dict[tuple[str, str, bool], list[str]] = {}
    for word, meant in named().items():
        found.setdefault((meant.name, meant.kind.value, meant.is_amount), []).append(f"`{word}`")
    for (name, kind, is_amount), told in sorted(found.items()):
        takers = [todo.NAME for todo in operations().values() if name in {**todo.AMOUNTS, **todo.EXTRAS}]
        whose = f"of {listed(takers, 'and')}" if takers else "of a form"
        yield (
            " ".join(reversed(told)),
            f"{kind}{', what the operation takes or is given' if is_amount else ''}, {whose}",
        )


def _form_row(name: str, form: type[Form]) -> tuple[str, ...]:
    dimensions = ", ".join(map(said, form.DIMENSIONS))
    return f"`{name}`", dimensions, said(form.FREE), form.VOLUME, form.SUMMARY


def _table(heads: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> list[str]:
    cells = [heads, tuple("---" for _ in heads), *rows]
    return [f"| {' | '.join(cell.replace('|', '&#124;') for cell in row)} |" for row in cells]


PAGES: dict[Path, Callable[[], str]] = {
    JOB_FILE: demonstration,
    FRAME_FILE: demo_frame,
    WORDS_PAGE: words_page,
    KEYS_PAGE: keys_page,
    SCHEMA_FILE: schema_text,
    write_arguments.PAGE: write_arguments.page,
    **{path: partial(write_shown.page, path) for path in write_shown.PAGES},
    write_sources.PAGE: write_sources.page,
}
"""Every file that is made from the code, with what makes its text."""


if __name__ == "__main__":
    for path, text in PAGES.items():
        path.write_text(text(), encoding="utf-8")
        sys.stdout.write(f"{path} is written.\n")
