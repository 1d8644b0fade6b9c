"""What is still to be put right."""

from __future__ import annotations

from collections.abc import Iterable

from coach.bench.righting import Right
from coach.telling.clock import moment
from coach.telling.page import Table, table


def rights_table(rights: Iterable[Right]) -> Table:
    """A row for each thing: its number, when and in which step it came up, its zone and what it is."""
    rows = (
        (str(one.entry), moment(one.at), f"step {one.step}" if one.step else "", one.zone, one.text)
        for one in rights
    )
    return table(rows)
