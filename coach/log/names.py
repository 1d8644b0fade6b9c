"""What a job may be called, and which jobs a name that was typed may mean.

Names are kept in one form, so that two that only look alike are the same name.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

LONGEST_JOB = 60
RACK = "_rack"
"""What the log keeps the shop's bars under: no job can be called so."""
JOB_NAMES = (
    "letters, digits, hyphens and underscores, each in its plain small form, a letter or digit first, at most"
    f" {LONGEST_JOB} in all"
)
"""What a job may be called."""
# The fillers of Hangul count as letters and are not seen; no more are the inherent vowels of Khmer.
_JOB = re.compile(r"(?![_\u115f\u1160])\w(?:(?![\u115f\u1160])[\w-])*")
_UNSEEN = re.compile("VARIATION SELECTOR|VOWEL INHERENT")


def is_job_name(name: str) -> bool:
    """Whether a job may be called so: the name is typed after a verb, and a file is called after it."""
    return len(name) <= LONGEST_JOB and _JOB.fullmatch(_letters(name)) is not None and name == as_kept(name)


def is_of_rack(name: str) -> bool:
    """Whether it is the rack that is kept under a name, or what a restored log had besides of another one."""
    return re.fullmatch(rf"{RACK}(-\d{{1,4}})?", name, re.ASCII) is not None


def is_kept_name(name: str) -> bool:
    """Whether the log keeps entries under a name: a job's, or that of the rack."""
    return is_job_name(name) or is_of_rack(name)


def _letters(name: str) -> str:
    """A name without the signs that some alphabets write a syllable with, each behind a letter of its own."""
    if name.isascii() or not name.isprintable() or _JOB.fullmatch(name):
        return name
    from unicodedata import category
    from unicodedata import name as called

    told = [called(one, "").partition(" ") for one in name]
    signs = (
        category(one)[0] == "M" and before[0] == own[0] and not _UNSEEN.search(own[2])
        for one, before, own in zip(name[1:], told, told[1:], strict=False)
    )
    return name[:1] + "".join("" if sign else one for one, sign in zip(name[1:], signs, strict=True))


def as_kept(name: str) -> str:
    """A name in the one form that it is kept in: small letters, hyphens for blanks, one spelling of each.

    Wide and joined letters and the long s of "ß" are written as the plain ones: Unicode's compatibility
    composition and its folding of case (https://www.unicode.org/reports/tr15/, NFKC; the Unicode Standard,
    section 3.13, definition 145).
    """
    if name.isascii():
        kept = name.lower()
    else:
        from unicodedata import normalize

        kept = normalize("NFKC", normalize("NFKC", name).casefold())
    return re.sub(r"\s+", "-", kept.strip())


def meant(wanted: str, names: Sequence[str]) -> list[str]:
    """Those of the names that one which was typed may mean: that name, or else all that begin so."""
    for name in (wanted.strip(), as_kept(wanted)):
        if name in names:
            return [name]
    begun = as_kept(wanted)
    return [name for name in names if begun and name.startswith(begun)]
