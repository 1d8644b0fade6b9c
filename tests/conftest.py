"""What every test shares: hypothesis without deadlines, and no grades left over from another test."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import settings

from coach.metals.grade import keep_to
from coach.metals.own_folders import look_in

settings.register_profile("house", deadline=None)
settings.load_profile("house")


@pytest.fixture(autouse=True)
def _no_grades_of_one_s_own() -> Iterator[None]:
    """What one test has told the coach of a smith's own grades is not there for the next."""
    yield
    look_in()
    keep_to({})
