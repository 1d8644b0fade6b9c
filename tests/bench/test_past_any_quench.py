"""A hardness over that of full martensite is questioned, and settles nothing that was read beside it."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import Verdict
from coach.telling.entered import answer_text
from coach.telling.writing import Shown
from tests.bench.jobs import begun
from tests.bench.test_file_on_tempered_steel import CHISEL


def at_the_quench(grade: str) -> Session:
    """Hardened to be measured: a square of 20 mm, of a grade."""
    session = begun(CHISEL.replace("C80", f'"{grade}"').replace("780 to 810 °C", "800 to 830 °C"))
    while session.standing().step.operation != "harden":  # type: ignore[union-attr]
        session.done()
    session.heat()
    return session


def told(session: Session, size: str, typed: str) -> str:
    return answer_text(session.read(size, typed), Shown())


# Full martensite has some 65 HRC at 0.6 % of carbon and 66 to 67 from 0.8 % on (G. Krauss, Steels; from
# memory), and ASTM E140 ends at 68 HRC.
@pytest.mark.parametrize("grade", ["1084", "1095", "5160", "1060"])
@pytest.mark.parametrize("hrc", ["69", "70"])
def test_no_steel_comes_so_hard_out_of_any_quench(grade: str, hrc: str) -> None:
    session = at_the_quench(grade)
    assert "cannot be right as things stand, no quench leaves its steel harder" in told(
        session, "edge.hardness", hrc
    )


@pytest.mark.parametrize(("grade", "hrc"), [("1084", "67"), ("1095", "66"), ("5160", "63"), ("1060", "64")])
def test_what_a_quench_that_took_leaves_is_taken(grade: str, hrc: str) -> None:
    assert "cannot be right" not in told(at_the_quench(grade), "edge.hardness", hrc)


def test_a_hardness_that_cannot_be_overrules_no_file_and_no_true_reading() -> None:
    session = at_the_quench("1084")
    told(session, "edge.file_test", "fail")
    told(session, "edge.hardness", "70")
    (file,) = (one for one in session.standing().checks if one.name == "edge.file_test")
    assert file.verdict is Verdict.OUT
    assert "cannot be right" not in told(session, "edge.hardness", "64.5")
