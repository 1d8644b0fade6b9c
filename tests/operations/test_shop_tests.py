"""Each test of the shop stands in a file of its own, by whose name a checkpoint asks for it."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.operations import shop_tests
from coach.operations.does import Does
from coach.operations.shop_test import Result
from coach.operations.shop_tests import SHOP_TESTS


def test_every_test_is_found_by_its_file() -> None:
    files = {path.stem for path in Path(shop_tests.__file__).parent.glob("*.py")} - {"__init__"}
    assert set(SHOP_TESTS) == files
    assert files >= {
        "bend_test",
        "chop_test",
        "crack_test",
        "etch",
        "file_test",
        "flex_test",
        "head_test",
        "magnet",
        "ring_test",
        "weld_line",
    }
    assert len(SHOP_TESTS) == len(list(SHOP_TESTS.items())) == len(files)


@pytest.mark.parametrize("key", SHOP_TESTS)
def test_each_says_what_passes_and_what_to_do_where_it_does_not(key: str) -> None:
    test = SHOP_TESTS[key]
    assert "pass when" in test.how
    assert test.after_doubt
    assert test.after_fail


@pytest.mark.parametrize(
    ("key", "mended_by"),
    [
        ("flex_test", (Does.TEMPERS, Does.QUENCHES)),
        ("weld_line", (Does.JOINS, Does.CLOSES)),
        ("head_test", (Does.FITS_A_HAFT,)),
        ("crack_test", ()),
    ],
)
def test_what_mends_a_failure_comes_the_gentlest_first(key: str, mended_by: tuple[Does, ...]) -> None:
    assert SHOP_TESTS[key].mended_by == mended_by


def test_there_is_none_of_another_name() -> None:
    assert "base" not in SHOP_TESTS
    with pytest.raises(KeyError):
        SHOP_TESTS["weld line"]


@pytest.mark.parametrize("result", Result)
def test_a_result_is_kept_as_a_number_and_found_again(result: Result) -> None:
    assert Result.of(result.size) is result
    assert Result.read(result.value) is result


def test_who_is_told_to_grind_a_crack_out_is_told_that_the_piece_can_part_at_the_wheel() -> None:
    # What is cracked bursts where a wheel pulls at it (judgement).
    failed = SHOP_TESTS["crack_test"].after_fail
    assert "grind it out" in failed
    assert "can part at the wheel" in failed
