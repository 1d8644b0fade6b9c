"""The rack: the bars that lie there; of a recipe that is to be begun, which of them it is taken from."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import NamedTuple

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.widgets import Input, Static

from coach.bench.rack import NO_CUTS, LyingBar, Rack, RackTold, Suits
from coach.drafting.from_rack import begun_from, suited, taken_from
from coach.drafting.make import made_often, read_how_many
from coach.recipe.text import file_text
from coach.screens.beginning import begin_from
from coach.screens.reply import ask
from coach.screens.screen import CoachScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.box import Box
from coach.screens.widgets.panel import Lines
from coach.screens.widgets.row_list import SIGN, RowList
from coach.screens.wording import Ink, joined, one_line, wrapped
from coach.telling.figures import write_figure
from coach.telling.rack import bar_cells, found_otherwise, not_followed
from coach.telling.words import sentence, write

#: What stands there in a shop without a bar.
_EMPTY = (
    "Nothing lies on the rack.",
    "",
    "Type a bar to lay it there: its name, a colon, its section, its length and its grade, such as",
    "long-one: hexagon 19, long 500, C80",
    "An odd offcut goes by its weight: odd: 45 x 20, 350 g, C45",
)
_AROUND = 3
_OWN = "the recipe's own bar"
#: What is typed of a bar that lies there no more.
GONE = "gone"
_SO_MANY = re.compile(r"make (?P<count>\S+)", re.IGNORECASE)


class _Row(NamedTuple):
    """One thing that can be chosen."""

    bar: LyingBar | None  # None is the bar that the recipe names
    suits: Suits | None  # how it suits the recipe, where there is one


class RackScreen(CoachScreen):
    """Lists the bars, lays and corrects them; with a recipe, begins it from the one that is chosen."""

    CSS_PATH = "rack.tcss"
    OVER = True
    NAME = "The rack"
    HELP_TEXT = """
        The bars and offcuts that lie in the shop. Type a name, a colon and the bar to lay it there or to say
        how it measures now: long-one: hexagon 19, long 500, C80; an odd offcut goes by its weight in place
        of its length: odd: 45 x 20, 350 g, C45. A name, a colon and gone takes it off the rack: odd: gone.
        F8 takes back the last thing that was entered here.

        With a recipe chosen the bars that suit it come first, that first which leaves least over, with what
        it takes of each; below stands why the others do not. Enter begins the job from the chosen one, and
        what it takes is cut off that bar. make 12 lets twelve be made of it, from one bar with one row of
        marks. A bar that lies nowhere here is typed as it is, without a name: 45 x 20, long 310. A bar that
        cannot do it is said first; a second Enter begins all the same. A job
        that is set aside before its first heat gives its bar back.
    """
    BINDINGS = [
        key(
            "enter",
            "take",
            "Begin",
            "Begin from the chosen bar, or take what is typed",
            first=False,
            group="Step",
        ),
        key("up", "move(-1)", "Up", "The bar before", show=False),
        key("down", "move(1)", "Down", "The bar after", show=False),
        key("f8", "undo", "Undo", "Take back the last thing entered for the rack", group="Write"),
        key("escape,ctrl+u", "close", "Back", "Go back"),
    ]

    def __init__(self, path: Path | None = None) -> None:
        """With the file of a recipe, the job is begun from what is chosen here."""
        super().__init__()
        self._path = path
        self._asked = ""  # the bars that a second Enter begins from though they cannot do it
        self.picks: RowList[_Row] = RowList(id="bars")

    def keys_now(self) -> list[Binding]:
        """Without a recipe nothing is begun here."""
        lays = self._path is None
        return [
            replace(one, description="Lay it", tooltip="Lay the bar there that is typed")
            if lays and one.action == "take"
            else one
            for one in super().keys_now()
        ]

    def compose(self) -> ComposeResult:
        title = f"Which bar for {self._path.stem}?" if self._path else "The rack"
        prompt = Static("", id="prompt", markup=False)
        yield from self.framed(title, self.picks, Lines(can_focus=False), AnswerLine(), prompt, Box())

    _rack = Rack()

    def on_mount(self) -> None:
        self.query_one(Input).focus()
        asks = "A bar as NAME: BAR; the bar that is there; or make 12" if self._path else "A bar as NAME: BAR"
        self.query_one("#prompt", Static).update(one_line(asks, Ink.STRONG))
        self._fill()

    def on_resize(self) -> None:
        if self._rack.last or self.picks.things:
            self._show(self.picks.highlighted or 0)

    def _fill(self) -> None:
        """Read the rack anew and show it."""
        self._rack = self.attempt(self.coach.shop.rack.now) or Rack()
        rows = [_Row(bar, None) for bar in self._rack.bars]
        if self._path is not None:
            by_name = {bar.name: bar for bar in self._rack.bars}
            found = self.attempt(partial(self._suits, self._path)) or ()
            rows = [*(_Row(by_name[one.bar], one) for one in found), _Row(None, None)]
            rows.sort(key=lambda one: one.suits is not None and bool(one.suits.cannot))
        self._rows = rows
        self._show(0)
        box = self.query_one(Input)
        box.placeholder = (
            "Enter begins from the chosen bar" if self._path else "long-one: hexagon 19, long 500, C80"
        )
        self.tell_keys()

    _rows: list[_Row] = []
    _chosen: _Row | None = None  # the row that Enter takes
    _make = 1  # how many are made of the recipe

    def _suits(self, path: Path) -> tuple[Suits, ...]:
        return suited(self._text(path), path.name, self._rack)

    def _text(self, path: Path) -> str:
        text = file_text(path)
        return made_often(text, self._make) if self._make > 1 else text

    def _show(self, at: int) -> None:
        room = self.app.size.width - _AROUND
        fit = [one for one in self._rows if one.suits is None or not one.suits.cannot]
        # The box has the focus: the list itself shows its sign only where it has that.
        self._chosen = fit[at] if at < len(fit) else None
        self.picks.fill(fit, self._row, at)
        self.picks.display = bool(fit)
        rest = [one.suits for one in self._rows if one.suits is not None and one.suits.cannot]
        told = [f"✗ {one.bar}, {one.piece}: {write(one.cannot, self.shown)}" for one in rest]
        told = told or ([] if self._rows else list(_EMPTY))
        told += [f"? {one}" for one in not_followed(self._rack)]
        told += found_otherwise(self._rack)
        lines = [part for one in told for part in wrapped(one_line(one, Ink.QUIET), max(room, 8))]
        self.query_one(Lines).show(joined(lines or [Content("")]))

    def _row(self, row: _Row) -> Content:
        sign = SIGN if row is self._chosen else " " * len(SIGN)
        if row.bar is None:
            return Content.assemble(sign, one_line(_OWN))
        cells = bar_cells(row.bar, self.shown)
        told = "  ".join(filter(None, cells))
        if (suits := row.suits) is not None and suits.needed is not None and suits.left is not None:
            takes, left = (write_figure(one, self.shown, "=") for one in (suits.needed, suits.left))
            told = f"{cells[0]}  {cells[2]}, {cells[3]}  {suits.piece}: takes {takes}, leaves {left}"
        return Content.assemble(sign, one_line(told))

    # ── keys ─────────────────────────────────────────────────────────────────────────────────────

    def action_move(self, by: int) -> None:
        count = len(self.picks.things)
        if count:
            self._show(((self.picks.highlighted or 0) + by) % count)

    @on(Input.Submitted, "#typed")
    def _entered(self, event: Input.Submitted) -> None:
        self.action_take()

    def action_take(self) -> None:
        typed = self.query_one(Input).value.strip()
        name, colon, bar = map(str.strip, typed.partition(":"))
        if self._path is not None and (found := _SO_MANY.fullmatch(typed)):
            self._make_often(found["count"])
        elif colon and bar.lower() == GONE:
            self._enter(partial(self.coach.shop.rack.take_off, name))
        elif colon:
            self._enter(partial(self.coach.shop.rack.lay, name, bar, self.coach.shop.system or "mm"))
        elif self._path is None:
            self.tell(
                "Type a name, a colon and the bar: long-one: hexagon 19, long 500, C80.", bad=bool(typed)
            )
        elif typed:
            self._begin(self._path, typed, "")
        elif (row := self.picks.chosen) is not None:
            of = row.suits.piece if row.suits else ""
            self._begin(self._path, "", f"{of}={row.bar.name}" if row.bar is not None else "")

    def _make_often(self, count: str) -> None:
        """Let so many be made of the recipe, all from one bar."""
        often = self.attempt(partial(read_how_many, count))
        if often is not None:
            self._make = often
            self.query_one(Input).value = ""
            self._fill()
            self.tell(f"{often} are made, all from one bar: Enter begins them from the chosen one.")

    def _begin(self, path: Path, typed: str, of_rack: str) -> None:
        """Begin the job from bars as they were typed, from one of the rack, or from the recipe's own."""
        text, cuts = self.attempt(partial(self._text, path)), NO_CUTS
        if text is None:
            return
        bars = typed
        if of_rack:
            taken = self.attempt(partial(taken_from, text, path.name, self._rack, of_rack))
            if taken is None:
                return
            bars, cuts = taken.bars, taken.cuts(self._rack)
        if bars or self._make > 1:
            made = self.attempt(partial(begun_from, text, path.name, bars))
            if made is None:
                return
            text, cannot = made
            meant = f"{bars} x {self._make}"
            if cannot and self._asked != meant:
                self._asked = meant
                begins = f"{write(cannot, self.shown)} Enter again begins it all the same."
                ask(self, begins, partial(self._begin, path, typed, of_rack), self._begin_none)
                return
        begin_from(self.coach, self, path, lambda _: text, cuts)

    def _begin_none(self) -> None:
        self._asked = ""
        self.tell("Nothing is begun.")

    def action_undo(self) -> None:
        self._enter(self.coach.shop.rack.undo)

    def _enter(self, deed: Callable[[], RackTold]) -> None:
        told = self.attempt(deed)
        if told is not None:
            self.query_one(Input).value = ""
            self._fill()
            self.tell(sentence(told.did, self.shown))
