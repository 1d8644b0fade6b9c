"""A size in a few signs: what it is worked to, how far there is to go, and what that means in a word or two.

The signs: ▼ take down, ▲ let grow, ✓ good, » past this step, a later one mends it, ✗ past or out,
? questioned or not to be told, ~ old, · not read.
"""

from __future__ import annotations

import re
from typing import Final, NamedTuple

from coach.bench.checks import Check, SizeRead
from coach.bench.judgement import Judgement
from coach.ledger.verdict import Verdict
from coach.operations.gauges import BY_COLOUR, FINEST
from coach.operations.measures import MARK
from coach.operations.shop_test import Result
from coach.quantities import Figure, Wanted, counted
from coach.quantities.figure import Kind
from coach.telling.beyond import off_aim, off_limit
from coach.telling.bounds import is_in_64ths, write_bound
from coach.telling.figures import write_figure, write_wanted
from coach.telling.limits import write_aim
from coach.telling.page import Tone
from coach.telling.reading import cold_size, past_the_step
from coach.telling.writing import Shown

_UNIT: Final = re.compile(r"\s?(?P<unit>[^\W\d]+[²³]?|°[CF]?|%)$")
_NUMBER: Final = re.compile(r"(?P<number>\d+/\d+|\d[\d.,]*(?: \d+/\d+)?)(?P<rest>.*)")
#: From this on no decimals: nobody counts tenths of what is still far.
_FAR: Final = 10.0


class Aim(NamedTuple):
    """What a size is worked to."""

    number: str  # the size itself, or what is written where that is no number
    limits: str  # "" for none
    unit: str


def aim_of(wanted: Wanted, shown: Shown) -> Aim:
    """Limits as a number, what may be off it, and its unit.

    >>> from coach.quantities import Limits
    >>> aim_of(Wanted(Limits(28.0, 27.0, 29.0, True)), Shown())
    Aim(number='28', limits='±1', unit='mm')
    >>> aim_of(Wanted(Limits(40.0, 40.0, float("inf"), True)), Shown())
    Aim(number='40', limits='or more', unit='mm')
    """
    text = write_wanted(wanted, shown)
    found = _UNIT.search(text)
    unit = found["unit"] if found else ""
    body = text[: found.start()] if found else text
    for word, sign, alone in (("at least ", "≥", "or more"), ("at most ", "≤", "or less")):
        before, at, after = body.partition(word)
        if at:
            number = before.rstrip(", ")
            return Aim(number, sign + after, unit) if number else Aim(after, alone, unit)
    if " to " in body:
        if wanted.kind is Kind.TIME:
            return Aim(body, "", unit)
        if wanted.kind is Kind.LENGTH:
            return Aim(_bare(write_aim(wanted.limits, shown), wanted.kind), body, unit)
        return Aim(_number(Figure(wanted.limits.nominal, wanted.kind), shown), body, unit)
    plain = _NUMBER.fullmatch(body)
    return Aim(plain["number"], plain["rest"].strip(), unit) if plain else Aim(text, "", "")


class ToGo(NamedTuple):
    """How far a size is from what it is worked to."""

    sign: str
    amount: str  # without its unit; "" where the sign says all
    label: str  # "to go", "past", "good"
    words: str  # what it means, for a table
    more: str = ""  # what else there is to know, where no table stands beside it
    tone: Tone = Tone.PLAIN


def to_go(check: Check, shown: Shown) -> ToGo:
    """How far a size is from what is wanted, as it was read last."""
    reading = check.reading
    if reading is None:
        told = (
            "1 pass 2 doubt 3 fail"
            if check.kind is Kind.TEST
            else "optional"
            if check.optional
            else "not read"
        )
        return ToGo("·", "", "to go", told, tone=Tone.QUIET)
    if reading.questioned:
        looked = _looked(check, reading, shown)
        counts = "read it again" if reading.stands is None else f"{_number(reading.stands, shown)} stands"
        return ToGo("?", _number(reading.size, shown), "not counted", counts, looked)
    if reading.against_metal:
        looked = _looked(check, reading, shown)
        return ToGo("?", _number(reading.size, shown), "cannot be", "measure again", looked, Tone.CARE)
    if check.kind is Kind.TEST:
        return _of_test(reading)
    if reading.refused:
        return ToGo("?", "", "not counted", "never counted", "worked since", Tone.QUIET)
    if reading.old:
        since = "drawn anew" if check.dimension == MARK else "worked since"
        return ToGo("~", "", "old", "old: read again", since, Tone.QUIET)
    if reading.judged is None:
        return ToGo("·", _number(reading.cold, shown), "noted", "noted")
    return _judged(check, reading, reading.judged, shown)


def _judged(check: Check, reading: SizeRead, judged: Judgement, shown: Shown) -> ToGo:
    read = cold_number(reading, shown)
    if judged.verdict is Verdict.GOOD:
        return ToGo("✓", read, "good", "good", tone=Tone.GOOD)
    if reading.is_good_by_eye:
        return ToGo("✓", read, "good by eye", "good by eye", tone=Tone.GOOD)
    if judged.verdict is Verdict.UNSURE:
        how = _how_to_settle(judged, reading)
        if reading.scattered:
            return ToGo("?", read, "no two agree", how, how, Tone.CARE)
        seems = f"seems {'under' if judged.below else 'over'}" if judged.beyond.value else "cannot tell"
        return ToGo("?", read, seems, how, how, Tone.CARE)
    far, bound = off_limit(reading, judged, shown)
    bound = _bare(bound, judged.wanted.kind)
    beyond = f"{'under the least' if judged.below else 'over the most'} {bound}"
    if judged.verdict is Verdict.PAST_STEP:
        return ToGo("»", read, "past this step", "a later step mends it", beyond, Tone.CARE)
    if judged.verdict is Verdict.MORE_TO_GO:
        heats = f"about {counted(judged.heats, 'heat')}" if judged.heats else ""
        grows = judged.below
        words = "dress the edges" if judged.run_wide else f"more: {heats}" if heats else "more to go"
        amount = _far(off_aim(reading, judged, shown)[0], shown)
        return ToGo("▲" if grows else "▼", amount, "to go", words, heats or words, Tone.CARE)
    amount = _far(far, shown)
    past = judged.verdict is Verdict.GONE_PAST
    label = "past" if past else "short" if judged.below else "over"
    word = "gone past" if past else "out"
    return ToGo("✗", amount, label, f"{word}: {beyond}", beyond, Tone.BAD)


def _how_to_settle(judged: Judgement, reading: SizeRead) -> str:
    if reading.scattered:
        return "measure again"
    if judged.by_eye:
        return "try a template"
    if reading.gauge == BY_COLOUR:
        return "pyrometer or test"
    if judged.cold_tells:
        return "read it cold"
    if judged.too_coarse or judged.coarse_before:
        return "too fine to tell" if reading.gauge == FINEST else "use a finer gauge"
    if judged.unsure_again:
        return "use a finer gauge" if _has_finer(reading, judged) else "too near to tell"
    return "measure again"


def _has_finer(reading: SizeRead, judged: Judgement) -> bool:
    return reading.gauge != FINEST and judged.wanted.kind is Kind.LENGTH


def _of_test(reading: SizeRead) -> ToGo:
    result = Result.of(reading.size.value)
    if reading.old:
        return ToGo("~", "", "old", f"{result.value}, before a heat", "make it again", Tone.QUIET)
    if result is Result.FAIL and reading.judged is not None and reading.judged.verdict is Verdict.UNSURE:
        result = Result.DOUBT  # a file that bites tempered steel: that alone tells nothing
    sign, tone = {
        Result.PASS: ("✓", Tone.GOOD),
        Result.DOUBT: ("?", Tone.CARE),
        Result.FAIL: ("✗", Tone.BAD),
    }[result]
    label = "in doubt" if result is Result.DOUBT else result.value
    return ToGo(sign, "", label, label, tone=tone)


def _looked(check: Check, reading: SizeRead, shown: Shown) -> str:
    """What a questioned reading is held against."""
    possible = reading.least_possible or reading.most_possible
    if possible is not None:
        side = "least" if reading.least_possible is not None else "most"
        return f"the {side} is {_number(possible, shown)}"
    if (past := past_the_step(check, reading)) is not None:
        return f"far {past[0]} {_bare(write_bound(past[1], shown), check.kind)}"
    if reading.looked_for is None:
        return "read it again"
    return f"looked for {write_figure(reading.looked_for, shown, '±')}"


def _far(figure: Figure, shown: Shown) -> str:
    if figure.kind is Kind.TIME:
        return write_figure(figure, shown)
    is_far = figure.kind is Kind.LENGTH and shown.system == "mm" and figure.value >= _FAR
    if is_far:
        return f"{figure.value:.0f}"
    return _bare(write_figure(figure, shown, "=" if is_in_64ths(figure, shown) else ""), figure.kind)


def _number(figure: Figure, shown: Shown) -> str:
    return write_figure(figure, shown, "" if figure.kind is Kind.TIME else "n")


def cold_number(reading: SizeRead, shown: Shown) -> str:
    """What a reading comes to on cold metal, without its unit; a time, of minutes or hours, with it."""
    return _bare(cold_size(reading, shown), reading.size.kind)


def _bare(told: str, kind: Kind) -> str:
    """A figure without its unit; a time, of minutes or hours, with it."""
    found = None if kind is Kind.TIME else _UNIT.search(told)
    return told[: found.start()] if found else told
