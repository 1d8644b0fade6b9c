"""What is said of a size whose zone is not there, or is not said where there are several."""

from __future__ import annotations

from collections.abc import Iterable

from coach.quantities.errors import did_you_mean, odd_in


def no_such_zone(typed: str, zones: Iterable[str], drawing: Iterable[str]) -> str:
    """The sentence for a zone as it was `typed`, empty where none was.

    Args:
        typed: what stood before the point.
        zones: as they may be typed.
        drawing: as they are called.
    """
    zones, called = [*zones], ", ".join(drawing)
    such_as = f"write zone.dimension, such as {zones[0]}.length"
    if not typed:
        return f"Of which zone is it? Here {such_as}; the zones are {called}."
    zone = typed.lower().replace(" ", "_")
    hint = did_you_mean(zone, zones, f"the zones are {called}.")
    return f"There is no zone called {typed[:30]!r}{odd_in(zone)}; {such_as}; {hint}"
