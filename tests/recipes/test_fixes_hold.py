"""What `check` says to write instead passes where it is written: a fix that fails is worse than none."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

import pytest

from coach.bench.outlook import outlook
from coach.cli.placed import faults_of
from coach.ledger.looking_back import look_back
from coach.ledger.working import LedgerError
from coach.recipe.faults import RecipeFaults
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.recipes.strange_recipes import strange_recipe

EACH = 150
MOST = 900
#: Once told with a fix that failed: what is wider than its bar, tines that are drawn later, two branches.
FOUND = (16, 83, 261, 316, 466, 535, 619, 691, 746, 853, 858)

FORGE_TO = re.compile(r"forge it to (.+?) in a step before this")
BEGIN_WITH = re.compile(r"begin with (?!no one|one )(.+?)\.$")
TINES = re.compile(r"says? there how wide it leaves them, (tine .+?)\.$")
REACHED = re.compile(r", (\S+) ±\S+ mm, is held closer .* ±(\S+) mm can be reached")
HEATS = re.compile(r"Plan (\d+) heats? or more")
LEAVE_OUT = re.compile(r"leave that step out")


class Told(NamedTuple):
    """What is wrong at one line of a recipe."""

    line: int
    sentence: str

    @property
    def kind(self) -> str:
        """It without its figures."""
        return re.sub(r"\d[\d.]*", "#", self.sentence)


class Fixed(NamedTuple):
    """A recipe as it was told to be mended, and the lines that were written."""

    text: str
    lines: frozenset[int]


def told_of(text: str) -> list[Told]:
    """All that is wrong with a recipe."""
    try:
        recipe = read_recipe(text, "strange.yaml")
        seen = outlook(look_back(recipe))
    except RecipeFaults as error:
        return [Told(one.line, write(one.words, Shown())) for one in error.faults]
    except LedgerError as error:
        faults = faults_of(error, text, "strange.yaml").faults
        return [Told(one.line, write(one.words, Shown())) for one in faults]
    return [Told(one.line, write(one.sentence, Shown())) for one in seen.findings]


def fixes(text: str, told: Told) -> Iterator[Fixed]:
    """The recipe with what the sentence says to write, for each that it says."""
    lines, at = text.splitlines(), told.line - 1
    step = re.match(r"  - [^:]+: (?:all of )?([^,]+?)(?: (?:with|by|and|to) |,|$)", lines[at])
    if step and (forge := FORGE_TO.search(told.sentence)):
        before = f"  - draw: {step[1]}, {_typed(forge[1])}"
        yield Fixed("\n".join([*lines[:at], before, *lines[at:], ""]), frozenset({told.line, told.line + 1}))
    if step and (begin := BEGIN_WITH.search(told.sentence)):
        bars = [number for number in range(at) if re.search(r"\bbar: ", lines[number])]
        if len(bars) == 1:  # else it is not plain which of them is meant
            lines[bars[0]] = re.sub(r"bar: [^,#]+", f"bar: {_typed(begin[1])}", lines[bars[0]])
            yield Fixed("\n".join([*lines, ""]), frozenset({told.line}))
    if step and (tines := TINES.search(told.sentence)):
        rest = re.sub(r", (?:other )?tine [^,]+", "", lines[at])
        uneven = ", uneven fork" if "other" in tines[1] and "uneven fork" not in rest else ""
        lines[at] = rest.replace(step[1], f"{step[1]}{uneven}, {_typed(tines[1])}", 1)
        yield Fixed("\n".join([*lines, ""]), frozenset({told.line}))
    if reached := REACHED.search(told.sentence):
        anew = re.sub(rf"(?<![\d.])({float(reached[1]):g}) ±[\d.]+", rf"\1 ±{reached[2]}", text)
        if anew != text:  # limits are also written otherwise
            yield Fixed(anew, frozenset({told.line}))
    if step and (heats := HEATS.search(told.sentence)):
        rest = re.sub(r", \d+ heats?\b", "", lines[at].split(" #")[0].rstrip())
        yield Fixed(
            "\n".join([*lines[:at], f"{rest}, {heats[1]} heats", *lines[at + 1 :], ""]),
            frozenset({told.line}),
        )
    if step and LEAVE_OUT.search(told.sentence):
        ends = (number for number in range(at + 1, len(lines)) if not lines[number].startswith("    "))
        yield Fixed("\n".join([*lines[:at], *lines[next(ends, len(lines)) :], ""]), frozenset())


def _typed(figures: str) -> str:
    return figures.replace(" mm", "").replace("×", "x")


def assert_fixes_hold(text: str) -> int:
    """Every fix that is told, taken: its fault is gone, and none is new at that line; how many were taken."""
    found, taken = told_of(text), 0
    for told in found:
        for fixed in fixes(text, told):
            taken += 1
            left = [one for one in told_of(fixed.text) if one.line in fixed.lines]
            others = {one.kind for one in found if one.kind != told.kind}
            assert [one for one in left if one.kind not in others] == [], f"{told.sentence}\n{fixed.text}"
    return taken


@pytest.mark.parametrize("first", range(0, MOST, EACH))
def test_what_is_told_to_be_written_instead_passes_where_it_is_written(first: int) -> None:
    taken = sum(assert_fixes_hold(strange_recipe(number)) for number in range(first, first + EACH))
    assert taken, "none of them was told with a fix that can be taken"


@pytest.mark.parametrize("number", FOUND)
def test_what_was_told_with_a_fix_that_failed_has_one_that_holds(number: int) -> None:
    assert_fixes_hold(strange_recipe(number))


FORK = """recipe: Toasting fork
pieces:
  fork:
    metal: mild steel
    bar: square 10
    zones:
      tines: fork, tine 5 ±0.5, thick 5 ±0.5, end tine 3 ±0.5, end thick 3 ±0.5, long 110 ±14
      shank: square 10 ±0.5, long 200 ±16
usual: {at: light yellow}
steps:
  - mark out: fork
"""
SPLIT = [
    ("split: tines, 2 heats", "draw: tines"),
    ("split: tines, tine 4, 2 heats", "draw: tines"),
    ("draw: tines, 10 x 5.3 to 6 x 3.2", "split: tines, 2 heats", "draw: tines"),
    ("split: tines, 2 heats",),
]


@pytest.mark.parametrize("steps", SPLIT)
def test_a_fork_that_is_split_and_drawn_is_told_one_fault_and_a_fix_that_holds(
    steps: tuple[str, ...],
) -> None:
    text = FORK + "".join(f"  - {step}\n" for step in steps)
    assert len(told_of(text)) == 1
    assert assert_fixes_hold(text) == 1
