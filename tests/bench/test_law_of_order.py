"""The same readings in another order tell the same: every value of `where --json`, every way back."""

from __future__ import annotations

from itertools import permutations
from random import Random

import pytest

from coach.log.kinds.heat import Heat
from tests.bench.law_of_done import NAMES, Job, before, steps_of
from tests.bench.law_of_order import Typed, apart, broken, told, typed_in

#: So many rounds of readings of each recipe; `python -m tests.bench.law_of_order 5` tries more.
ROUNDS = 3


@pytest.mark.parametrize("name", NAMES)
def test_the_order_of_typing_changes_nothing_that_is_told(name: str) -> None:
    chance = Random(f"the order of {name}")
    for _ in range(ROUNDS):
        number = chance.randint(1, steps_of(name))
        one = broken(name, number, chance)
        assert one is None, str(one)


def heated(name: str, number: int, heats: int = 0) -> Job:
    """A step in hand after so many heats, the steps before it done as planned."""
    job = before(name, number, measured=False)
    for _ in range(heats):
        job = job.with_entry(Heat(step=number))
    return job


def in_two_orders(job: Job, one: list[Typed], other: list[Typed]) -> list[str]:
    """What the same readings tell otherwise in another order."""
    assert sorted(map(str, one)) == sorted(map(str, other))
    return list(apart(told(typed_in(job, one)), told(typed_in(job, other))))


def test_two_readings_that_were_stood_by_and_agree_count_as_one() -> None:
    """A tang's thickness, 5.55 and 5.57: each was taken against what the other left, for 3 points."""
    length = Typed("right tang", "length", "134.38")
    thick, other = (Typed("right tang", "thickness", mm, insisted=True) for mm in ("5.55", "5.57"))
    job = heated("drawknife", 6, 2)
    assert not in_two_orders(job, [length, thick, other], [other, length, thick])


def test_ways_back_that_are_as_good_stand_as_the_drawing_has_their_sizes() -> None:
    width, far = Typed("eye", "width", "46.10"), Typed("eye", "far_hole_length", "26.45")
    job = heated("cross-peen-hammer", 34)
    assert not in_two_orders(job, [far, width], [width, far])


def test_a_mark_read_once_more_is_no_work_between_the_other_marks() -> None:
    """A poker's nose, marked a quarter of a metre too far and stood by, once more after its shank.

    The shank, read at 973.03, was then told to lie at 975.69, and to have 0.8 mm more to spare.
    """
    nose, shank = Typed("nose", "mark", "1274.41", insisted=True), Typed("shank", "mark", "973.03")
    job = heated("coiled-stove-poker", 1)
    assert not in_two_orders(job, [nose, nose, shank], [nose, shank, nose])
    check = next(one for one in typed_in(job, [nose, shank, nose]).standing().checks if one.zone == "shank")
    assert check.expected is not None
    assert check.expected.value == pytest.approx(973.03, abs=0.2)


def test_a_mark_in_the_wrong_place_says_nothing_of_the_bars_section() -> None:
    """A mattock's neck marked 40 mm short, twice: the bar was told as 37.1 mm thick for it, not 38.

    So the other marks were wanted 4 and 14 mm further along, and a blade's that lay in its place was out.
    """
    neck, blade = Typed("neck", "mark", "156.95"), Typed("blade", "mark", "286.86")
    others = [Typed("pick", "mark", "69.94"), Typed("eye", "mark", "168.02")]
    job = heated("mattock", 1)
    wanted = {one.name: one.wanted.limits.nominal for one in job.standing().checks if one.wanted is not None}
    rounds = [blade, blade, neck, neck, *others], [neck, *others, blade, neck, blade]
    assert not in_two_orders(job, *map(list, rounds))
    for check in typed_in(job, rounds[1]).standing().checks:
        assert check.wanted is not None
        assert check.wanted.limits.nominal == pytest.approx(wanted[check.name], abs=0.01)


@pytest.mark.parametrize("name", NAMES)
def test_a_size_read_by_rule_and_by_calliper_is_one_size_whichever_was_last(name: str) -> None:
    chance = Random(f"rule and calliper on {name}")
    for _ in range(ROUNDS):
        number = chance.randint(1, steps_of(name))
        one = broken(name, number, chance, mixed=True)
        assert one is None, str(one)


def test_four_readings_by_rule_and_calliper_tell_one_tale_in_all_their_orders() -> None:
    """A drawknife's edge and width, each by both: so far stood at 28 % in some orders and at 62 in others."""
    by_rule = Typed("blade", "edge", "1.5", gauge="rule"), Typed("blade", "width", "35.5", gauge="rule")
    by_calliper = Typed("blade", "edge", "1.20"), Typed("blade", "width", "35.25")
    job = heated("drawknife", 18)
    tales = [typed_in(job, order).standing() for order in permutations([*by_rule, *by_calliper])]
    assert {one.verdict for one in tales} == {tales[0].verdict}
    assert all(one.chance == pytest.approx(tales[0].chance, abs=0.01) for one in tales)
    assert {tuple(check.verdict for check in one.checks) for one in tales} == {
        tuple(check.verdict for check in tales[0].checks)
    }


def test_that_a_rule_was_read_last_makes_no_calliper_too_coarse() -> None:
    """Wanted within 0.8 mm, a rule alone could not settle it; a calliper beside it has."""
    tine, rule = Typed("tine", "side", "6.81"), Typed("tine", "side", "7.0", gauge="rule")
    job = heated("meat-fork", 3)
    said = [
        next(check.verdict for check in typed_in(job, order).standing().checks if check.name == "tine.side")
        for order in ([tine, rule], [rule, tine])
    ]
    assert said[0] is said[1]
