"""Ways back onto plan: each with what it changes and what it brings; one can be taken."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.widgets import OptionList, Static

from coach.ledger.remedies import WayBack
from coach.quantities import Refusal
from coach.screens.bench_pages import BY_KEYS, STRUCK_BY_KEYS, verdict_words
from coach.screens.page_content import section_lines
from coach.screens.reply import NO_SIZE_HERE, ask
from coach.screens.screen import LiveScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.panel import Lines
from coach.screens.widgets.row_list import RowList, beside_sign
from coach.screens.wording import Ink, joined, marked, one_line, said, wrapped
from coach.telling.ways_back import brings, first_of_all, leads_to, no_way_back
from coach.telling.words import write
from coach.telling.writing import Shown

WAY_IN = {
    "key": "asterisk,ctrl+r",
    "words": "Ways back",
    "told": "Show what brings it back onto plan",
    "group": "Step",
}

#: The cells beside the list and its scroll bar.
_AROUND = 3
#: From so many cells on a chance is told to be so far, which the help says at any width (our choice).
_ROOM_FOR_SO_FAR = 70
_BEGINS_NUMBER, _OF_NUMBER = "0123456789.,", ".,/\"'"


class RemediesScreen(LiveScreen):
    """What can be done, the best first."""

    CSS_PATH = "remedies.tcss"
    NAME = "Ways back"
    TAKES_NUMBERS = True
    HELP_TEXT = """
        Ways to come back onto plan, the best first: what to do, the chance of making the drawing once it is
        done, how many extra heats it takes, whether it is good practice, and what changes. That chance is so
        far, by what is read and done, as the verdict's is; what the work still ahead may miss stands below,
        where it is much. There stands too what the chosen one leads to and what to take care of with it.

        The arrows or its number choose one. Enter asks, a second Enter takes it; any other key between
        them leaves it, and a size that is typed here is no way: sizes go into the bench. What it changes
        holds from then on, in this job alone; at the bench, Undo takes it back.
    """
    BINDINGS = [
        key("enter", "take", "Take it", "Take the chosen way", group="Write"),
        key("escape,asterisk,ctrl+r", "close", "Bench", "Go back and change nothing"),
    ]

    _told: WayBack | None = None
    _asked = ""  # the name of the one that a second Enter would take
    _number = ""  # what is typed of a number, its unit too

    def keys_now(self) -> list[Binding]:
        """There is nothing to take where there is no way."""
        return [one for one in super().keys_now() if one.action != "take" or self.picks.options]

    def compose(self) -> ComposeResult:
        self.picks = RowList[WayBack](id="ways")
        stands, words = Static("", id="stands", markup=False), Lines(can_focus=False)
        title = f"Ways back for {self.session.recipe.title}"
        yield from self.framed(title, stands, self.picks, words, AnswerLine())

    def on_resize(self) -> None:
        """All of it set for the width of the window; what is asked stays asked."""
        self._tell_stands()
        self._list(self.picks.things, self.picks.highlighted or 0)

    def _list(self, ways: Sequence[WayBack], at: int) -> None:
        room = self.app.size.width - _AROUND
        numbers = {way.name: number for number, way in enumerate(ways, 1)}
        self.picks.fill(ways, lambda way: _at_a_glance(way, numbers[way.name], self.shown, room), at)

    def _tell_stands(self) -> None:
        """Why the job stands as it does."""
        standing, room = self.session.standing(), max(self.app.size.width - 2, 1)
        told = wrapped(verdict_words(standing, self.shown), room)
        if first := first_of_all(standing, self.shown, **STRUCK_BY_KEYS):
            told += wrapped(said(first, Ink.CARE), room)
        self.query_one("#stands", Static).update(joined(told))

    def fill(self) -> None:
        """Show the ways that there are as the job stands now."""
        self._asked = ""
        ways = self.session.ways_back()
        self._tell_stands()
        self._list(ways, 0)
        self.picks.display = bool(ways)
        self.tell_keys()
        self._tell_chosen()

    @on(OptionList.OptionHighlighted)
    def _chosen_changed(self) -> None:
        # It comes of a new list too, of which something else may have been said since.
        if self.picks.chosen != self._told:
            self._asked = ""
            self._tell_chosen()

    def _tell_chosen(self) -> None:
        way, words = self.picks.chosen, self.query_one(Lines)
        self._told = way
        if way is None:
            words.show(said(no_way_back(self.session.standing(), **BY_KEYS), Ink.STRONG))
            self.tell("Esc goes back to the bench.")
            return
        words.show(joined(section_lines(leads_to(way, self.shown), width=0)))
        self.tell("Enter takes the chosen one; Esc goes back and changes nothing.")

    @on(OptionList.OptionSelected)
    def _clicked(self) -> None:
        self.action_take()

    def action_take(self) -> None:
        way = self.picks.chosen
        if way is None:
            self.action_close()
        elif self._asked != way.name:
            self._asked = way.name
            ask(self, _question(way, self.shown), partial(self._agreed, way), self.action_close)
        else:
            self._take(way)

    def _agreed(self, way: WayBack) -> None:
        if self._asked == way.name:  # the job may have moved on meanwhile
            self._take(way)

    def takes_at_once(self, event: events.Key | events.Paste) -> bool:
        """A number chooses a way; one that is none is a size, as a gauge types it, and takes none.

        Enter asks, a second takes it. Any key but those that answer takes back what was asked: its sentence
        may stand there no more.
        """
        if not isinstance(event, events.Key):
            return False
        typed, self._number, sign = self._number, "", event.character or ""
        if event.key == "enter":
            if not typed or self._is_way(typed):
                return False
            self._tell_chosen()
            self.tell(NO_SIZE_HERE, bad=True)
            return True
        if self._asked and event.key != "escape":
            self._asked = ""
            self._tell_chosen()
        if sign and (sign in _BEGINS_NUMBER or (typed and (sign.isalnum() or sign in _OF_NUMBER))):
            self._number = typed + sign
            if self._is_way(self._number):
                self.picks.highlighted = int(self._number) - 1
            return True
        return False

    def _is_way(self, typed: str) -> bool:
        return typed in [str(number) for number in range(1, min(len(self.picks.options), 9) + 1)]

    def _take(self, way: WayBack) -> None:
        try:
            answer = self.session.take(way.name)
        except Refusal as refusal:
            # It may be refused because the job has moved on meanwhile: then the list is a new one.
            self.fill()
            self.refuse(refusal)
            return
        if way.again:
            self.coach.go("shop", self.said(answer))
        else:
            self.dismiss(answer)

    def action_close(self) -> None:
        if self._asked:
            self._asked = ""
            self._tell_chosen()
        else:
            self.dismiss()


def _question(way: WayBack, shown: Shown) -> str:
    if way.again:
        return (
            "This job is set aside as it is, and the shop opens to begin another. "
            "Enter again sets it aside, Esc does not."
        )
    return f"{write(way.title, shown)}: Enter again takes it, Esc does not."


def _at_a_glance(way: WayBack, number: int, shown: Shown, width: int) -> Content:
    """What to do, what it brings and costs, what changes."""
    chance, *costs = brings(way)
    chance += " so far" if width >= _ROOM_FOR_SO_FAR else ""
    told = [
        marked(way.verdict.value),
        one_line(chance, Ink.STRONG),
        *(one_line(cost) for cost in costs),
    ]
    title, changes = write(way.title, shown), write(way.changes, shown)
    lines = [one_line(f"{number} {title}", Ink.STRONG), joined(told, "  "), one_line(changes, Ink.QUIET)]
    return beside_sign(lines, width)
