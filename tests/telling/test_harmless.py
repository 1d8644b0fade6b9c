"""Text is shown as it stands, but for what a terminal takes for an order."""

from __future__ import annotations

import json
import unicodedata

import pytest

from coach.telling.harmless import harmless, harmless_json, harmless_lines

#: By their class in Unicode: Cc controls, Zl and Zp ends of lines and paragraphs, Cs half a character.
EVERY = [chr(code) for code in range(0x110000)]
ORDERS = {one for one in EVERY if unicodedata.category(one) in ("Cc", "Zl", "Zp", "Cs")}
#: Unicode's bidirectional algorithm (UAX 9): embeddings, overrides and isolates.
TURNS = {one for one in EVERY if unicodedata.bidirectional(one) in ("LRE", "RLE", "LRO", "RLO", "PDF")} | {
    one for one in EVERY if unicodedata.bidirectional(one) in ("LRI", "RLI", "FSI", "PDI")
}


def test_what_is_an_order_is_never_shown_and_all_else_is() -> None:
    assert {one for one in EVERY if harmless(one) != one} == ORDERS | TURNS
    assert all(harmless(one) in (" ", "\N{REPLACEMENT CHARACTER}") for one in ORDERS | TURNS)


def test_a_text_of_several_lines_keeps_its_lines() -> None:
    assert harmless_lines("one\ntwo\r\x1bthree") == "one\ntwo��three"


@pytest.mark.parametrize("text", ["".join(sorted(ORDERS | TURNS, reverse=True)), "1 1/4 in · 31.5 mm ±1"])
def test_json_without_orders_reads_as_it_did(text: str) -> None:
    written = harmless_json(json.dumps({"told": text}, ensure_ascii=False))
    assert harmless(written) == written
    assert json.loads(written) == {"told": text}
