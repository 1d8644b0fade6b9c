"""A way back that is taken ends as it was offered, once the job is forged on with its readings on their aim.

A sample: `python -m tests.bench.ways_forged_on` tries every step, everything that goes wrong and each way.
"""

from __future__ import annotations

import pytest

from tests.bench.jobs import at_step_of
from tests.bench.test_laws import NAMES
from tests.bench.test_ways_never_stop import HAPPENINGS
from tests.bench.ways_forged_on import broken, ways

#: So many steps before the end, by the place of the recipe on the shelf: far enough for work ahead.
_BEFORE_THE_END = 7


@pytest.mark.parametrize("name", NAMES)
def test_a_way_that_is_taken_ends_as_it_was_offered(name: str) -> None:
    steps, at = len(at_step_of(name, 1).recipe.steps), NAMES.index(name)
    step = max(1, steps - _BEFORE_THE_END + at % 3)
    how = HAPPENINGS[at % len(HAPPENINGS)]
    for way in ways(name, step, how)[:2]:
        assert not list(broken(name, step, how, way))
