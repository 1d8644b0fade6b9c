"""A smith's own tempering curve: a published one, as much higher or lower as his own readings say.

The offset in HRC is believed as a normal distribution about the table, as doubtful as that is. Each reading
moves it and leaves it less doubtful. None is forgotten, and in which order they come makes no difference, but
for those of a file, and there but little.
"""

from __future__ import annotations

from math import hypot, inf, sqrt
from typing import Final, NamedTuple

from coach.metals.tempering_table import TemperingRow
from coach.quantities.figure import COVERAGE, Figure, Kind
from coach.quantities.normal import below, density
from coach.quantities.words import run_on, say

#: How hard a new file is: JIS B 4703 asks for 62 HRC at the least, and few are harder than 65 (from memory).
FILE_IS_HRC: Final = (62.0, 65.0)
#: A sharp one skates on steel of about so many HRC and more, and bites on softer (from memory).
FILE_HRC: Final = 60.0
#: One standard deviation of that, by the file and the hand (judgement).
FILE_DOUBT_HRC: Final = 2.5
#: An offset smaller than this is not worth telling (our choice).
_WORTH_TELLING_HRC: Final = 0.5


class OwnCurve(NamedTuple):
    """How far the smith's own curve of one steel lies above the published one."""

    offset_hrc: float
    doubt_hrc: float  # one standard deviation
    harder_doubt_hrc: float | None = None  # the same to the harder side, where a file only told of the softer

    def at_first(self, known: OwnCurve | None) -> OwnCurve:
        """The curve that a job begins with where other jobs have taught one; no more in doubt than this."""
        return self if known is None else OwnCurve(known.offset_hrc, min(known.doubt_hrc, self.doubt_hrc))

    def after_tester(self, expected_hrc: float, read_hrc: float, doubt_hrc: float) -> OwnCurve:
        """The same after a hardness was measured where the published curve gives `expected_hrc`.

        The offset goes part of the way to what was read, by the two doubts: K = P / (P + R). Source: the
        scalar Kalman update, A. Gelb, Applied Optimal Estimation, 1974, 4.2 (from memory).

        >>> then = OwnCurve(0.0, 1.0).after_tester(57.0, 59.0, 1.0)
        >>> round(then.offset_hrc, 2), round(then.doubt_hrc, 2)
        (1.0, 0.71)
        """
        variance = self.doubt_hrc**2
        gain = variance / (variance + doubt_hrc**2)
        off = read_hrc - expected_hrc - self.offset_hrc
        return OwnCurve(self.offset_hrc + gain * off, sqrt((1.0 - gain) * variance))

    def after_file(
        self, expected_hrc: float, *, skates: bool, doubt_hrc: float = 0.0, most_hrc: float = inf
    ) -> OwnCurve:
        """The same after a file was tried where the published curve gives `expected_hrc`.

        A file that skates says "at least FILE_HRC", one that bites "less": the mean and the deviation of the
        normal distribution that is left. What it had to be expected to do moves it hardly at all. One that
        skates tells nothing of how much harder it may be, and lifts the offset to `most_hrc` at the most:
        that of the same steel hardened right through. Source:
        moments of a normal distribution times a cumulative one, C. E. Rasmussen and C. K. I. Williams,
        Gaussian Processes for Machine Learning, 2006, eq. 3.85 and 3.86 (from memory).

        >>> OwnCurve(0.0, 1.0).after_file(52.0, skates=True).offset_hrc > 0.5
        True
        """
        sign = 1.0 if skates else -1.0
        variance = self.doubt_hrc**2
        whole = hypot(self.doubt_hrc, FILE_DOUBT_HRC, doubt_hrc)
        z = sign * (expected_hrc + self.offset_hrc - FILE_HRC) / whole
        hazard = _hazard(z)
        offset = self.offset_hrc + sign * variance / whole * hazard
        left = variance * (1.0 - variance / whole**2 * hazard * (z + hazard))
        if not skates:
            return OwnCurve(offset, sqrt(max(left, 0.0)))
        offset = min(offset, max(most_hrc, self.offset_hrc))
        return OwnCurve(offset, sqrt(max(left, 0.0)), self.harder_doubt_hrc or self.doubt_hrc)

    def row(self, published: TemperingRow) -> TemperingRow:
        """The published row as the smith's own: higher or lower, and as doubtful as it is now."""
        whole_hrc = untaught(published).doubt_hrc
        share, harder_share = (
            min(doubt / whole_hrc, 1.0) for doubt in (self.doubt_hrc, self.harder_doubt_hrc or self.doubt_hrc)
        )
        own = published._replace(
            points=tuple((at_c, hrc + self.offset_hrc) for at_c, hrc in published.points),
            up_to=tuple((at_c, hrc + self.offset_hrc) for at_c, hrc in published.up_to),
            down_to=tuple((at_c, hrc + self.offset_hrc) for at_c, hrc in published.down_to),
            softer_hrc=published.softer_hrc * share,
            beyond_hrc=published.beyond_hrc * share,
            harder_hrc=published.harder_hrc * harder_share,
        )
        if abs(self.offset_hrc) < _WORTH_TELLING_HRC:
            return own
        way = "harder" if self.offset_hrc > 0.0 else "softer"
        told = say(
            "Your own readings make it {} {} than the table.",
            Figure(abs(self.offset_hrc), Kind.HARDNESS),
            way,
        )
        return own._replace(stands=run_on((published.stands, told)))


def untaught(row: TemperingRow) -> OwnCurve:
    """Before any reading: the table's own, as doubtful as it says to both sides together."""
    return OwnCurve(0.0, hypot(row.softer_hrc, row.harder_hrc) / sqrt(2.0) / COVERAGE)


def _hazard(z: float) -> float:
    """φ(z) / Φ(z) of the standard normal distribution, also where Φ is next to nothing."""
    share = below(z)
    # Far out in the tail it is -z, and a little more (computed).
    return density(z) / share if share > 1e-12 else -z + 1.0 / max(-z, 1.0)
