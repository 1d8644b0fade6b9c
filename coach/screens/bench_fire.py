"""What the bench does at the fire: a heat out, the piece in again, and sizes read on glowing metal."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from coach.bench.answer import Answer
from coach.bench.clock import Place
from coach.bench.fire_clock import seconds_between
from coach.bench.session import Session
from coach.operations.does import HeatKind
from coach.screens.bench_gauge import GaugedScreen
from coach.screens.bench_words import heat_doubted, no_fire
from coach.telling.figures import write_figure

#: Nobody takes a second heat within so many seconds (common practice, no source).
_TOO_SOON_S = 3.0


class FireScreen(GaugedScreen):
    """The part of the bench that marks what the fire does."""

    def __init__(self, session: Session, typed: str = "") -> None:
        super().__init__(session, typed)
        self._heat_marked = 0  # the entry of the heat that was marked last

    def action_heat(self) -> None:
        self.in_turn(partial(self._heat, sure=False))

    def _heat(self, *, sure: bool) -> None:
        """A heat that the step has no use for, or that a held key may have marked, is asked about first."""
        seconds = self._since_heat()
        if not sure and seconds is not None and seconds < _TOO_SOON_S:
            doubted = f"A heat was marked {seconds:.0f} s ago."
        else:
            doubted = heat_doubted(self.session.standing(), self.session.fire_draws())
        if not sure and doubted:
            self._question = "heat"
            more = " more" if self.session.standing().heats else ""
            self._ask_this(f"{doubted} Enter marks one{more}, Esc does not.")
            return
        lay = self.session.lies_too_long(self.coach.now())
        if not sure and lay is not None:
            self._question = "night"
            told = (
                f"By the clock it lay {write_figure(lay, self.shown)} in the fire. Enter: it did, an hour of "
                "that counts as hot; Delete: the fire was out; Esc: no heat."
            )
            self._ask_this(told)
            return
        self._mark_heat(self.session.heat)

    def _mark_heat(self, heat: Callable[[], Answer]) -> None:
        self._again = ""  # of metal that is worked since nothing is read once more
        if self.enter(heat, stays=True):
            self._heat_marked = self.session.standing().last_entry
            self.choose_first_open()

    def _since_heat(self) -> float | None:
        """Seconds since the piece came out of the fire, where its clock runs or nothing was entered since.

        A step whose heats are only counted has no clock, and a key held too long marks its heats no less.
        """
        dial, standing = self._dial(), self.session.standing()
        if dial is not None:
            return dial.seconds if dial.clock.place is Place.OUT else None
        is_last = standing.last_entry == self._heat_marked
        return seconds_between(standing.last_at, self.coach.now()) if is_last else None

    def action_fire(self) -> None:
        self.in_turn(partial(self._fire, sure=False))

    def _fire(self, *, sure: bool) -> None:
        step = self.session.standing().step
        if not sure and step is not None and step.heat_kind is HeatKind.COLD and not step.heats_planned:
            self._question = "fire"
            doubted = no_fire(step, self.session.fire_draws())
            self._ask_this(f"{doubted} Enter says that the piece is in it, Esc does not.")
            return
        self._again = ""
        if self.enter(self.session.fire, stays=True):
            self.choose_first_open()

    def action_no_heat(self) -> None:
        if self._question == "night":
            self.in_turn(partial(self._mark_heat, self.session.heat_the_fire_was_out))
        else:
            self.enter_in_turn(partial(self.session.done, 0))

    def action_hot(self) -> None:
        self.in_turn(self._turn_hot)

    def _turn_hot(self) -> None:
        step, heats = self.session.standing().step, self.session.standing().heats
        if step is not None and step.heat_kind is HeatKind.COLD and not (step.heats_planned or heats):
            self.tell("This step is done cold: its sizes are read cold.", bad=True)
            return
        self.let_question_go()
        read_cold = self._read_cold
        self.read_hot(read_cold is not None or not self.reads_hot)
        if read_cold is not None:
            self.take_hot(read_cold)
            return
        how = "hot: the coach takes them back to cold" if self.reads_hot else "cold"
        self.tell(f"Readings are now taken {how}.")
        self.fill()
