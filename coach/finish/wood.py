"""How much a haft shrinks as its wood dries."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Final, NamedTuple

from coach.quantities.checks import check_share, check_size
from coach.quantities.errors import not_known
from coach.quantities.refusal import OutOfRange

#: Above this moisture, in per cent of the dry wood, wood keeps its size; the handbook's usual figure (from
#: memory, with high confidence).
FIBRE_SATURATION_PERCENT: Final = 30.0

#: Green wood can hold more water than it has substance; nothing above this is a reading of moisture.
MOST_MOISTURE_PERCENT: Final = 300.0


class Wood(NamedTuple):
    """A wood and what it shrinks from green to oven-dry, as shares of its green size."""

    name: str
    radial_share: float  # across the growth rings
    tangential_share: float  # along them
    source: str  # with how far it is confirmed, in brackets at its end


def shrinkage_mm(
    size_mm: float,
    share: float,
    from_moisture: float,
    to_moisture: float,
) -> float:
    """What a size of wood loses, in mm, between two moistures in per cent; below 0 where it swells.

    ΔD = D S₀ (M₁ - M₂) / M_fs, from S_M = S₀ (M_fs - M) / M_fs: `size_mm` is the size at the first
    moisture, `share` S₀ the shrinkage from green to oven-dry, and moisture above fibre saturation counts as
    fibre saturation. Taken from the size as measured rather than the green size, it is too small by no more
    than S₀ of itself. Raises OutOfRange for a moisture outside 0 to 300 %.
    Source: Wood Handbook, FPL-GTR-190, chapter 4 (from memory, with high confidence).

    A hickory haft of 25 mm, tangential, from 12 % to 6 %:

    >>> round(shrinkage_mm(25, wood("pignut hickory").tangential_share, 12, 6), 3)
    0.575
    """
    check_size(size_mm, "size of the wood")
    check_share(share, "shrinkage", may_be_nothing=True)
    for moisture in (from_moisture, to_moisture):
        if not 0.0 <= moisture <= MOST_MOISTURE_PERCENT:
            raise OutOfRange(
                f"A moisture of wood lies from 0 to {MOST_MOISTURE_PERCENT:g} % of its dry weight, not at "
                f"{moisture:g} %; air-dry wood has 12 to 18 %."
            )
    dried = min(from_moisture, FIBRE_SATURATION_PERCENT) - min(to_moisture, FIBRE_SATURATION_PERCENT)
    return size_mm * share * dried / FIBRE_SATURATION_PERCENT


def wood(name: str) -> Wood:
    """The wood of this name, whatever the case and blanks; raises NotKnown, which names the nearest.

    >>> wood("White  Ash").tangential_share
    0.078
    """
    asked = " ".join(name[:120].casefold().split())
    if asked in _by_name():
        return _by_name()[asked]
    raise not_known("shrinkage for a wood", name, {one: one for one in _by_name()})


def wood_called(name: str) -> Wood:
    """The wood of this name, or the most used one that has it in its name; raises NotKnown."""
    asked = name.casefold().split()
    for one in woods():
        if asked and set(asked) <= set(one.name.split()):
            return one
    return wood(name)


def woods() -> tuple[Wood, ...]:
    """Every wood whose shrinkage is known, those most used for hafts first."""
    return tuple(_by_name().values())


@cache
def _by_name() -> dict[str, Wood]:
    import tomllib

    told = tomllib.loads(Path(__file__).with_suffix(".toml").read_text(encoding="utf-8"))
    return {
        name: Wood(name, radial_percent / 100.0, tangential_percent / 100.0, told["sources"][by])
        for name, (radial_percent, tangential_percent, by) in told["woods"].items()
    }
