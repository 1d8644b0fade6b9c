"""One size of a sheet as it is told: its sign, what was wanted, what came and what that is."""

from __future__ import annotations

from collections.abc import Sequence

from coach.bench.sizes_came import SizeCame, SizeVerdict, WhenRead
from coach.operations.gauges import BY_EYE
from coach.quantities.figure import Kind
from coach.quantities.words import Words, run_on, say
from coach.telling.bounds import write_wanted_of
from coach.telling.figures import write_figure
from coach.telling.page import Row, Tone
from coach.telling.words import write
from coach.telling.writing import Shown

#: A sign for each verdict, which always stands with its word.
SIGNS = {
    SizeVerdict.WITHIN: "✓",
    SizeVerdict.NOT_SURE: "?",
    SizeVerdict.UNDER: "✗",
    SizeVerdict.OVER: "✗",
    SizeVerdict.LET_GO: "○",
    SizeVerdict.NOT_MEASURED: "·",
    SizeVerdict.TO_COME: "·",
    SizeVerdict.AS_READ: "·",
}
#: Of a size that was read, and is reckoned on from there.
RECKONED_ON = "≈"
TONES = dict.fromkeys(SizeVerdict, Tone.PLAIN) | {
    SizeVerdict.NOT_SURE: Tone.CARE,
    SizeVerdict.UNDER: Tone.BAD,
    SizeVerdict.OVER: Tone.BAD,
    SizeVerdict.NOT_MEASURED: Tone.QUIET,
    SizeVerdict.TO_COME: Tone.QUIET,
}


def sign_of(size: SizeCame, shown: Shown) -> str:
    """The sign of a size: none is told to be as drawn by a ✓ that nobody has read so."""
    is_within = size.verdict is SizeVerdict.WITHIN
    return RECKONED_ON if is_within and _is_reckoned_on(size, shown) else SIGNS[size.verdict]


def _is_reckoned_on(size: SizeCame, shown: Shown) -> bool:
    """Whether the heats since it was read have made another size of it, as far as is told."""
    if size.read is None or size.came is None:
        return False
    read = size.read.size._replace(doubt=size.came.doubt)
    return write_figure(read, shown) != write_figure(size.came, shown)


def size_row(size: SizeCame, shown: Shown, among: Sequence[SizeCame] = ()) -> Row:
    """One size `among` others: its sign, what it is called, what was wanted, what came and what that is."""
    to_haft = size.let_go is not None and size.let_go.haft
    drawn = size.allowed if to_haft else size.wanted
    wanted = write_wanted_of(drawn, size.came, shown) if drawn is not None else ""
    came = came_text(size, shown) or "—"
    told = write(_verdict_words(size, shown), shown)
    return Row((f"{sign_of(size, shown)} {size.label_among(among)}", wanted, came, told), TONES[size.verdict])


def came_text(size: SizeCame, shown: Shown) -> str:
    """What a size came to: as it was typed, where nothing since made it another; "" for nothing."""
    if size.came is None:
        return ""
    if size.read is None or _is_reckoned_on(size, shown):
        return write_figure(size.came, shown)
    return write_figure(size.read.size, shown, "=")


def _verdict_words(size: SizeCame, shown: Shown) -> Words:
    told: Words = say("{}", size.verdict)
    if size.beyond is not None and size.verdict in (SizeVerdict.UNDER, SizeVerdict.OVER):
        told = say("{:hair} {}", size.beyond, size.verdict)
    elif size.verdict is SizeVerdict.NOT_MEASURED and size.reckoned is not None:
        was = size.verdict if size.read is None else _read_before(size.read)
        told = say("{}; reckoned {:±}", was, size.reckoned)
    elif size.verdict is SizeVerdict.NOT_MEASURED and size.read is not None:
        fire = "not measured since a fire that came later: read {:=} at step {}"
        drawn = size.read.size.kind is Kind.HARDNESS
        told = say(fire, size.read.size, size.read.step) if drawn else _read_before(size.read)
    elif size.came is None and size.read is not None:
        told = say("{}; {}", size.verdict, _read_before(size.read))
        told = _read_before(size.read) if size.verdict is SizeVerdict.AS_READ else told
    elif size.verdict is SizeVerdict.WITHIN and size.read is not None and size.read.gauge == BY_EYE:
        told = say("{} by eye", size.verdict)
    elif size.verdict is SizeVerdict.NOT_SURE:
        eye = size.read is not None and size.read.gauge == BY_EYE
        why = "by eye it cannot be settled" if eye else "too near the limit for the gauge"
        told = say("{}: {}", size.verdict, why)
        if size.beyond is not None and size.came is not None and not eye:
            wanted = size.allowed or size.wanted
            over = wanted is not None and size.came.value > wanted.limits.high
            told = say("{}: it seems {:hair} {}", size.verdict, size.beyond, "over" if over else "under")
    if size.read is not None and _is_reckoned_on(size, shown):
        told = say("{}, reckoned on; read {:=} at step {}", told, size.read.size, size.read.step)
    return run_on((told, _questioned_words(size), _let_go_words(size)), "; ")


def _read_before(read: WhenRead) -> Words:
    """A reading that the work after it has made old."""
    return say("not measured since it was worked: read {:=} at step {}", read.size, read.step)


def _questioned_words(size: SizeCame) -> Words:
    """A later reading that was not believed, and not taken again."""
    if size.questioned is None:
        return Words()
    told = "read {:=} at step {}, which is questioned and counts for nothing"
    return say(told, size.questioned.size, size.questioned.step)


def _let_go_words(size: SizeCame) -> Words:
    """What a way back or a haft made of a size that was drawn."""
    if size.let_go is None or size.allowed is None:
        return Words()
    where = f", step {size.let_go.step}" if size.let_go.step else ""
    if size.let_go.haft:
        drawn = say("; {} drawn", size.wanted) if size.wanted is not None else ""
        return say("worked to the haft{}{}", where, drawn)
    if size.verdict is SizeVerdict.WITHIN:
        return Words()
    return say("{} allowed by “{}”{}", size.allowed, size.let_go.title, where)
