"""What the coach says to something that was entered."""

from __future__ import annotations

from collections.abc import Sequence
from types import MappingProxyType

from coach.bench.answer import Answer, Did, StepDone, Unsettled
from coach.bench.checks import Check
from coach.ledger.verdict import Verdict
from coach.ledger.zone_forecast import FinishedSize
from coach.operations.measures import MARK
from coach.quantities import Kind
from coach.telling.reading import reading_sentence
from coach.telling.words import sentence, write
from coach.telling.writing import Shown

_OF_A_TEST = MappingProxyType({Verdict.OUT: "failed", Verdict.UNSURE: "in doubt"})


def answer_text(answer: Answer, shown: Shown) -> str:
    """What was done by an entry, in a sentence or two."""
    told = [_did(answer.did, shown), sentence(answer.beware, shown) if answer.beware else ""]
    told += [f"By it another is judged anew: {reading_sentence(check, shown)}" for check in answer.others]
    told += [sentence(answer.meanwhile, shown)] if answer.meanwhile else []
    return " ".join(filter(None, told))


def _did(did: Did, shown: Shown) -> str:
    if isinstance(did, Check):
        return reading_sentence(did, shown)
    return _done(did, shown) if isinstance(did, StepDone) else sentence(did, shown)


def _done(step: StepDone, shown: Shown) -> str:
    told = f"Step {step.number}, {step.title}, is done"
    if step.unmarked:
        planned = "heat counts" if step.unmarked == 1 else f"{step.unmarked} heats count"
        told += f"; no heat was marked, so the planned {planned}"
    worries = unsettled_text(step.unsettled, shown)
    following = f"Next: {step.following}." if step.following else "That was the last step."
    return f"{told}{f' ({worries})' if worries else ''}. {following}"


def unsettled_text(unsettled: Unsettled, shown: Shown) -> str:
    """What is not as it should be: `poll side is not measured; bit length is out`; "" where all is."""
    worries: dict[str, list[str]] = {}
    for check in unsettled.checks:
        if check.name in unsettled.outside or check.name in unsettled.counted:
            continue
        worries.setdefault(_worry(check), []).append(check.label)
    counted = [*unsettled.outside.values(), *unsettled.counted.values()]
    told = [write(words, shown) for words in (unsettled.heats, *counted) if words]
    told += [f"{_which(labels, what)} {what}" for what, labels in worries.items()]
    if unsettled.unread:
        told.append(_unread(unsettled.unread))
    if unsettled.to_right:
        still = "; ".join(write(right.words, shown) for right in unsettled.to_right)
        told.append(f"still to be put right: {still}")
    return "; ".join(told)


def _unread(sizes: Sequence[FinishedSize]) -> str:
    """What counts from now on, though nobody has measured it."""
    first, more = sizes[0].label, len(sizes) - 1
    if not more:
        return f"{first} is unmeasured now: read it, or it counts as made with this hand"
    others = sizes[1].label if more == 1 else f"{more} more sizes"
    return f"{first} and {others} are unmeasured now: read them, or they count as made with this hand"


def _worry(check: Check) -> str:
    test = check.kind is Kind.TEST
    if check.reading is None:
        return "not tried" if test else "not measured"
    if check.is_questioned or check.is_against_metal:
        return "to be measured again"
    if check.reading.old and check.dimension == MARK:
        return "not marked since the drawing was changed"
    if check.reading.old:
        return "not tried since the last heat" if test else "not measured since last worked"
    assert check.verdict is not None
    return str(_OF_A_TEST.get(check.verdict, check.verdict) if test else check.verdict)


def _which(labels: Sequence[str], what: str) -> str:
    """One or two sizes by their names; more would hide what is to be done next."""
    one, several = ("has", "have") if what == str(Verdict.MORE_TO_GO) else ("is", "are")
    if len(labels) == 1:
        return f"{labels[0]} {one}"
    return f"{' and '.join(labels) if len(labels) == 2 else f'{len(labels)} sizes'} {several}"
