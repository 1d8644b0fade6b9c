"""Something happened that no step was to do: what, to which zone, and what that does to the job."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from coach.bench.answer import Answer
from coach.bench.bent import NOT_MEASURED
from coach.bench.losing import LossAsked
from coach.log.kinds.metal_lost import TOOK
from coach.screens.asking import AskingScreen, Question
from coach.telling.file_amended import change_section
from coach.telling.lost import failed_section, loss_section
from coach.telling.page import Line, Section, section
from coach.telling.words import write

WAY_IN = {
    "key": "insert,ctrl+k",
    "words": "Happened",
    "told": "Enter lost metal, a crack or a fall",
    "group": "Write",
}
_ENDS: Final = ("far end", "near end")
_LOST: Final = "metal is gone"
#: What a test of the shop would find, by how a smith says it.
_CRACK: Final = "a crack"
_OPEN: Final = "a weld is open"
_TESTS: Final = {_CRACK: "crack_test", _OPEN: "weld_line"}
_BENT: Final = "bent or dropped"
_GIVEN_UP: Final = "a piece is given up"
#: Each keeps its number in every job: a hand learns it.
_KINDS: Final = (_LOST, _CRACK, _BENT, _OPEN, _GIVEN_UP)
# Why one of them cannot be now.
_NO_WELD: Final = "No weld of this job is made yet: type another number."
_NO_PIECE: Final = "No piece of it can be given up by itself: set the job aside, or type another number."
# What is told where something else is typed than can be chosen.
_WHAT: Final = "What happened is one of {choices}, not {typed}: type its number."
_ZONES: Final = "The piece has no zone {typed} at this moment: type {choices}."
_WELDED: Final = "Nothing is welded on at {typed}: type {choices}."
_PIECES: Final = "The pieces that can be given up are {choices}, not {typed}: type a number."
_TOOK: Final = "What took it is one of {choices}, not {typed}: type its number."
_END: Final = "An end is {choices}, not {typed}."
_BY: Final = "By how much: a bow such as 3, or an angle such as 10 deg"


class HappenedScreen(AskingScreen):
    """Asks what happened and to what, shows how the job stands with it, and enters it."""

    NAME = "It happened"
    HELP_TEXT = """
        What no step was to do. Metal is gone: an end that burnt, a corner that cracked off, a cold shut that
        was cut out; say of which zone, how much, as a length of its end, as a weight, or as a corner by how
        far it goes along the end and along the side, and what took it. Of an end that runs out to a point
        what is left is thicker, and is told so. A weld is open, or there is a crack: it counts as that test,
        failed. Bent or dropped: it goes on the list to put right, with how much, and what takes that out.
        Of several pieces one is given up: its steps ahead are left out, and the others do not wait for it.

        At the end the coach says how the job stands with it; nothing is entered yet. Enter enters it, the
        ways back at the bench go by it, and Undo takes it back. Esc goes back one question.
    """
    FIRST_TELLS = "A number, ↑ or ↓ choose. Of metal, only what is gone besides the steps' own losses."
    MUST_BE_TOLD = (
        "Type how much is gone: a length of its end, such as 12, a weight, such as 30 g, or a corner."
    )
    ENTERS = ("Enter it?", "enters it")
    TELLS_AT_END = "Nothing is entered yet. Enter enters it; Undo at the bench takes it back."
    IN_DOUBT = ("amount", "by")

    def title_told(self) -> str:
        return f"It happened to {self.session.recipe.title}"

    def questions(self) -> Sequence[Question]:
        """What, then where; of metal how much, by what, and which end only where two are free."""
        welded, pieces = self.session.welds_there(), self._may_be_given_up()
        closed = ((_OPEN, _NO_WELD),) * (not welded) + ((_GIVEN_UP, _NO_PIECE),) * (not pieces)
        asked_first = Question("what", "What happened", _LOST, _KINDS, among=_WHAT, closed=closed)
        what = self.told.get("what", _LOST)
        if what == _GIVEN_UP:
            asks = "Which piece: ↑ and ↓ show others"
            return [asked_first, Question("piece", asks, pieces[0], pieces, among=_PIECES)]
        if _TESTS.get(what) == "weld_line":
            zones, told = welded, _WELDED
        else:
            zones, told = self.session.zones_there(), _ZONES
        found = [
            asked_first,
            Question("zone", "To which zone: ↑ and ↓ show others", zones[0], zones, among=told),
        ]
        if what == _BENT:
            return [*found, Question("by", _BY, NOT_MEASURED, (NOT_MEASURED,))]
        if what != _LOST:
            return found
        found += [
            Question("amount", "How much of it: a length of its end, 30 g, or corner 12 x 8"),
            Question("cause", "What took it: ↑ and ↓ show others", TOOK[0], TOOK, among=_TOOK),
        ]
        if self.session.ends_freely_twice(self.told.get("zone", "")):
            asks = "Which end, by the bar's marks: ↑ and ↓ show both"
            found.append(Question("end", asks, _ENDS[0], _ENDS, among=_END))
        return found

    def _may_be_given_up(self) -> tuple[str, ...]:
        """The pieces that the others can do without, the one in hand first."""
        hand, found = self.session.piece_in_hand(), self.session.may_be_given_up
        return tuple(sorted(found, key=lambda one: one != hand))

    def comes_of_it(self) -> Section:
        told = self.told
        if told["what"] == _GIVEN_UP:
            return change_section(self.session.change_told(f"give up {told['piece']}"), self.shown)
        if told["what"] == _LOST:
            return loss_section(self.session.loss(self._asked()), self.shown)
        if test := _TESTS.get(told["what"]):
            return failed_section(self.session.if_failed(told["zone"], test), self.shown)
        return section(f"To put right: {told['zone']}", [Line(self._bent())])

    def entered(self) -> Answer:
        told = self.told
        if told["what"] == _GIVEN_UP:
            return self.session.change(f"give up {told['piece']}")
        if told["what"] == _LOST:
            return self.session.lose(self._asked())
        if test := _TESTS.get(told["what"]):
            return self.session.read(f"{told['zone']}.{test}", "fail")
        return self.session.to_right(self._bent(), told["zone"])

    def _bent(self) -> str:
        return write(self.session.bent_by(self.told["zone"], self.told["by"]), self.shown)

    def _asked(self) -> LossAsked:
        told = self.told
        return LossAsked(told["zone"], told["amount"], told["cause"], told.get("end") == _ENDS[1])
