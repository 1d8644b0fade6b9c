"""What a calliper reads, typed without its point where the smith has set that: 184 is 18.4 mm."""

from __future__ import annotations

import re

from coach.bench.checks import Check
from coach.operations.gauges import FINEST
from coach.quantities import Kind
from coach.settings import set_now
from coach.settings.table import TENTHS, WHOLE_NUMBERS

_WHOLE = re.compile(r"\s*(\d*)(\d)\s*", re.ASCII)


def is_in_tenths(check: Check | None, gauge: str | None, system: str) -> bool:
    """Whether a bare whole number counts tenths at a size that is read with this gauge; None is its own.

    A rule is read to the millimetre, and inches are no tenths of anything: there it never does.
    """
    if check is None or check.kind is not Kind.LENGTH or system != "mm":
        return False
    return (gauge or check.gauge) == FINEST and set_now().get(WHOLE_NUMBERS) == TENTHS


def with_its_point(typed: str) -> str:
    """A bare whole number with the point that was left out; anything else as it stands.

    >>> [with_its_point(typed) for typed in ("184", "7", "18.4", "184 mm", "3/4")]
    ['18.4', '0.7', '18.4', '184 mm', '3/4']
    """
    found = _WHOLE.fullmatch(typed)
    return f"{found[1] or '0'}.{found[2]}" if found else typed
