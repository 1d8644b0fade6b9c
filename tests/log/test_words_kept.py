"""What words say of limits is kept in an entry as it was, and a hand-made one is refused in a sentence."""

from __future__ import annotations

from math import inf
from typing import Any

import pytest

from coach.log.limits import saying
from coach.quantities import Limits, Refusal, say
from coach.quantities.figure import Wanted

SAYING: Any = saying(200)


@pytest.mark.parametrize(
    "limits", [Limits(8.0, 7.0, 9.0, True), Limits(8.0, 8.0, 8.0, False), Limits(40.0, 40.0, inf, True)]
)
def test_limits_in_words_come_back_as_they_were(limits: Limits) -> None:
    words = say("Accept the {} at {:aim}", "shank side", Wanted(limits))
    assert SAYING.from_json(SAYING.to_json(words)) == words


@pytest.mark.parametrize(
    "change", [{"nominal": "8"}, {"low": 9.5}, {"stated": 1}, {"kind": "WIDTH"}, {"high": True}]
)
def test_limits_that_a_hand_has_spoiled_are_refused(change: dict[str, object]) -> None:
    held = {"nominal": 8.0, "low": 7.0, "high": 9.0, "stated": True, "kind": "LENGTH"}
    with pytest.raises(Refusal):
        SAYING.from_json(["At {:aim}", {**held, **change}])
