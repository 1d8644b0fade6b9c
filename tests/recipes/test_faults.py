"""What is wrong with a recipe: one row, one fault, with its line and column and the word that is right."""

from __future__ import annotations

import textwrap
from pathlib import Path

import pytest

from coach.quantities.words import as_words
from coach.recipe.faults import Fault, RecipeFaults
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.ledger.recipes import EYE, planned
from tests.recipes.slips import SLIPS
from tests.recipes.texts import HAMMER, PIN


def faults_of(text: str, source: str = "job.yaml") -> tuple[Fault, ...]:
    with pytest.raises(RecipeFaults) as refused:
        read_recipe(text, source)
    return refused.value.faults


def changed(text: str, old: str, new: str) -> str:
    assert text.count(old) >= 1, old
    return text.replace(old, new, 1)


@pytest.mark.parametrize(("text", "old", "new", "place", "said"), SLIPS)
def test_one_slip_is_one_fault_in_its_place(text: str, old: str, new: str, place: str, said: str) -> None:
    slipped = changed(text, old, new)
    found = faults_of(slipped)
    assert [said in str(fault.message) for fault in found] == [True], found
    start = slipped.index(place) + (1 if place.startswith("\n") else 0)
    before = slipped[:start]
    line = before.count("\n") + 1
    if place.startswith("\n"):
        line -= 1  # the value that is missing ends the line before
    assert found[0].source == "job.yaml"
    assert found[0].line == line, found
    if not place.startswith("\n"):
        assert found[0].column == start - before.rfind("\n"), found


@pytest.mark.parametrize(("text", "old", "new", "place", "said"), SLIPS)
def test_a_fault_is_one_short_sentence_in_plain_words(
    text: str, old: str, new: str, place: str, said: str
) -> None:
    (fault,) = faults_of(changed(text, old, new))
    assert "\n" not in str(fault.message)
    assert 10 < len(str(fault.message)) < 250
    for strange in ("pydantic", "yaml", "dict", "None", "str_", "Input should", "validation", "NoneType"):
        assert strange not in str(fault.message)


def test_ten_different_faults_are_ten_at_once() -> None:
    marked = textwrap.dedent("""\
        ‸titel: Ten faults, and one more
        recipe: Ten faults
        units: ‸cubits
        marks: ‸far
        pieces:
          body:
            metal: ‸cheese
            bar: 50 x 25
            zones:
              poll: square ‸36 ±40, long 30
              blade: 50 x 25 to 50 x 4, ‸lenght 90
        steps:
          - ‸hammer: poll
          - draw: poll, square 36, ‸2.5 heats
            gauge: ‸eyeball
          - taper: blade, end thick 4, ‸dephth 3
            rest: ‸perhaps
        """)
    places = []
    for number, line in enumerate(marked.splitlines(), start=1):
        starts = [index for index, letter in enumerate(line) if letter == "‸"]
        places += [(number, start + 1 - earlier) for earlier, start in enumerate(starts)]
    found = faults_of(marked.replace("‸", ""), "ten.yaml")
    assert [(fault.line, fault.column) for fault in found] == places
    assert len(found) == 11
    assert {fault.source for fault in found} == {"ten.yaml"}


def test_a_fault_is_written_as_file_line_column_and_sentence() -> None:
    assert str(Fault("a.yaml", 3, 7, as_words("the metal is missing"))) == "a.yaml:3:7: the metal is missing"


def test_faults_come_in_the_order_of_the_file() -> None:
    late, early = Fault("a", 9, 1, as_words("x")), Fault("a", 2, 5, as_words("y"))
    assert RecipeFaults([late, early]).faults == (early, late)
    assert str(RecipeFaults([late, early])) == "a:2:5: y\na:9:1: x"


def test_pieces_may_stay_apart_where_nothing_is_welded() -> None:
    peg = "  peg:\n    metal: C45\n    bar: square 8\n    size: square 8, long 30\nsteps:"
    pair = PIN.replace("steps:", peg)
    assert len(read_recipe(pair, "x").pieces) == 2


def test_a_piece_that_no_weld_joins_to_a_welded_tool_is_told() -> None:
    lip = "  lip:\n    metal: C45\n    bar: square 8\n    size: square 8, long 30\nsteps:"
    third = HAMMER.replace("steps:", lip)
    (fault,) = faults_of(third)
    assert "no step welds lip on" in str(fault.message)


def test_a_misspelt_operation_does_not_set_off_other_faults() -> None:
    (fault,) = faults_of(HAMMER.replace("- temper:", "- tempre:"))
    assert "did you mean temper?" in str(fault.message)


def test_pieces_that_cannot_be_read_do_not_set_off_a_fault_in_every_step() -> None:
    start, end = HAMMER.index("pieces:"), HAMMER.index("steps:")
    (fault,) = faults_of(HAMMER[:start] + "pieces: none\n" + HAMMER[end:])
    assert "names with their values" in str(fault.message)


@pytest.mark.parametrize("name", ["p.n", "3rd", "-", "x" * 41, "a/b", "a:b", ".pin"])
def test_a_name_must_be_one_that_can_be_typed_with_a_dimension_after_it(name: str) -> None:
    text = PIN.replace("  pin:", f'  "{name}":').replace("taper: pin", f'taper: "{name}"')
    assert any("a name is up to 40 letters" in str(fault.message) for fault in faults_of(text))


def test_names_may_hold_blanks_hyphens_and_other_letters() -> None:
    for name in ("Left jaw", "Größe-2", "smith’s own"):
        text = PIN.replace("  pin:", f"  {name}:").replace("taper: pin", f"taper: {name}")
        assert list(read_recipe(text, "x").pieces) == [name]


def test_a_size_in_a_fault_is_told_in_the_units_asked_for() -> None:
    with pytest.raises(RecipeFaults) as refused:
        planned(EYE.replace("hole length: 32 ±1", "hole length: 76.2 ±1"))
    assert "leaves no end in a length of 44 mm" in write(refused.value.words)
    told = write(refused.value.words, Shown("in"))
    assert "the hole length of 3 in leaves no end" in told
    assert " mm" not in told


def test_what_else_is_wrong_in_a_step_whose_operation_is_misspelt_is_told_with_it() -> None:
    text = changed(PIN, "taper: pin", "tapper: pni, at 1100")
    assert [write(one.message) for one in faults_of(text)][-3:] == [
        "“tapper” is no operation: did you mean taper?",
        "there is no zone “pni”: did you mean pin?",
        "1100 of what? Write 1100 °C",
    ]


def test_what_only_the_misspelt_operation_could_say_is_no_fault_beside_it() -> None:
    text = changed(PIN, "taper: pin", "tapper: pin, skin 3, edge angle 20")
    assert [write(one.message) for one in faults_of(text)] == [
        "“tapper” is no operation: did you mean taper?"
    ]


def test_a_name_that_no_zone_has_is_told_beside_another_slip_of_its_line() -> None:
    text = changed(PIN, "taper: pin", "taper: pni, at 1100")
    told = [write(one.message) for one in faults_of(text)]
    assert "there is no zone “pni”: did you mean pin?" in told
    assert "1100 of what? Write 1100 °C" in told


@pytest.mark.parametrize(
    "written", ["taper: pin, 0 heats", "taper: pin, 0 heats, at 1100 °C", "taper: pin\n    heats: 0"]
)
def test_no_heats_is_asked_whether_cold_or_in_the_heat_before(written: str) -> None:
    (one,) = faults_of(changed(PIN, "taper: pin", written))
    assert "Write cold or same heat in the place of 0 heats" in write(one.message)


def test_work_that_is_never_hot_may_say_that_it_takes_no_heat() -> None:
    assert read_recipe(PIN + "  - file: pin, 0 heats\n", "job.yaml").steps[1].heats == 0


BEVELLED = """\
recipe: Pointer
pieces:
  blade:
    metal: C80
    bar: 25 x 6
    size: 25 x 6, edge 2 ±0.5 over 12 on one side, long 70 ±5
steps:
  - cut: blade, cold
  - side bevel: blade, edge 2 ±0.5 over 12, 2 heats, at orange
"""


def test_a_side_that_is_not_as_drawn_is_told_in_words_that_a_recipe_is_written_in() -> None:
    (one,) = faults_of(BEVELLED)
    assert "leave blade with both sides worked, but it is drawn with one side worked" in write(one.message)


SAWN = """\
recipe: Peg
pieces:
  peg:
    metal: mild steel
    bar: round 10
    zones:
      loop: round 7, long 60 ±5
      spike: round 10 to 4, long 200 ±12
usual: {at: light orange, kerf: 1.5}
steps:
  - cut: spike, cold
  - mark out: peg
  - cut: spike, cold
  - draw: loop
  - taper: spike
"""


def test_a_bar_that_is_sawn_cold_is_marked_out_after_it() -> None:
    # The saw leaves the bar as cold and as straight as it was (common practice, no source).
    read_recipe(SAWN, "peg.yaml")
    for sooner in ("cut: spike, 1 heat", "draw: loop"):
        (fault,) = faults_of(changed(SAWN, "cut: spike, cold", sooner))
        assert "worked in step 1: mark out before that" in write(fault.message)


def test_more_zones_than_can_be_reckoned_in_a_moment_are_refused() -> None:
    text = (Path(__file__).parents[2] / "recipes" / "first-hook.yaml").read_text("utf-8")
    here = text.index("      plate:")
    more = "".join(f"      bar {one}: square 8 ±0.8, long 110 ±10\n" for one in range(98))
    (fault,) = faults_of(text[:here] + more + text[here:])
    assert str(fault.message) == "there are 101 zones, and a recipe has 100 at most: make two recipes of it"
    assert fault.line == text[: text.index("\npieces:")].count("\n") + 2
    read_recipe(text[:here] + more.partition("\n")[2] + text[here:], "job.yaml")


def test_a_piece_where_a_zone_belongs_says_how_all_of_it_is_named() -> None:
    text = (
        "recipe: Hook\npieces:\n  hook:\n    metal: mild steel\n    bar: round 12\n    zones:\n"
        "      point: round 12 to 5, long 90 ±8\n      shank: round 12, long 200 ±10\nsteps:\n"
        "  - mark out: hook\n  - taper: point, 2 heats, at orange\n  - cut: shank, cold\n  - inspect: hook\n"
    )
    (fault,) = faults_of(text)
    assert (fault.line, fault.column) == (13, 14)
    told = "hook is a whole piece: write its point or shank, or all of hook where no metal is moved"
    assert write(fault.message) == told
    read_recipe(text.replace("inspect: hook", "inspect: all of hook"), "x")


@pytest.mark.parametrize("told", ["kerf: 2 cm", "skin: 0.1 inch"])
def test_what_holds_for_every_step_is_in_no_unit_that_its_sizes_are_not_in(told: str) -> None:
    (fault,) = faults_of(changed(SAWN, "kerf: 1.5", told))
    assert (fault.line, write(fault.message)) == (9, f"“{told.split(': ')[1]}”: write sizes in mm, in or ft")
    read_recipe(changed(SAWN, "kerf: 1.5", "kerf: 1/16 in"), "peg.yaml")


def test_one_slip_in_a_line_of_twelve_pieces_is_one_fault() -> None:
    text = (
        "recipe: Nails\nmake: 12\npieces:\n  nail:\n    metal: mild steel\n    bar: square 8\n    zones:\n"
        "      shank: square 7 to 3, long 80 ±8\n      head: round 14 ±1.5, long 4 ±0.8\nsteps:\n"
        "  - mark out: nail\n  - taper: shank, 1 heat\n  - cut: nail, cold\n  - upset: head, 1 heat\n"
    )
    (fault,) = faults_of(text)
    assert (fault.line, fault.column) == (13, 10)
    told = "nail is a whole piece: write its shank or head, or all of nail where no metal is moved"
    assert write(fault.message) == told


KNIFE = """\
recipe: Knife
pieces:
  knife:
    metal: "1084"
    bar: 30 x 4
    zones:
      tang: 12 x 4 to 8 x 3.5, long 90 ±8
      blade: 30 x 4, long 160 ±10
usual: {at: light orange}
steps:
  - mark out: knife
  - taper: tang, 2 heats
  - harden: blade, at 800 to 830 °C, soak 3 min, quench fast oil
    check: file test
  - temper: blade, at 200 to 230 °C, soak 1 h
"""


@pytest.mark.parametrize(
    ("old", "new", "place", "told"),
    [
        (
            "harden: blade, at 800 to 830 °C, soak 3 min, quench fast oil",
            "quench: tang",
            (13, 5),
            "to quench is harden here: a step begins with its operation and its zone, such as harden: tang",
        ),
        ("harden: blade", "harden blade", (13, 5), "a colon is missing behind harden: write “harden: blade”"),
        ("2 heats", "heats", (12, 18), "“heats” is no word of taper: write its number before it"),
        ("90 ±8", "90, ±8", (7, 41), "“±8”: limits stand behind their size with no comma between"),
        (
            "long 160 ±10",
            "long 160 ±10, twist 2 turns",
            (8, 36),
            "“twist 2 turns” is no word of a zone: did you mean twisted 2 turns?",
        ),
        (
            "blade: 30 x 4",
            "blade: gouge 30 x 4",
            (8, 14),
            (
                "“gouge” is no word of a zone: what is curved across its bar is no form: write the flat that "
                "it is made of, as wide as the curve is long, and the curve under how"
            ),
        ),
        (
            "at: light orange",
            "at cherry",
            (9, 9),
            "“at cherry” is no name that belongs here: a colon belongs behind at, as in at: cherry",
        ),
    ],
)
def test_a_slip_of_one_sign_or_word_is_one_sentence_that_says_what_to_write(
    old: str, new: str, place: tuple[int, int], told: str
) -> None:
    read_recipe(KNIFE, "knife.yaml")
    (fault,) = faults_of(changed(KNIFE, old, new))
    assert (fault.line, fault.column) == place
    assert write(fault.message) == told
