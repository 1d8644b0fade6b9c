"""The drawing as it can be expected to come out, and the metal to spare for it."""

from __future__ import annotations

from collections.abc import Iterable

from coach.ledger.verdict import ON_PLAN_CHANCE, SizeState
from coach.ledger.zone_forecast import FinishedSize, Spare
from coach.quantities import Figure
from coach.quantities.figure import COVERAGE
from coach.telling.figures import write_figure, write_wanted
from coach.telling.page import Row, Table, Tone
from coach.telling.writing import Shown


def sizes_table(sizes: Iterable[FinishedSize], shown: Shown) -> Table:
    """Every size of the drawing: what is wanted, what is expected, and where that is not within it."""
    rows = tuple(_size_row(size, shown) for size in sizes)
    return Table(rows, ("", "wanted", "expected", ""), gives=0, leaves=(1,))


def _size_row(size: FinishedSize, shown: Shown) -> Row:
    wanted, expected = write_wanted(size.wanted, shown), expected_text(size, shown)
    return Row((size.label, wanted, expected, size.told), tone_of(size))


def tone_of(size: FinishedSize) -> Tone:
    """Plain where it is good; bad outside its limits, and care where either only seems so."""
    if size.told != size.state.value:
        return Tone.CARE
    return Tone.PLAIN if size.state is SizeState.GOOD else Tone.BAD


def expected_text(size: FinishedSize, shown: Shown) -> str:
    """What a size is expected to be, with its doubt.

    What takes up the metal that is left is steered to its limits by the section that is worked: where it is
    good, a doubt wider than they are would say of the hand what only holds for a hand that does not look.
    """
    doubt, limits = size.expected.doubt or 0.0, size.wanted.limits
    steered = size.take_up and not size.measured and size.state is SizeState.GOOD
    if steered and COVERAGE * doubt > max(limits.high - limits.nominal, limits.nominal - limits.low):
        return f"about {write_figure(size.expected, shown)}"
    return write_figure(size.expected, shown, "±")


def spares_table(spares: Iterable[Spare], shown: Shown) -> Table:
    """The spare or the shortage in every dimension that it may show in."""
    return Table(tuple(Row((one.label, spare_text(one.spare, shown)), spare_tone(one)) for one in spares))


def spare_text(spare: Figure, shown: Shown) -> str:
    """Spare or shortage and what there is of it for certain: "12 mm (at least 5 mm)".

    >>> from coach.quantities import mm
    >>> spare_text(mm(12.2, 4.0), Shown()), spare_text(mm(-4.1, 3.0), Shown())
    ('12 mm (at least 6 mm)', 'short by 4 mm (may be 9 mm)')
    """
    least = spare.at_least
    if spare.value >= 0.0:
        return f"{write_figure(spare, shown)} (at least {write_figure(least, shown)})"
    short, may_be = (write_figure(one._replace(value=-one.value), shown, "hair") for one in (spare, least))
    return f"short by {short} (may be {may_be})"


def spare_tone(spare: Spare) -> Tone:
    """Good where there is metal for certain, or the verdict has it so; bad where some is missing.

    A zone may take its metal up in several sizes, each told with the others as they are: one of them alone
    may fall short without the zone being tight.
    """
    if spare.spare.value < 0.0:
        return Tone.BAD
    is_tight = spare.spare.at_least.value < 0.0 and spare.chance < ON_PLAN_CHANCE
    return Tone.CARE if is_tight else Tone.PLAIN
