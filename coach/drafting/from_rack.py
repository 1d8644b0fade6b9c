"""Which bar of the rack a recipe is begun from: what each would leave over, and which cannot make it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from coach.bench.outlook import outlook
from coach.bench.rack import LyingBar, Rack, RackCuts, Suits, as_typed
from coach.drafting.answers import CannotDraft
from coach.drafting.from_bar import from_bars, of_row, rows_of
from coach.forms import listed
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.verdict import PlanState
from coach.metals.grade import grade
from coach.quantities.figure import Figure, mm
from coach.quantities.refusal import Refusal
from coach.quantities.words import NOTHING, Words, run_on, say
from coach.recipe.reader import read_recipe


class OtherGrade(NamedTuple):
    """A bar that was named for a piece, of another metal than the recipe has it."""

    piece: str
    bar: str
    metal: str
    wanted: str  # by the recipe

    def words(self) -> Words:
        """That it is, and what is done about it."""
        return say(
            "{} is {}, and the recipe's {} is {}: it is reckoned as {}, and every heat is held against that",
            *(self.bar, self.metal, self.piece, self.wanted, self.metal),
        )


class FromRack(NamedTuple):
    """Bars of the rack for a recipe: what `--bar` would be, and what is cut off them."""

    bars: str  # PIECE=BAR, with ; between
    taken: tuple[Suits, ...]
    without: tuple[str, ...]  # the pieces that no bar of the rack suits; they keep the recipe's own
    of_other_grade: tuple[OtherGrade, ...] = ()  # what was named though it is other metal

    def cuts(self, rack: Rack) -> RackCuts:
        """What is cut off the rack as it was when they were chosen; of a short bar no more than there is."""
        there = {bar.name: bar.length.value for bar in rack.bars}
        off = [(one.bar, one.needed.value) for one in self.taken if one.needed is not None]
        return RackCuts(rack, tuple((name, min(length_mm, there[name])) for name, length_mm in off))


def words_of_taken(taken: FromRack) -> Words:
    """What is cut off the rack, and what stays of each bar."""
    told = [_cut_off(one) for one in taken.taken] + [one.words() for one in taken.of_other_grade]
    if taken.without:
        told.append(say("no bar there suits {}: take the recipe's own", listed(taken.without)))
    return run_on(told, "; ")


def _cut_off(one: Suits) -> Words:
    if one.needed is None or one.left is None:
        return say("the {} is taken from {}", one.piece, one.bar)
    if one.left.value < 0.0:
        short = mm(-one.left.value)
        return say("for the {} all of {} is taken, and it is {:=} too short", one.piece, one.bar, short)
    return say("for the {} {:=} are cut off {}, of which {:=} stay", one.piece, one.needed, one.bar, one.left)


def begun_from(text: str, source: str, bars: str) -> tuple[str, Words]:
    """A recipe from other bars, as `--bar` takes them, and why they cannot make it; nothing where they can.

    Raises a Refusal where the bars cannot be read or the metal account cannot go on.
    """
    made = from_bars(text, source, [one for one in bars.split(";") if one.strip()])
    found = outlook(look_back(read_recipe(made.text, source))).findings
    return made.text, found[0].sentence if found else NOTHING


def suited(text: str, source: str, rack: Rack) -> tuple[Suits, ...]:
    """How each bar of the rack suits each piece that has its own bar, that first which leaves least over.

    A bar of another grade is no bar for it. Raises RecipeFaults.
    """
    recipe = read_recipe(text, source)
    found: list[Suits] = []
    for piece, row in rows_of(text, source).items():
        wanted = recipe.pieces[row[0]].metal
        of_piece = [_suits(text, source, piece, row, bar, wanted) for bar in rack.bars]
        found += sorted(of_piece, key=_rank)
    return tuple(found)


def taken_from(text: str, source: str, rack: Rack, wanted: str) -> FromRack:
    """The bars that are meant: those named, as NAME or PIECE=NAME; or of each piece that which suits best.

    A named bar is taken though it is of another grade: the recipe is reckoned with that one. Raises
    CannotDraft, EntryFault and RecipeFaults.
    """
    rows = rows_of(text, source)
    if not rack.bars:
        rack.named("")
    named = _named(wanted, rows)
    bars: list[str] = []
    taken: list[Suits] = []
    without: list[str] = []
    others: list[OtherGrade] = []
    left = {bar.name: bar for bar in rack.bars}
    pieces = read_recipe(text, source).pieces
    for piece, row in rows.items():
        if named and piece not in named:
            continue
        metal = grade(pieces[row[0]].metal).name
        there = Rack(tuple(left.values()), rack.last)
        if named:
            bar = there.named(named[piece])
            one = _suits(text, source, piece, row, bar, bar.metal)
            if bar.metal != metal:
                others.append(OtherGrade(piece, bar.name, bar.metal, metal))
        else:
            every = [_suits(text, source, piece, row, bar, metal) for bar in there.bars]
            one = min(every, key=_rank)
            if one.cannot:
                without.append(piece)
                continue
            bar = left[one.bar]
        if one.left is not None:
            left[bar.name] = bar._replace(length=bar.length._replace(value=max(one.left.value, 0.0)))
        bars.append(f"{piece}={as_typed(bar)}")
        taken.append(one)
    if not taken:
        raise CannotDraft(
            "No bar on the rack suits {}: `coach rack --for RECIPE` says why not.", listed(without)
        )
    return FromRack(";".join(bars), tuple(taken), tuple(without), tuple(others))


def _named(wanted: str, rows: dict[str, list[str]]) -> dict[str, str]:
    """The bar that each piece is to be taken from, by its name; none where nothing is said."""
    found: dict[str, str] = {}
    for told in filter(None, map(str.strip, wanted.split(";"))):
        row, name = of_row(told, rows)
        own = next(one for one, pieces in rows.items() if pieces is row)
        found[own] = name
    return found


def _rank(one: Suits) -> tuple[bool, float, str]:
    return bool(one.cannot), one.left.value if one.left is not None else 0.0, one.bar


def _suits(text: str, source: str, piece: str, row: Sequence[str], bar: LyingBar, metal: str) -> Suits:
    """How one bar suits one piece, whose metal is wanted."""
    nothing = Suits(piece, bar.name, bar.section, bar.metal, None, None, 0, NOTHING)
    if grade(metal).name != bar.metal:
        return nothing._replace(cannot=say("it is {}, and {} is wanted", bar.metal, grade(metal).name))
    try:
        made = from_bars(text, source, [f"{piece}={as_typed(bar)}"])
        plan = look_back(read_recipe(made.text, source))
        seen = outlook(plan)
    except Refusal as refused:
        return nothing._replace(cannot=refused.words)
    needed = mm(round(_needed(plan, row).value, 1))
    heats = sum(step.heats for step in plan.recipe.steps)
    suits = nothing._replace(needed=needed, left=mm(bar.length.value - needed.value), heats=heats)
    if bar.length.value < needed.value:
        return suits._replace(cannot=say("{:=} too short", mm(needed.value - bar.length.value)))
    if seen.findings:
        return suits._replace(cannot=seen.findings[0].sentence)
    if seen.verdict is PlanState.OFF_PLAN:
        return suits._replace(cannot=say("off plan before it is begun"))
    return suits


def _needed(plan: Plan, row: Sequence[str]) -> Figure:
    """The length of bar that a piece, and those that are taken from one bar with it, take."""
    for one in plan.rows:
        if any(each.piece in row for each in one.pieces):
            return one.length
    return plan.pieces[row[0]].length
