"""Every figure that means something at the fire or in a standard says where it is from and how sure it is."""

from __future__ import annotations

import re

import pytest

from tests.write_sources import EDITIONS, figures, figures_of, told_once, without_source

#: A standard or a law by its letters and number, and what tells which edition of it is meant.
_STANDARD = re.compile(
    r"\b(?:EN ISO|ISO/CIE|ISO|EN|DIN|IEC|ASTM|ASME|ANSI|SAE|FPL-GTR)[ -][A-Z]{0,2}\d[\w./-]*"
)


def test_every_figure_says_how_far_it_is_confirmed() -> None:
    assert without_source() == []


def test_the_register_holds_what_can_hurt_someone() -> None:
    marks = {f"{one.where} {one.name}": one.marks for one in figures()}
    for name in (
        "metals/hardening.py _OIL_C",
        "metals/hardening.py _WATER_C",
        "metals/hardening.py COOLED_C",
        "fire/limits.py BURNING_ABOVE_HANDBOOK_C",
        "ledger/verdict.py ON_PLAN_CHANCE",
        "ledger/verdict.py TIGHT_CHANCE",
        "metals/wanted_hardness.toml parts.struck end",
    ):
        assert marks[name], name


@pytest.mark.parametrize(
    ("written", "marks"),
    [
        ("#: Told by nobody.\nHEAT_C = 850.0\n", ()),
        ("#: Told, but not confirmed.\nHEAT_C = 850.0\n", ()),
        ("#: Told by a smith (from memory).\nHEAT_C = 850.0\n", ("from memory",)),
        ("HEAT_C = 850.0  # a standard (confirmed second-hand)\n", ("confirmed second-hand",)),
        ("#: EN 1 (confirmed), rounded; judgement.\nHEAT_C: float = 850.0\n", ("confirmed", "judgement")),
    ],
)
def test_a_figure_is_read_with_what_stands_beside_it(written: str, marks: tuple[str, ...]) -> None:
    (one,) = figures_of("fire/one.py", f'"""One."""\n\n{written}')
    assert (one.name, one.value, one.marks) == ("HEAT_C", "850.0", marks)


def test_figures_in_a_row_share_the_comment_of_the_first() -> None:
    low, high, other = figures_of(
        "fire/one.py", '"""One."""\n\n#: A book (from memory).\nLOW_C = 1.5\nHIGH_C = 2.5\n\nOTHER_C = 3.5\n'
    )
    assert (low.marks, high.marks, other.marks) == (("from memory",), ("from memory",), ())


def test_a_figure_inside_an_equation_wants_a_source_in_its_docstring() -> None:
    body = "def law(x: float) -> float:\n    {}\n    return 0.357 * x\n"
    (bare,) = figures_of("fire/one.py", '"""One."""\n\n' + body.format('"""A law."""'))
    (told,) = figures_of(
        "fire/one.py", '"""One."""\n\n' + body.format('"""A law. Source: a book (from\\n    memory)."""')
    )
    assert (bare.marks, told.marks) == ((), ("from memory",))


def test_hardness_of_struck_tools_names_the_edition_of_its_standard() -> None:
    lacking = [
        one.said
        for one in figures()
        if one.where == "metals/wanted_hardness.toml"
        for standard in _STANDARD.findall(one.said)
        if not re.search(r"(?:19|20)\d\d", one.said)
    ]
    assert lacking == []


def test_what_was_read_says_which_edition_or_that_it_was_not_seen() -> None:
    lacking = [
        f"{one.where} {one.name}"
        for one in figures()
        if "confirmed" in one.marks and one.edition == "not noted"
    ]
    assert lacking == []


@pytest.mark.parametrize(
    ("said", "edition"),
    [
        ("ASME B107.47M-1998; B107.410-2018 replaced it (confirmed)", "1998, 2018"),
        ("29 CFR 1910.133(a)(1) (confirmed)", "as in force"),
        ("1900 °C, a handbook (from memory)", "from memory"),
        ("1900 °C, a maker's sheet (confirmed second-hand)", "not noted"),
        ("a matrix of IEC 61966-2-1 (confirmed second-hand)", "1999, amended 2003"),
        ("IEC 61966-2-1:1999 (confirmed second-hand)", "1999"),
        ("a handbook, year not seen (confirmed)", "not seen"),
        ("so far (judgement)", "-"),
    ],
)
def test_the_years_of_a_source_are_its_edition(said: str, edition: str) -> None:
    (one,) = figures_of("fire/one.py", f'"""One."""\n\n#: {said}.\nHEAT_C = 850.0\n')
    assert one.edition == edition


def test_what_several_figures_have_from_one_source_is_told_once() -> None:
    text = '"""One."""\n\n#: A book of 1912, p. 5 (confirmed).\nLOW_C = 850.0\nHIGH_C = 900.0\n\n'
    text += "OWN = 7.5  # (judgement)\n"
    both, own = told_once(figures_of("fire/one.py", text))
    assert (both.name, both.value) == ("LOW_C, HIGH_C", "850.0; 900.0")
    assert own.name == "OWN"


def test_no_edition_is_kept_of_a_work_that_no_figure_names() -> None:
    found = [one.said for one in figures()]
    assert [name for name in EDITIONS if not any(name in said for said in found)] == []


def test_no_standard_is_named_without_an_edition() -> None:
    lacking = [one.said for one in figures() if one.edition == "not noted" and _STANDARD.search(one.said)]
    assert lacking == []
