"""Steel that was too hot to be quenched is quenched once, in the step that was put in for it."""

from __future__ import annotations

from coach.bench.session import Session
from coach.cli.page import set_page
from coach.telling.time_ahead import time_ahead_page
from coach.telling.writing import Shown
from tests.bench.jobs import begun
from tests.bench.test_file_on_tempered_steel import CHISEL


def too_hot() -> Session:
    session = begun(CHISEL)
    while session.standing().step.operation != "harden":  # type: ignore[union-attr]
        session.done()
    session.read("edge.temperature", "920")
    return session


# Coarse grain cracks in the quench: Precision Machined Products Association (confirmed).
def test_what_is_not_to_be_quenched_needs_no_bath_and_no_heat() -> None:
    session = too_hot()
    session.take("do-again-harden-edge")
    here, *others = session.ahead().steps
    assert (here.heats, str(here.needs), here.in_all.high) == (0, "", 0.0)
    assert [str(one.needs) for one in others if "quench" in str(one.needs)] == ["quench: water"]
    step = session.standing().step
    assert step is not None
    assert step.quench == ""
    (again,) = (one.number for one in session.recipe.steps if one.again and one.quench)
    assert step.how.startswith("Do not quench it now.")
    assert f"step {again} quenches it" in step.how
    asked = {one.dimension for one in session.standing().checks if one.is_open}
    assert "file_test" not in asked, "nothing is hard that could be filed"


def test_what_was_quenched_all_the_same_is_told_as_quenched() -> None:
    session = too_hot()
    session.take("do-again-harden-edge")
    session.read("edge.file test", "pass")
    step = session.standing().step
    assert step is not None
    assert step.quench == "water"
    assert "Do not quench" not in step.how


def test_the_time_ahead_says_what_is_to_be_put_right_and_is_sure_of_no_hour() -> None:
    session = too_hot()
    ahead = session.ahead("23:59")
    assert [one.text for one in ahead.to_right] == ["temperature too high"]
    assert ahead.surely == 0
    told = " ".join(" ".join(set_page(time_ahead_page(ahead, Shown()))).split())
    assert "edge: temperature too high (step 2)" in told
    assert "not counted" in told
    # Before it is right no step is sure; how far it comes besides is told.
    assert ahead.surely_besides == ahead.steps[-1].number
    assert "less what it takes to put that right" in told
    assert (
        f"Without that, by heats and soaks alone step {ahead.surely_besides} is surely done by then" in told
    )
    session.take("do-again-harden-edge")
    assert session.ahead().to_right == (), "the steps that put it right are ahead"


def test_a_crack_is_told_before_the_hours_ahead() -> None:
    session = begun(CHISEL)
    while session.standing().step.operation != "temper":  # type: ignore[union-attr]
        session.done()
    session.read("edge.crack test", "fail")
    assert [one.text for one in session.ahead().to_right] == ["crack test failed"]
