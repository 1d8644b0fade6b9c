"""One decision rule: what the sheet is not sure of only seems good where the job stands, and in JSON too."""

from __future__ import annotations

import pytest

from coach.bench.sizes_came import SizeVerdict
from coach.telling.values import json_values
from tests.bench.jobs import at_step_of


# A calliper leaves 0.16 mm in doubt, so that 1.645 · 0.16 = 0.26 mm from a limit nothing is proven
# (ISO 14253-1:2017): 3 ±0.5 mm is sure at 3.0, not at 2.55 nor at 2.45.
@pytest.mark.parametrize(
    ("typed", "came", "told"),
    [
        ("3.0", SizeVerdict.WITHIN, "good"),
        ("2.55", SizeVerdict.NOT_SURE, "seems good"),
        ("2.45", SizeVerdict.NOT_SURE, "seems under"),
        ("3.45", SizeVerdict.NOT_SURE, "seems good"),
    ],
)
def test_a_size_near_a_limit_is_told_alike_everywhere(typed: str, came: SizeVerdict, told: str) -> None:
    job = at_step_of("cold-chisel", 12)
    job.read("edge.end_thickness", typed)
    standing, sheet = job.standing(), job.sheet()
    size = next(one for one in standing.sizes if one.name == "edge.end_thickness")
    assert next(one for one in sheet.sizes if one.name == size.name).verdict is came
    assert size.told == told
    as_json = json_values(size)
    assert isinstance(as_json, dict)
    assert as_json["seems"] is told.startswith("seems")
