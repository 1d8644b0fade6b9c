"""Tests of how hard each part of a tool should be."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.metals.grade_file import MARKS
from coach.metals.wanted_hardness import parts, wanted
from coach.quantities.refusal import NotKnown


@pytest.mark.parametrize(
    ("part", "published"),
    [
        # DIN 7287, grades A and B, from a secondary listing (confirmed second-hand).
        ("axe edge", (51, 56)),
        ("hatchet edge", (47, 55)),
        # ASME B107.54-2001 §4.3.1 to 4.3.3 (confirmed).
        ("sledge face", (45, 60)),
        ("splitting edge", (45, 60)),
        ("maul face", (44, 55)),
        # ASME B107.47M-1998 §4.3.1 and §4.3.2, B107.50M §4.3.2 (confirmed).
        ("chisel edge", (53, 60)),
        ("struck end", (None, 45)),
        # ASME B107.410-2008, extractors (confirmed second-hand).
        ("struck end", (None, 43)),
        ("hammer peen", (45, 60)),
        # DIN 1193, as told in DGUV Information 209-001 §2.3 (confirmed second-hand).
        ("hammer face", (52, 58)),
        ("hammer peen", (52, 58)),
        ("eye", (None, 30)),
        # DIN 1041 (confirmed).
        ("hammer face", (50, 58)),
    ],
)
def test_what_a_standard_asks_for_is_kept(part: str, published: tuple[float | None, float]) -> None:
    assert published in [(one.low and one.low.value, one.high.value) for one in wanted(part).published]


@pytest.mark.parametrize("part", parts())
def test_every_part_says_how_far_its_figures_are_confirmed(part: str) -> None:
    one = wanted(part)
    for source in (one.source, *(each.source for each in one.published)):
        assert source.endswith(tuple(f"({mark})" for mark in MARKS))
    assert one.note.endswith(".")


@pytest.mark.parametrize("part", parts())
def test_a_proposal_can_meet_every_standard_of_its_part(part: str) -> None:
    one = wanted(part)
    for each in one.published:
        lows = [end.low.value if end.low else 0 for end in (one, each)]
        assert max(lows) <= min(one.high.value, each.high.value)


def test_only_an_axe_may_be_a_little_harder_than_its_standards_and_says_so() -> None:
    harder = {
        part
        for part in parts()
        if any(wanted(part).high.value > each.high.value for each in wanted(part).published)
    }
    assert harder == {"axe edge", "hatchet edge"}
    assert "1 HRC above" in wanted("axe edge").note


def test_the_eye_need_not_be_hardened_and_never_is_hard() -> None:
    # DIN 1193 and DIN 1041: 30 HRC at most.
    assert (wanted("eye").low, wanted("eye").high.value) == (None, 30)


def test_no_face_that_strikes_is_harder_than_58() -> None:
    # DIN 1193: 58 HRC at most, as told in DGUV Information 209-001 §2.3.
    assert all(wanted(part).high.value <= 58 for part in parts() if "face" in part or "peen" in part)


def test_what_is_struck_is_no_harder_than_what_strikes_it() -> None:
    softest_hammer = wanted("hammer face").low
    assert softest_hammer is not None
    assert wanted("struck end").high.value < softest_hammer.value


def test_an_end_that_is_struck_is_never_told_the_hardness_of_a_face_that_strikes() -> None:
    one = wanted("struck end")
    assert one.low is None
    # ASME B107.47M-1998 §4.3.2: not over 45 HRC.
    assert max(one.high.value, *(each.high.value for each in one.published)) <= 45


@pytest.mark.parametrize("written", ["Axe edge", " axe  EDGE ", "axe\tedge"])
def test_case_and_blanks_do_not_matter(written: str) -> None:
    assert wanted(written).part == "axe edge"


@pytest.mark.parametrize(
    ("written", "part"), [("cold chisel", "chisel edge"), ("Wood chisel", "drawknife edge")]
)
def test_a_tool_named_for_its_edge_is_that_edge(written: str, part: str) -> None:
    assert wanted(written).part == part


@pytest.mark.parametrize(
    ("written", "nearest"),
    [
        ("axe egde", "axe edge"),
        ("hamer face", "hammer face"),
        ("chisel", "chisel edge"),
        ("knife", "knife edge"),
    ],
)
def test_an_unknown_part_is_answered_with_the_nearest(written: str, nearest: str) -> None:
    with pytest.raises(NotKnown, match=f"nearest is {nearest}"):
        wanted(written)


def test_a_part_like_none_is_answered_with_all() -> None:
    with pytest.raises(NotKnown, match="drawknife edge"):
        wanted("")


@given(st.text(max_size=300))
def test_any_text_is_answered_in_one_line(text: str) -> None:
    try:
        wanted(text)
    except NotKnown as refused:
        sentence = str(refused)
        assert len(sentence.splitlines()) == 1
        assert len(sentence) < 300


@pytest.mark.parametrize("asked", ["struck face", "chisel head", "Punch  head"])
def test_the_end_that_a_hammer_strikes_is_found_by_what_the_standard_and_smiths_call_it(asked: str) -> None:
    # ASME B107.47M-1998 §4.3.2 and B107.50M §4.3.2: struck faces of chisels, 45 HRC at most (confirmed).
    assert wanted(asked).part == "struck end"
    assert wanted(asked).high.value <= 45.0
