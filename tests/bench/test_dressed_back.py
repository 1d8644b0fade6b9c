"""A width that has run a little too far on a hot bar is dressed back on edge: the piece is not lost."""

from __future__ import annotations

from pathlib import Path

from coach.bench.answer import Answer
from coach.ledger.verdict import PlanState, Verdict
from coach.telling.entered import answer_text
from coach.telling.words import sentence
from coach.telling.writing import Shown
from tests.bench.jobs import shop as a_shop

_CHISEL = (Path(__file__).parents[2] / "recipes" / "cold-chisel.yaml").read_text(encoding="utf-8")
_MM = Shown("mm")


def test_a_chisel_s_edge_drawn_too_wide_has_more_to_go_and_is_dressed_in_its_own_step() -> None:
    with a_shop() as shop:
        session = shop.begin(_CHISEL, "cold-chisel.yaml")
        session.done()
        session.heat()
        session.heat()
        session.read("edge.end_thickness", "4.1")
        answer = session.read("edge.end_width", "27.6")  # its recipe asks for 25 ±1.5, and no wider
        assert isinstance(answer, Answer)
        told = answer_text(answer, _MM)
        assert "more to go" in told
        assert "dress the edges back" in told
        assert "will not bring it back" not in told
        standing = session.standing()
        width = next(one for one in standing.checks if one.name == "edge.end_width")
        assert width.verdict is Verdict.MORE_TO_GO
        assert standing.verdict is PlanState.ON_PLAN
        way = session.ways_back()[0]
        assert sentence(way.title, _MM) == "Dress the edge end width back by 2.6 mm, on edge."
        assert not way.again
        assert way.heats == 0
        # By hand: a taper of 18.5 × 17 to 27.6 × 4.1 has a mean section of (314.5 + 4 · 243.2 + 113.2) / 6 =
        # 233.4 mm², by its ends and four times its middle; 25 wide 222.5: 55 · (233.4 / 222.5 - 1) = 2.7 mm.
        assert "gets about 2." in sentence(way.changes, _MM)


def test_an_edge_far_too_wide_for_its_thickness_is_still_gone_past() -> None:
    thin = _CHISEL.replace("to 25 ±1.5 x 4 ±0.4, 4 heats", "to 36 ±1.5 x 4 ±0.4, 4 heats").replace(
        "to 25 ±1.5 x 3 ±0.5, long 55", "to 36 ±1.5 x 3 ±0.5, long 42"
    )
    with a_shop() as shop:
        session = shop.begin(thin, "wide.yaml")
        session.done()
        session.heat()
        session.read("edge.end_width", "39", insist=True)  # nine times as wide as it is to be thick: it folds
        width = next(one for one in session.standing().checks if one.name == "edge.end_width")
        assert width.verdict in (Verdict.GONE_PAST, Verdict.OUT)
