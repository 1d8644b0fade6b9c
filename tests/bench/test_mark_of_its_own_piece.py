"""Two arms marked out in one row: a mark of the second that lies inside the first is no mark of it.

By hand: an arm takes 194 mm of a bar of 20 x 20 mm, so the second's jaw, 22 mm long, is marked at 216.
"""

from __future__ import annotations

import pytest

from coach.bench.entering import EntryFault
from tests.bench.jobs import at_step_of


def test_a_mark_measured_from_the_first_arm_s_end_is_not_entered() -> None:
    job = at_step_of("bolt-tongs", 2)
    with pytest.raises(EntryFault, match="arm 2 begins at 194 mm, and what is before that is another piece"):
        job.read("arm 2 jaw.mark", "22")
    job.read("arm 2 jaw.mark", "216")
    assert job.standing().checks[0].reading is not None


def test_where_the_first_was_marked_shorter_the_second_begins_there() -> None:
    """The first arm's row ends at 180, so the second's jaw lies at 202; 190 is off its mark, but its own."""
    job = at_step_of("bolt-tongs", 1)
    job.read("arm 1 rein.mark", "180", insist=True)
    job.done()
    with pytest.raises(EntryFault, match="begins at 180 mm"):
        job.read("arm 2 jaw.mark", "179")
    job.read("arm 2 jaw.mark", "190")
