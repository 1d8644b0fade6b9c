"""A figure of the shop as its jobs before have taught it: what a new job begins with."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import line, number, one_of, whole, writing
from coach.quantities.figure import Figure, Kind
from coach.quantities.words import Words, counted, say

#: The name of a figure, and the figures themselves, are never longer or further off than this (our choice).
LONGEST_FIGURE, _FURTHEST, _LEAST_DOUBT = 60, 1e4, 1e-6
_MOST_JOBS, _LONGEST_NAMES = 1000, 2000

_KINDS = {one.unit: one for one in (Kind.FACTOR, Kind.TIME, Kind.FINE, Kind.HARDNESS)}
_TOLD = {
    "scale": "scale (× reckoned)",
    "spread": "spread (above published)",
    "fullness": "fullness (× what sizes make)",
    "pace": "time a heat",
    "heats": "heats (× planned)",
    "hand": "hand (× usual scatter)",
}


_TEMPER = "temper-"
_BLOWS = "blows-"


class ShopKnown(Body):
    """A figure that is known from other jobs. Struck out, what is published counts again."""

    CALLED = "a figure of the shop that is known"
    IS_WEIGHED = True
    UNDONE_IN_TURN = False

    #: `scale`, `spread`, `fullness`, `pace`, `heats`, a gauge, `temper-STEEL-COLUMN`, `blows-OPERATION`
    what: str = line(LONGEST_FIGURE)
    unit: str = one_of(*_KINDS)
    value: float = number(-_FURTHEST, _FURTHEST)  # as it is reckoned with
    doubt: float = number(_LEAST_DOUBT, _FURTHEST)  # standard uncertainty of that for one more job
    jobs: int = whole(1, _MOST_JOBS)  # so many have taught it
    names: str = writing(_LONGEST_NAMES)  # which

    @property
    def changes_earlier(self) -> bool:
        """See Body."""
        return True

    @property
    def is_of_temper(self) -> bool:
        """Whether it is how far a steel's own tempering curve lies above the published one."""
        return self.what.startswith(_TEMPER)

    @property
    def figure(self) -> Figure:
        """The figure with its doubt."""
        return Figure(self.value, _KINDS[self.unit], self.doubt)

    def words(self) -> Words:
        """See Body."""
        return say("the shop's own {}", self.in_short())

    def in_short(self) -> Words:
        """The figure, and how many jobs it rests on."""
        return say("{} {:±}, {}", figure_of_shop(self.what), self.figure, counted(self.jobs, "job"))


def temper_name(steel: str, column: str) -> str:
    """What the figure of one steel's tempering is called, by the column of what was tempered.

    >>> temper_name("silicon-manganese spring steel", "oil")
    'temper-silicon-manganese-spring-steel-oil'
    """
    return f"{_TEMPER}{steel}-{column}".replace(" ", "-")


def blows_name(operation: str) -> str:
    """What the figure of the blows a heat is called, by the operation that they are struck in.

    >>> blows_name("set down")
    'blows-set-down'
    """
    return f"{_BLOWS}{operation}".replace(" ", "-")


def struck_in(what: str) -> str:
    """The operation of a figure of blows a heat; "" for any other figure.

    >>> struck_in("blows-set-down"), struck_in("scale")
    ('set down', '')
    """
    return what.removeprefix(_BLOWS).replace("-", " ") if what.startswith(_BLOWS) else ""


def figure_of_shop(what: str) -> str:
    """A figure of the shop by its name, as it is spoken of.

    >>> figure_of_shop("pace"), figure_of_shop("rule"), figure_of_shop("temper-C45-oil")
    ('time a heat', 'rule (reads too much)', 'temper-C45-oil (above published)')
    >>> figure_of_shop("blows-set-down")
    'blows-set-down (a heat)'
    """
    if struck_in(what):
        return f"{what} (a heat)"
    if what.startswith(_TEMPER):
        return f"{what} (above published)"
    return _TOLD.get(what, f"{what} (reads too much)")
