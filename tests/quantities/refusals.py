"""What every refusal of typed text must be: one plain sentence that stays short whatever was typed."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from coach.quantities import Limits, SizeError

# Texts that are dangerous, careless or foreign; none of them is any size.
NEVER_A_SIZE = [
    "",
    " ",
    "\t",
    "\u00a0",
    "9**9**9",
    "9**9**9 mm",
    "mm**9**9**9",
    "nan",
    "nan mm",
    "inf",
    "-inf",
    "infinity",
    "1e400",
    "1e3",
    "1E3 mm",
    "1/0",
    "1 3/0 in",
    "0/0",
    "9" * 10_000,
    "1" * 81,
    " " * 100_000,
    "a" * 100_000,
    "1+" * 5_000,
    "__import__('os')",
    "🔥",
    "28 🔥",
    "28\n",
    "\n28",
    "28\n30",
    "28\u2028",
    "28\x00",
    "\ud800",
    "٣",
    "２８",
    "2²",
    "②",
    "二",
    "½½",
    "2½3",
    "1/2/2",
    "--3",
    "0x1c",
    "1_000",
    "1 500",
    "1,500",
    "1,500.5",
    "1.500,5",
    "1.5.2",
    "28.",
    "28 30 mm",
    "3 in 4",
    "28 furlong",
    "28 (cold)",
    "28; DROP TABLE",
    "[/]",
    "mm",
    "\u212a",  # the kelvin sign, whose lower case is k
]


def refusal(read: Callable[[str], float | Limits], text: str) -> str:
    """Return the sentence with which `read` refuses `text`, having checked its manners."""
    with pytest.raises(SizeError) as caught:
        read(text)
    sentence = str(caught.value)
    assert sentence.endswith(".")
    assert sentence.isprintable()
    assert len(sentence) <= 180
    # The echo is the only part in curved quotes; outside of it there is one full stop, at the end.
    own_words = "".join(part.split("”")[-1] for part in sentence.split("“"))
    assert ". " not in own_words
    return sentence


def read_or_refused(read: Callable[[str], float | Limits], text: str) -> float | Limits | None:
    """Return what `read` makes of `text`, or None when it refuses in one short line; else fail."""
    try:
        return read(text)
    except SizeError as error:
        sentence = str(error)
    assert len(sentence) <= 180
    assert sentence.isprintable()
    return None
