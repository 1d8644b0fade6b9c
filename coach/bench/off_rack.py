"""What jobs took of the rack's bars beside what was cut off for them: as marked, as cut, by ways back."""

from __future__ import annotations

from coach.bench.beginnings import Plans, beginning_of
from coach.bench.off_bar import taken_off_bars
from coach.bench.rack import Beyond, LyingBar
from coach.bench.replay import replay
from coach.log.jobs import Log
from coach.metals.grade import grade, keep_to
from coach.recipe.model import Piece

#: Sections that are nearer than this to each other are one bar's (our choice).
_ALIKE_MM = 0.01


def beyond_by(log: Log, plans: Plans) -> Beyond:
    """Of each job of a log, by the plans of what they began with."""

    def beyond_mm(job: str, bar: LyingBar) -> float:
        try:
            entries = log.entries(job)
            state = replay(plans.of(job, beginning_of(entries)), entries)
            pieces = state.first_plan.recipe.pieces
            taken = [one for one in taken_off_bars(state) if _is_of(pieces[one.piece], bar)]
            return sum(one.beyond_mm for one in taken)
        except Exception:  # whatever a job may be, the rack is told as it was begun
            return 0.0
        finally:
            keep_to({})  # a job has its own grades

    return beyond_mm


def _is_of(piece: Piece, bar: LyingBar) -> bool:
    """Whether a piece was taken from such a bar."""
    sizes = [size for name, size in piece.stock.sizes_mm.items() if name != "length"]
    there = [one.value for one in bar.sizes]
    alike = len(sizes) == len(there) and all(
        abs(one - other) < _ALIKE_MM for one, other in zip(sorted(sizes), sorted(there), strict=True)
    )
    return alike and piece.stock.shape.kind == bar.form and grade(piece.metal).name == bar.metal
