"""A haft goes into an eye or a socket or over a tang: a solid bar holds none."""

from __future__ import annotations

import pytest

from coach.drafting.answers import CannotDraft, answers_of
from coach.drafting.draft import drafted
from coach.ledger.looking_back import look_back
from coach.ledger.weigh import Cannot, weigh
from coach.operations import Does
from coach.recipe.reader import read_recipe
from coach.telling.words import write

HEAD = """\
recipe: Striking head
pieces:
  head:
    metal: C45
    bar: square 36
    zones:
      poll: octagon 34, long 30 ±4
      {hold}
      nose: 34 x 34 to 34 x 18, long 40 ±5
usual: {{at: light orange}}
steps:
  - mark out: head
  - draw: poll
  - taper: nose
  - haft: {zone}
"""
EYE = "eye: square 36, long 40 ±5, oval hole 28 x 18 through its thickness"


def found(zone: str, hold: str) -> list[str]:
    """What is found of a haft on a zone."""
    text = HEAD.format(zone=zone, hold=hold)
    if hold == EYE:
        text = text.replace("  - draw: poll", "  - punch: eye, slug 5, long free\n  - draw: poll")
    for work in ("taper", "draw"):
        if hold.startswith("tang") and (work == "taper") == (" to " in hold):
            text = text.replace("  - draw: poll", f"  - {work}: tang\n  - draw: poll")
    plan = look_back(read_recipe(text, "head.yaml"))
    return [write(one.sentence) for one in weigh(plan) if one.what is Cannot.SEAT]


@pytest.mark.parametrize(
    ("zone", "hold", "told"),
    [
        # Common practice, no source: what is hafted has a hole for its haft or a tang in it.
        ("poll", EYE, "poll is solid and 34 mm thick: fit it to eye."),
        ("waist", "waist: square 30, long 40 ±5", "waist is solid and 30 mm thick: give it one"),
        ("eye", EYE, ""),
        ("tang", "tang: 16 x 6, long 90 ±9", ""),
        ("tang", "tang: square 20 to 6, long 90 ±9", ""),
    ],
)
def test_a_haft_on_a_solid_bar_is_found_and_one_on_a_tang_or_in_an_eye_is_not(
    zone: str, hold: str, told: str
) -> None:
    words = found(zone, hold)
    assert len(words) == bool(told)
    assert all(told in one for one in words)


TOOL = {
    "name": "Striking head",
    "metal": "C45",
    "bar": "square 36",
    "zones": {"poll": "octagon 34, long 30", "eye": f"{EYE[5:]}", "nose": "34 x 34 to 34 x 18, long 40"},
}


def test_no_haft_is_proposed_on_a_solid_bar() -> None:
    with pytest.raises(CannotDraft) as refused:
        drafted(answers_of({**TOOL, "haft": "poll"}))
    assert "poll is solid and 34 mm thick: fit it to eye" in write(refused.value.words)


def test_a_haft_is_proposed_in_the_eye_or_in_the_socket() -> None:
    socketed = {
        "name": "Spear head",
        "metal": "C45",
        "bar": "40 x 14",
        "zones": {
            "socket": "socket, mouth 32, neck 20, wall 2.5, long 100",
            "neck": "square 14, long 25",
        },
    }
    for told, seat in ((TOOL, "eye"), (socketed, "socket")):
        steps = drafted(answers_of({**told, "haft": "yes"})).plan.recipe.steps
        assert [one.zones[0] for one in steps if one.does(Does.FITS_A_HAFT)] == [seat]
