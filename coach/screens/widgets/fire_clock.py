"""The clock of the heat in hand: how long the metal can still be worked, or how long it has soaked."""

from __future__ import annotations

from contextlib import suppress

from textual.color import Color

from coach.bench.clock import HeatClock, Place
from coach.fire.colours import HEAT_COLOURS
from coach.fire.glow import glow_rgb
from coach.fire.srgb import readable_on
from coach.quantities.between import between
from coach.quantities.refusal import OutOfRange
from coach.screens.widgets.big_number import BigNumber
from coach.screens.wording import Ink, one_line
from coach.telling.clock import soak_words
from coach.telling.words import write
from coach.telling.writing import Shown, write_temperature

#: Past its time by so much, a heat is over and the clock that was forgotten goes.
_FORGOTTEN_S = 300.0
#: A piece left in the fire for longer than this was left there to rest.
_LEFT_LYING_S = 3600.0


class FireClock(BigNumber):
    """Large numerals in the colour that the metal has now; a word says what to do when the time is up."""

    _rung = ""  # the heat whose bell has rung
    words = ""
    """What the clock says, on one line; empty while it does not run."""

    def tell(self, clock: HeatClock | None, seconds: float, shown: Shown) -> bool:
        """Show where the piece is so many seconds after it was said, None when nothing was.

        Returns True when the bell should ring now.
        """
        if clock is None or is_forgotten(clock, seconds):
            self.display = False
            self.words = ""
            return False
        self.display = True
        self.border_title = clock.place.capitalize()
        number, word, celsius = reading_of(clock, seconds)
        told = (
            "" if celsius is None else f"{HEAT_COLOURS.name_of(celsius)}, {write_temperature(celsius, shown)}"
        )
        self.show(one_line(word, Ink.STRONG), number, one_line(told, Ink.QUIET))
        self._tint(celsius)
        self.words = " · ".join(part for part in (f"{word} {number}", told) if part)
        if clock.place is Place.IN and clock.soak is not None:
            self.words = f"In the fire {number} · {word[:1].lower()}{word[1:]}"
        rings = is_due(clock, seconds) and self._rung != clock.since
        if rings:
            self._rung = clock.since
        return rings

    def _tint(self, celsius: float | None) -> None:
        """The numerals stand on the colour that the metal should have."""
        styles = self._digits.styles
        with suppress(OutOfRange):
            glow = glow_rgb(celsius) if celsius is not None else None
            styles.background = Color(*glow) if glow is not None else None
            styles.color = Color.parse(readable_on(glow)) if glow is not None else None


def is_forgotten(clock: HeatClock, seconds: float) -> bool:
    """Whether nobody can mean this clock any more."""
    if clock.place is Place.IN:
        return seconds > _LEFT_LYING_S
    return seconds > (clock.working.value if clock.working is not None else 0.0) + _FORGOTTEN_S


def is_due(clock: HeatClock, seconds: float) -> bool:
    """Whether the time is up: too cold to work, or soaked through."""
    lasts = clock.working if clock.place is Place.OUT else clock.soak
    return lasts is not None and seconds >= lasts.value


def reading_of(clock: HeatClock, seconds: float) -> tuple[str, str, float | None]:
    """What the clock says: the number, the word, and the metal's temperature in °C where it is known."""
    due = is_due(clock, seconds)
    if clock.place is Place.IN:
        soak = write(soak_words(clock)).capitalize() or "In the fire"
        return minutes_text(seconds), "Through: take it out" if due else soak, None
    celsius = _now_c(clock, seconds)
    if clock.working is None:
        return minutes_text(seconds), "Work while it glows", celsius
    left = abs(clock.working.value - seconds)
    return minutes_text(left), "Back to the fire" if due else "Work", celsius


def minutes_text(seconds: float) -> str:
    """A clock's minutes and seconds.

    >>> minutes_text(83.2)
    '1:23'
    """
    minutes, rest = divmod(int(seconds), 60)
    return f"{minutes}:{rest:02d}"


def _now_c(clock: HeatClock, seconds: float) -> float | None:
    """The surface on its way down; once it has come to where work stops, that."""
    if not clock.cooling:
        return None
    (first_s, first_c), (last_s, last_c) = clock.cooling[0], clock.cooling[-1]
    if first_s < seconds < last_s:
        return between(clock.cooling, seconds)
    return first_c if seconds <= first_s else last_c
