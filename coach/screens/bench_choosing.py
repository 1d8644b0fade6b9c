"""Which size the box of the bench asks for: what is to be read next, or what was chosen by hand."""

from __future__ import annotations

from collections.abc import Sequence

from coach.bench.checks import Check
from coach.bench.in_turn import in_turn, is_to_quench_now
from coach.bench.session import Session
from coach.bench.standing import Standing
from coach.quantities import Refusal
from coach.screens.row_order import asked_unnamed, wanting, with_gone
from coach.screens.screen import LiveScreen
from coach.screens.waiting import Sent
from coach.screens.widgets.entry_box import EntryBox


class ChoosingScreen(LiveScreen):
    """Chooses the size that is read next."""

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._shown_step = -1  # what the box asks for: a step, and one of its sizes or its end
        self._shown_check: Check | None = None
        self._rows: tuple[Check, ...] = ()  # the sizes of that step, as they stood when it was asked for
        self._question = ""  # the deed that a second key press would do
        self._by_hand = False  # whether that size was chosen by a key, and nothing read since
        self._again = ""  # the size that was read last, where it is to be measured again
        self._under_way: list[Sent] = []  # not yet taken, in their order

    @property
    def _box(self) -> EntryBox:
        return self.query_one(EntryBox)

    def check_shown(self, standing: Standing) -> Check | None:
        """The size that the box asks for, as it stands now; None for the end of the step."""
        if self._shown_check is not None and self._shown_step == number_of(standing):
            name = self._shown_check.name
            self._shown_check = next((one for one in standing.checks if one.name == name), None)
        return self._shown_check

    def check_aimed_at(self, standing: Standing) -> Check | None:
        """The size that the face tells: that of the box, where it is of the step in hand.

        What is half typed keeps its own, though its step may be done or gone back from meanwhile.
        """
        check = self.check_shown(standing)
        if self._shown_step == number_of(standing):
            return check
        return next((one for one in standing.checks if not one.is_settled), None)

    def _ask(self, standing: Standing, check: Check | None) -> None:
        self._rows = with_gone(self._rows if self._shown_step == number_of(standing) else (), standing.checks)
        if self._shown_step != number_of(standing):
            self._again = ""  # it was spoken of in another step
        self._shown_step, self._shown_check = number_of(standing), check

    def choose_next(self, *, anew: bool = False) -> None:
        """Choose what is to be read next: what is unread or questioned, then what is not good.

        It is the first from the size shown on, and round to it again, as a smith goes round a piece; of a
        piece that is to be quenched, what is tried on quenched steel, as the large text says. What is being
        typed keeps its size, whatever is entered meanwhile; `anew` gives it one where it has none.
        """
        standing = self.session.standing()
        in_hand = self._shown_step == number_of(standing)
        if self._box.size_typed and self._shown_step >= 0 and not (anew and in_hand):
            return
        sent = {one.of for one in self._under_way}
        checks = [one for one in self._from_the_one_shown(standing) if one.name not in sent]
        name = wanting(checks, self._again if in_hand else "")
        self._ask(standing, next((one for one in checks if one.name == name), None))

    def _from_the_one_shown(self, standing: Standing) -> Sequence[Check]:
        checks = in_turn(standing)
        names = [one.name for one in checks]
        shown = self._shown_check.name if self._shown_check is not None else ""
        goes_round = self._shown_step == number_of(standing) and not is_to_quench_now(standing)
        at = names.index(shown) if goes_round and shown in names else 0
        return asked_unnamed(self.session, (*checks[at:], *checks[:at]))

    def choose_first_open(self) -> None:
        """Choose the first row in turn that is to be read, as a smith begins at the top with a new heat.

        What is typed behind the fire in one go then stands where its rows stand, whatever was asked for
        before. What was chosen by hand, or is being typed, keeps its place.
        """
        if self._by_hand or self._box.size_typed:
            return
        standing = self.session.standing()
        checks = asked_unnamed(self.session, in_turn(standing))
        if found := next((one for one in checks if one.is_open), None):
            self._ask(standing, found)

    def action_choose(self, by: int) -> None:
        standing = self.session.standing()
        choices = [*standing.checks, None]
        check = self.check_shown(standing)
        at = choices.index(check) if check in choices else 0
        self._ask(standing, choices[(at + by) % len(choices)])
        self._by_hand = True
        self._question = self._again = ""
        self.fill()

    def _choose(self, name: str) -> None:
        """Ask for a size by its name."""
        standing = self.session.standing()
        if name not in (names := [one.name for one in standing.checks]):
            raise Refusal("Type what it measures too, such as {}=31.5.", name)
        self._ask(standing, standing.checks[names.index(name)])
        self._by_hand = True
        self._question = self._again = ""
        self.fill()


def number_of(standing: Standing) -> int:
    """The number of the step in hand; 0 once every step is done."""
    return standing.step.number if standing.step is not None else 0
