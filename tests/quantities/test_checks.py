"""What a size or a share must keep to."""

from __future__ import annotations

import pytest

from coach.quantities.checks import check_share, check_size
from coach.quantities.refusal import OutOfRange


def test_nothing_is_taken_only_where_it_may_be() -> None:
    check_share(0.0, "share", may_be_nothing=True)
    check_size(0.0, "gap", may_be_nothing=True)
    with pytest.raises(OutOfRange, match="must be above 0 and to 1, not 0"):
        check_share(0.0, "share")
    with pytest.raises(OutOfRange, match="must be more than 0, not 0 mm"):
        check_size(0.0, "gap")


@pytest.mark.parametrize("share", [-0.1, 1.1, float("nan")])
def test_what_is_no_share_is_refused(share: float) -> None:
    with pytest.raises(OutOfRange, match=r"0\.5 means the half"):
        check_share(share, "share", may_be_nothing=True)


@pytest.mark.parametrize("size_mm", [-1.0, float("inf"), float("nan")])
def test_what_is_no_size_is_refused(size_mm: float) -> None:
    with pytest.raises(OutOfRange, match="must be 0 or more"):
        check_size(size_mm, "gap", may_be_nothing=True)
