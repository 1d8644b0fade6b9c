"""What a question tells of its answer becomes a page in the units asked for."""

from __future__ import annotations

from coach.cli.page import set_page
from coach.quantities import celsius, mm, say
from coach.reckoner.asking.told import Caution, Rows, Swatched, Told, Under, Verbatim, rows
from coach.telling.answer import answer_page
from coach.telling.page import Line, Row, Table, Tone
from coach.telling.writing import Shown


def lines(*told: Told, shown: Shown | None = None) -> list[str]:
    return set_page(answer_page(told, shown or Shown()))


def test_each_sentence_begins_with_a_capital_and_ends_with_a_stop() -> None:
    assert lines(say("{} of it", mm(25.4)), "", "it is hot.") == ["25.4 mm of it.", "It is hot."]
    assert lines(say("{} of it", mm(25.4)), shown=Shown("in")) == ["1 in of it."]


def test_a_table_stands_one_step_in_and_holds_figures_of_any_kind() -> None:
    told = rows(
        [(mm(10.0), "cold", celsius(20.0)), (mm(100.0), say("at {}", celsius(900.0)), celsius(900.0))]
    )
    assert lines("Sizes:", told) == [
        "Sizes:",
        "  10 mm   cold       20 °C",
        "  100 mm  at 900 °C  900 °C",
    ]


def test_what_stands_under_a_heading_is_set_apart_and_left_out_when_it_is_empty() -> None:
    told = ("first", Under("Then", ("second", rows([]))), Under("Never", ("", rows([]))), "last")
    assert lines(*told) == ["First.", "", "Then", "  Second.", "", "Last."]


def test_a_caution_stands_alone_and_is_marked() -> None:
    page = answer_page(["it cools", Caution("it burns"), Caution("")])
    assert [section.body for section in page.sections] == [
        (Line("It cools."),),
        (Line("Caution: It burns.", tone=Tone.CARE),),
    ]


def test_a_text_to_be_saved_is_not_broken() -> None:
    text = f"# {'long ' * 30}\n\n[table]\n  key = 1"
    assert lines(Verbatim(text)) == text.splitlines()


def test_a_swatch_stands_beside_its_line_and_its_row() -> None:
    page = answer_page([Swatched("orange", (255, 160, 0)), Rows((("one",),), ((1, 2, 3),))])
    assert page.sections[0].body == (
        Line("orange", swatch=(255, 160, 0)),
        Table((Row(("one",), swatch=(1, 2, 3)),), indent=1),
    )
