"""Names of jobs: one form of each, so that none only looks like another."""

from __future__ import annotations

import pytest

from coach.log.entries import make_entry
from coach.log.errors import EntryRefused
from coach.log.jobs import Log
from coach.log.names import as_kept, is_job_name, meant
from tests.log.bodies import BEGAN

AT = "2026-11-25T08:00:00Z"

#: As they may be typed or brought in, and what they look like or are read as. The equivalents are those of
#: Unicode's UnicodeData.txt and CaseFolding.txt.
ALIKE = [
    ("Hook", "hook"),
    ("ｈｏｏｋ", "hook"),  # full width
    ("\N{LATIN SMALL LIGATURE FI}re-poker", "fire-poker"),
    ("straße", "strasse"),
    ("STRASSE", "strasse"),
    ("tu\N{COMBINING DIAERESIS}rband", "türband"),
    ("\N{KELVIN SIGN}ey", "key"),
    ("hook\N{SUPERSCRIPT TWO}", "hook2"),
    ("ho\N{LATIN SMALL LETTER LONG S}e", "hose"),
    (" gate  hinge ", "gate-hinge"),
]


@pytest.mark.parametrize(("typed", "kept"), ALIKE)
def test_names_that_look_alike_are_one_name(typed: str, kept: str) -> None:
    assert as_kept(typed) == kept
    assert is_job_name(kept)
    assert not is_job_name(typed)
    assert meant(typed, ["other", kept]) == [kept]


@pytest.mark.parametrize(("typed", "kept"), ALIKE)
def test_the_log_takes_no_name_that_only_looks_like_another(typed: str, kept: str) -> None:
    with Log(":memory:") as log:
        log.begin(kept, AT, BEGAN)
        with pytest.raises(
            EntryRefused, match=r"cannot be its name, which takes letters, .* each in its plain small form"
        ):
            log.begin(typed, AT, BEGAN)
    with pytest.raises(ValueError, match="cannot be its job's name"):
        make_entry(typed, 1, AT, BEGAN, "")


@pytest.mark.parametrize("unseen", "\u3164\u115f\u1160\uffa0\u200b\u00ad\u2060\ufe0f\u202e")
def test_what_is_not_seen_is_no_part_of_a_name(unseen: str) -> None:
    for name in (unseen, f"hook{unseen}", f"{unseen}hook"):
        assert not is_job_name(name)
        assert not is_job_name(as_kept(name))


def test_a_name_means_itself_or_all_that_begin_so() -> None:
    names = ["strap", "strap-2", "straße"]
    assert meant("strap", names) == ["strap"]
    assert meant("STRAP-", names) == ["strap-2"]
    assert meant("str", names) == names
    assert meant("", names) == meant("hook", names) == []
