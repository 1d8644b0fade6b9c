"""What a picture of a piece does not show as it was read."""

from __future__ import annotations

from collections.abc import Collection

from coach.bench.pictured import Pictured


def pictured_text(drawn: Pictured, zones: Collection[str]) -> str:
    """What of a piece's zones is drawn as the step began or leaves it, for nobody has read it; "" if nothing.

    >>> pictured_text(Pictured({}, ("edge",)), ("edge", "head"))
    'edge as the step began, not read since'
    >>> pictured_text(Pictured({}, (), ("edge", "head")), ("edge", "head"))
    'edge and head as planned, not read'
    >>> pictured_text(Pictured({}), ("edge",))
    ''
    """
    told = (
        (drawn.as_it_began, "as the step began, not read since"),
        (drawn.as_planned, "as planned, not read"),
    )
    found = [(_run_on([zone for zone in some if zone in zones]), how) for some, how in told]
    return "; ".join(f"{which} {how}" for which, how in found if which)


def _run_on(zones: list[str]) -> str:
    return " and ".join(filter(None, (", ".join(zones[:-1]), *zones[-1:])))
