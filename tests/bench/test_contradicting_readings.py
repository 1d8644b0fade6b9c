"""What contradicts what was read before it of the same heat treatment is questioned, as sizes are."""

from __future__ import annotations

import pytest

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.entered import answer_text
from coach.telling.writing import Shown
from tests.bench.jobs import begun
from tests.bench.test_file_on_tempered_steel import CHISEL
from tests.bench.test_hardness_from_the_quench import at_the_quench


def at(operation: str) -> Session:
    session = begun(CHISEL)
    while session.standing().step.operation != operation:  # type: ignore[union-attr]
        session.done()
    return session


#: What is read first, what contradicts it, and a word of why. Iron lets go of a magnet at 770 °C (Curie, any
#: book of physics); a new file is 60 HRC and more; C80 tempered at 278 °C for 1 h has some 57 HRC (table).
CONTRADICTING = [
    ("harden", ("temperature", "815 °C"), ("magnet", "fail"), "770 °C"),
    ("harden", ("file test", "pass"), ("hardness", "25"), "no file skates"),
    ("harden", ("hardness", "25"), ("file test", "pass"), "a file bites steel of 25 HRC"),
    ("harden", ("file test", "pass"), ("hardness", "50"), "no file skates"),
    # C80 begins to turn at some 723 °C (the iron-carbon diagram), and what has not turned no quench hardens.
    ("harden", ("temperature", "660 °C"), ("file test", "pass"), "no quench hardens it"),
    ("harden", ("temperature", "660 °C"), ("hardness", "64"), "no quench hardens it"),
    ("temper", ("temperature", "278 °C"), ("hardness", "66"), "as it was tempered its steel has"),
    # C80 tempered at 340 °C has 49 HRC or so: 1 or 2 under 1095, which has 53.5 after 343 °C (facts E2).
    ("temper", ("temperature", "340 °C"), ("hardness", "56"), "as it was tempered its steel has"),
    ("temper", ("hardness", "56"), ("temperature", "340 °C"), "56 HRC was measured, and so hot a temper"),
]


@pytest.mark.parametrize("reads", [["hardness 59.5"], ["temperature 275 °C", "hardness 56"]])
def test_what_was_too_hard_or_tempered_before_may_be_tempered_hotter(reads: list[str]) -> None:
    session = at("temper")
    for read in reads:
        session.read(f"edge.{read.partition(' ')[0]}", read.partition(" ")[2])
    session.read("edge.temperature", "340 °C")
    assert session.standing().questioned == ()


@pytest.mark.parametrize(("operation", "first", "second", "told"), CONTRADICTING)
def test_the_second_of_two_that_cannot_both_be_right_is_questioned(
    operation: str, first: tuple[str, str], second: tuple[str, str], told: str
) -> None:
    session = at(operation)
    assert "cannot be right" not in answer_text(session.read(f"edge.{first[0]}", first[1]), Shown())
    answer = session.read(f"edge.{second[0]}", second[1])
    assert answer.bad_news
    assert told in answer_text(answer, Shown())
    assert "Take it again" in answer_text(answer, Shown())
    assert [one.name for one in session.standing().questioned] == [f"edge.{second[0].replace(' ', '_')}"]


@pytest.mark.parametrize(("operation", "first", "second", "told"), CONTRADICTING)
@pytest.mark.parametrize("insist", [True, False])
def test_insisting_or_the_same_twice_makes_it_stand(
    operation: str, first: tuple[str, str], second: tuple[str, str], told: str, *, insist: bool
) -> None:
    session = at(operation)
    session.read(f"edge.{first[0]}", first[1])
    if not insist:
        session.read(f"edge.{second[0]}", second[1])
    answer = session.read(f"edge.{second[0]}", second[1], insist=insist)
    assert told not in answer_text(answer, Shown())
    assert session.standing().questioned == ()


def test_a_magnet_that_pulls_is_believed_before_the_steel_is_hotter() -> None:
    session = at("harden")
    session.read("edge.magnet", "fail")
    session.read("edge.temperature", "800 °C")
    assert session.standing().questioned == ()


def test_a_soft_hardness_after_a_temper_is_no_contradiction_but_a_failure() -> None:
    session = at("temper")
    session.read("edge.hardness", "40")
    assert session.standing().questioned == ()


def test_a_second_hardness_too_far_off_says_that_it_counts_instead_of_the_first() -> None:
    session = at("temper")
    session.read("edge.hardness", "55")
    told = answer_text(session.read("edge.hardness", "57"), Shown())
    assert "instead of the 55 HRC read before" in told
    told = answer_text(session.read("edge.hardness", "55"), Shown())
    assert "instead of the 57 HRC read before" in told


def test_a_temper_makes_nothing_harder_than_it_was_from_the_quench() -> None:
    session = at("harden")
    session.read("edge.hardness", "50")  # softer than C80 can be: the quench took but half
    session.done()
    answer = session.read("edge.hardness", "56")
    assert answer.bad_news
    assert "from the quench it had 50 HRC, and no temper makes it harder" in answer_text(answer, Shown())
    session.read("edge.hardness", "56", insist=True)
    assert session.standing().questioned == ()
    session.strike()
    session.strike()
    session.read("edge.hardness", "49")
    assert session.standing().questioned == ()


@pytest.mark.parametrize(("typed", "soak"), [("7200", "120 h"), ("30 s", "30 s")])
def test_seconds_typed_for_minutes_are_questioned(typed: str, soak: str) -> None:
    # An hour of soak is sixty minutes, and 3600 seconds: a slip of the unit is one of sixty.
    session = at("temper")
    answer = answer_text(session.read("edge.soak", typed), Shown())
    assert answer.startswith(
        f"edge soak {soak}: that cannot be right as things stand, at least 1 h is wanted"
    )
    assert "minutes" in answer
    assert (
        answer_text(session.read("edge.soak", "12 h"), Shown())
        == "edge soak 12 h: good, wanted at least 1 h."
    )
    assert not session.standing().questioned


@pytest.mark.parametrize(
    ("operation", "typed"),
    [("temper", "1"), ("temper", "37"), ("harden", "1"), ("harden", "278"), ("temper", "1550")],
)
def test_a_heat_that_no_such_step_is_done_at_is_questioned_with_what_is_wanted(
    operation: str, typed: str
) -> None:
    """A 1 typed for the first of a list is no 1 °C: nobody tempers in the hand, what is hardened glows."""
    session = at(operation)
    asked = f"{session.standing().step.zones[0]}.temperature"  # type: ignore[union-attr]
    told = answer_text(session.read(asked, typed), Shown())
    assert "cannot be right" in told
    assert "°C is wanted here; a bare number counts degrees Celsius" in told
    assert session.standing().questioned
    assert asked in [check.name for check in session.done_warning().checks]


@pytest.mark.parametrize(("operation", "typed"), [("temper", "160"), ("temper", "400"), ("harden", "700")])
def test_a_heat_that_is_only_wrong_is_believed(operation: str, typed: str) -> None:
    session = at(operation)
    assert "cannot be right" not in answer_text(session.read("edge.temperature", typed), Shown())


@pytest.mark.parametrize(
    ("read", "questioned"), [("650", True), ("700", True), ("720", False), ("790", False)]
)
def test_a_magnet_that_lets_go_of_steel_below_where_it_turns_is_questioned(
    read: str, questioned: bool
) -> None:
    # The eutectoid of plain carbon steel is at 727 °C (the iron-carbon diagram, from memory): below it is
    # ferrite, which is magnetic.
    session = at_the_quench()
    session.read("edge.temperature", read)
    session.read("edge.magnet", "pass")
    (magnet,) = (one for one in session.standing().checks if one.dimension == "magnet")
    assert magnet.is_questioned is questioned


# Ac1 of C80 is 726 °C (Andrews 1965): below it, with the magnet still holding, there is nothing to harden.
@pytest.mark.parametrize("first", [("magnet", "temperature"), ("temperature", "magnet")])
def test_a_file_that_skates_after_a_heat_below_its_turning_with_the_magnet_holding_is_questioned(
    first: tuple[str, str],
) -> None:
    read = {"magnet": "fail", "temperature": "720"}
    session = at_the_quench()
    for name in first:
        session.read(f"edge.{name}", read[name])
    told = answer_text(session.read("edge.file_test", "pass"), Shown())
    assert "cannot be right" in told
    assert "at 720 °C a magnet held" in told
    session.done()
    assert session.standing().verdict is not PlanState.ON_PLAN
    assert [one for one in session.standing().to_right if "magnet" in one.text]


def test_after_another_heat_the_magnet_of_the_one_before_says_nothing() -> None:
    session = at_the_quench()
    session.read("edge.magnet", "fail")
    session.read("edge.temperature", "720")
    session.heat()
    session.read("edge.file_test", "pass")
    assert session.standing().questioned == ()


@pytest.mark.parametrize(("read", "questioned"), [("700", True), ("720", False), ("790", False)])
def test_a_heat_below_its_turning_after_the_magnet_let_go_is_questioned(read: str, questioned: bool) -> None:
    session = at_the_quench()
    session.read("edge.magnet", "pass")
    told = answer_text(session.read("edge.temperature", read), Shown())
    assert ("a magnet let go of it before" in told) is questioned


@pytest.mark.parametrize("typed", ["3", "60"])
def test_a_number_meant_for_another_row_is_no_heat_of_an_anneal_either(typed: str) -> None:
    session = begun(CHISEL.replace("{do: harden", "{do: anneal, zone: edge, heats: 1}\n  - {do: harden"))
    while session.standing().step.operation != "anneal":  # type: ignore[union-attr]
        session.done()
    told = answer_text(session.read("edge.temperature", typed), Shown())
    assert "cannot be right" in told
    assert "525 to 1538 °C can be here" in told or "525 °C to 1538 °C can be here" in told


def test_a_heat_in_question_counts_for_nothing_until_it_stands() -> None:
    session = at("harden")
    session.read("edge.temperature", "1600")
    assert session.standing().to_right == ()  # neither burnt nor too hot: it is not believed
    told = answer_text(session.read("edge.temperature", "795"), Shown())
    assert "counts" not in told
    assert "good" in told
    assert session.standing().to_right == ()
    assert not [way for way in session.ways_back() if "cut" in str(way.title).lower()]


def test_a_heat_that_was_insisted_on_counts_whatever_is_read_after() -> None:
    session = at("harden")
    session.read("edge.temperature", "1600", insist=True)
    assert "the 1600 °C read before it counts" in answer_text(
        session.read("edge.temperature", "795"), Shown()
    )
    assert any("burnt" in one.text for one in session.standing().to_right)


def test_a_heat_in_question_hides_no_heat_that_was_wrong() -> None:
    session = at("harden")
    session.read("edge.temperature", "900")
    wrong = [one.entry for one in session.standing().to_right]
    assert wrong
    session.read("edge.temperature", "1600")
    assert [one.entry for one in session.standing().to_right] == wrong


def test_a_soak_in_question_counts_for_nothing_until_it_stands() -> None:
    session = at("temper")
    session.read("edge.soak", "7200")
    assert session.standing().to_right == ()
    assert "counts" not in answer_text(session.read("edge.soak", "120"), Shown())


# Two readings of a tester of ±0.7 HRC (common practice, no source) lie within 3 x 0.99 HRC of each other.
@pytest.mark.parametrize(
    ("reads", "told"),
    [
        (("hardness 54", "hardness 57.5"), "nothing but a quench makes it harder"),
        (("hardness 54", "temperature 278 °C", "hardness 57.5"), "nothing but a quench makes it harder"),
        (("hardness 57", "hardness 52"), "no heat since is entered in this step that would draw it"),
        (("hardness 57", "temperature 310 °C", "hardness 52"), ""),
        (("hardness 61", "hardness 56"), ""),  # it was too hard: who tempers it further may say no heat
        (("hardness 55", "hardness 57"), ""),
    ],
)
def test_a_second_hardness_that_nothing_explains_is_questioned(reads: tuple[str, ...], told: str) -> None:
    session = at("temper")
    for read in reads:
        answer = session.read(f"edge.{read.partition(' ')[0]}", read.partition(" ")[2])
    assert [one.name for one in session.standing().questioned] == (["edge.hardness"] if told else [])
    assert told in answer_text(answer, Shown())
    if told:
        session.read("edge.hardness", reads[-1].partition(" ")[2])
        assert session.standing().questioned == ()


def test_a_file_that_skates_after_a_temper_over_steel_that_it_bit_from_the_quench_is_questioned() -> None:
    session = at("harden")
    session.read("edge.temperature", "750 °C")
    session.read("edge.file test", "fail")
    session.done()
    answer = session.read("edge.file test", "pass")
    assert "from the quench a file bit it, and no temper makes it harder" in answer_text(answer, Shown())
    assert [one.zone for one in session.standing().to_right] == ["edge", "edge"]  # too cold, and bitten
    session.read("edge.file test", "pass")
    assert session.standing().questioned == ()


def test_of_another_heat_than_the_cool_one_a_hardness_is_believed() -> None:
    session = at("harden")
    session.read("edge.temperature", "660 °C")
    session.heat()
    session.read("edge.file test", "pass")
    assert session.standing().questioned == ()


def test_a_magnet_that_is_questioned_is_not_offered_as_another_test() -> None:
    session = at("harden")
    session.read("edge.temperature", "660 °C")
    told = answer_text(session.read("edge.magnet", "pass"), Shown())
    assert "cannot be right" in told
    assert "As edge" not in told


# A tester and a file tell of cold steel; steel at a red heat is hard no more: common practice, no source.
@pytest.mark.parametrize("reading", [("hardness", "64"), ("file test", "pass")])
@pytest.mark.parametrize("hot", ["", "800 °C"])
def test_hardness_is_read_cold_alone(reading: tuple[str, str], hot: str) -> None:
    session = at_the_quench()
    with pytest.raises(EntryFault, match="on cold steel"):
        session.read(f"edge.{reading[0]}", reading[1], hot=hot)
    session.read(f"edge.{reading[0]}", reading[1])


def test_a_size_of_hard_steel_is_not_read_at_the_heat_of_a_quench() -> None:
    session = at("temper")
    with pytest.raises(EntryFault, match=r"at 815 °C it would be hard no more"):
        session.read("edge.side", "19.2", hot="815 °C")
    session.read("edge.side", "19.2", hot="815 °C", insist=True)
    session.read("edge.side", "19.2", hot="250 °C")
