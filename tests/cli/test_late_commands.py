"""Fitting a haft, putting right, correcting, drawing and looking back, from the command line."""

from __future__ import annotations

from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from tests.cli.conftest import Coach, Said


@pytest.fixture
def adze(coach: Coach) -> str:
    assert coach("begin", "carpenters-adze", "--name", "adze").code == 0
    return "adze"


def rows(said: Said, key: str) -> list[dict[str, Any]]:
    found = said.values[key]
    assert isinstance(found, list)
    return found


def test_a_haft_is_reckoned_and_then_taken(coach: Coach, adze: str) -> None:
    said = coach("fit", adze, "37x22.5", "--wood", "ash", "--moisture", "14")
    assert said.code == 0
    # White ash from 14 to 10 %, 7.8 % along the rings and 4.9 % across them: 37 × 4 / (3000/7.8 − 30 + 14)
    # = 0.40 mm and 22.5 × 4 / (3000/4.9 − 30 + 14) = 0.151 mm (Wood Handbook, FPL-GTR-190, equation 13-2
    # and table 4-3), and 0.4 mm for the file (judgement): 36.198 and 21.949 mm.
    assert "36.2 mm × 21.9 mm" in said.out
    assert "Step 27 will work to it." in said.out
    assert len(rows(coach("history", adze, "--json"), "entries")) == 1
    taken = coach("fit", adze, "37x22.5", "--wood", "ash", "--moisture", "14", "--take")
    assert taken.code == 0
    assert "Fit the eye to a haft" in coach("history", adze).out


@pytest.mark.parametrize("size", ["37", "x", "37 by 22"])
def test_what_is_no_haft_is_refused_in_one_sentence(coach: Coach, adze: str, size: str) -> None:
    said = coach("fit", adze, size)
    assert said.code == 2
    assert "type" in said.err
    assert said.err.count("\n") == 1


def test_things_to_put_right_are_noted_listed_and_ticked_off(coach: Coach, adze: str) -> None:
    assert "Nothing is to be put right" in coach("right", adze).out
    said = coach("note", adze, "--right", "eye:", "leans", "to", "the", "left")
    assert "On the list to put right of the eye" in said.out
    coach("note", adze, "--right", "--zone", "blade", "shoulder too sharp")
    listed = rows(coach("right", adze, "--json"), "to_right")
    assert [(one["zone"], one["text"]) for one in listed] == [
        ("eye", "leans to the left"),
        ("blade", "shoulder too sharp"),
    ]
    assert "eye" in coach("right", adze).out
    assert "Put right" in coach("right", adze, str(listed[0]["entry"])).out
    assert len(rows(coach("right", adze, "--json"), "to_right")) == 1
    assert coach("right", adze, "99").code == 2
    assert coach("note", adze, "--zone", "eye", "plain").code == 2


def test_a_reading_is_corrected(coach: Coach, adze: str) -> None:
    coach("read", adze, "poll.length=25")
    said = coach("correct", adze, "2", "20.5")
    assert "Entry 2 is now poll length 20.5 mm" in said.out
    assert coach("correct", adze, "1", "20").code == 2
    assert coach("correct", adze, "two", "20").code == 2


def test_a_piece_is_drawn_in_the_terminal_and_as_a_drawing_to_scale(
    coach: Coach, adze: str, tmp_path: Path
) -> None:
    said = coach("picture", adze, "--of", "finished")
    assert said.code == 0
    assert all(len(line) <= 80 for line in said.out.splitlines())
    assert "100 mm" in said.out
    file = tmp_path / "adze.svg"
    assert coach("picture", adze, "--of", "stock", "--svg", str(file)).code == 0
    drawn = ElementTree.parse(file).getroot()
    assert drawn.tag.endswith("svg")
    assert drawn.attrib["width"].endswith("mm"), "one to one on paper"
    assert coach("picture", adze, "--of", "everything").code == 2
    assert coach("picture", adze, "--piece", "handle").code == 2
    assert coach("picture", adze, "--svg", str(tmp_path / "no" / "such" / "folder.svg")).code == 2


def test_how_the_spare_has_gone_is_told_from_the_beginning(coach: Coach, adze: str) -> None:
    coach("done", adze)
    coach("heat", adze)
    points = rows(coach("history", adze, "--spare", "--json"), "spare")
    assert {point["entry"] for point in points} == {0, 2, 3}
    assert all(point["spare"]["unit"] == "mm" and point["spare"]["doubt"] >= 0.0 for point in points)
    assert "poll length" in coach("history", adze, "--spare").out
    assert "left out" not in coach("history", adze, "--spare").out
    for _ in range(20):
        coach("heat", adze)
    told = " ".join(coach("history", adze, "--spare").out.split())
    assert "Shown are the beginning, each way back," in told
    assert "some of the others; left out are 7, which `--every` tells too." in told
    assert coach("history", adze, "--spare", "--json").values["left_out"] == 7
    every = coach("history", adze, "--spare", "--every", "--json").values
    assert every["left_out"] == 0
    assert (
        len(
            {
                point["entry"]
                for point in rows(coach("history", adze, "--spare", "--every", "--json"), "spare")
            }
        )
        == 23
    )
    assert "--every goes with --spare" in coach("history", adze, "--every").err


def test_a_rest_says_what_to_do_with_piece_and_fire(coach: Coach, adze: str) -> None:
    coach("done", adze)
    coach("heat", adze)
    said = coach("rest", adze)
    assert "still air until it is black" in said.out
    assert "Measure first  Cold" in coach("resume", adze).out


def test_the_smith_s_own_grade_is_begun_from_a_starter_and_found(
    coach: Coach, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from coach.places import grade_folder

    starter = coach("steel", "--template", "Barn spring")
    assert starter.code == 0
    folder = grade_folder()
    folder.mkdir(parents=True)
    (folder / "barn-spring.toml").write_text(starter.out, encoding="utf-8")
    assert "Barn spring" in coach("steel").out
    assert coach("steel", "barn spring").code == 0
    (folder / "spoilt.toml").write_text("name = ", encoding="utf-8")
    said = coach("steel")
    assert said.code == 2
    assert "spoilt.toml" in said.err
    # One spoilt file must not stop the work with every other steel.
    assert coach("begin", "first-hook").code == 0
    assert coach("steel", "barn spring").code == 0
