"""The file of settings: read, judged line by line, and written with what else stands in it left alone."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.settings import settings_in
from coach.settings.reading import read_settings
from coach.settings.table import setting_of, table
from coach.settings.writing import changed, explained


def test_the_file_as_it_is_made_sets_nothing_and_explains_everything() -> None:
    text = explained()
    found = read_settings(text)
    assert (dict(found.values), found.faults) == ({}, ())
    for setting in table().values():
        assert setting.told.split(".")[0].split(":")[0] in " ".join(text.replace("\n# ", " ").split())


def test_every_example_in_it_may_be_set_as_it_stands() -> None:
    told = "\n".join(
        line.removeprefix("#") if line.startswith("#") and not line.startswith("# ") else line
        for line in explained().splitlines()
    )
    found = read_settings(told)
    assert found.faults == ()
    assert {*table(), "keys.f13", "keys.plus"} == {*found.values}


@pytest.mark.parametrize(
    ("text", "line", "told"),
    [
        ('units = "cm"', 1, "expected one of mm, in, not 'cm'"),
        ('\n[gauges.calliper]\ncold_mm = "thin"', 3, "expected millimetres from 0.001 to 10, not 'thin'"),
        ("[gauges.calliper]\ncold_mm = 0", 2, "expected millimetres"),
        ("[gauges.calliper]\ncold_mm = true", 2, "expected millimetres"),
        ("[alarm]\nback = []", 2, "expected a program and its words"),
        ('[alarm]\nback = ["play", 3]', 2, "expected a program and its words"),
        ('[alarm]\nback = " "', 2, "expected the name of a program first"),
        ('[keys]\nf13 = "hammer"', 2, "expected one of out, in, done"),
        ('[keys]\nf1 = "out"', 2, "no key that may do something else"),
        ('[keys]\n7 = "out"', 2, "no key that may do something else"),
        ('lok = "ember"', 1, "did you mean look?"),
        ('units = "mm"\nlook = ember', 2, "This line cannot be read"),
    ],
)
def test_what_cannot_be_is_told_with_its_line_and_sets_nothing(text: str, line: int, told: str) -> None:
    found = read_settings(text)
    (fault,) = found.faults
    assert fault.line == line
    assert told in fault.told
    assert dict(found.values) == {}


def test_one_wrong_setting_takes_no_other_with_it() -> None:
    found = read_settings('units = "in"\nlook = "pink"\n[keys]\nf13 = "out"\n')
    assert dict(found.values) == {"units": "in", "keys.f13": "out"}
    assert [fault.line for fault in found.faults] == [2]


@given(st.text(max_size=200))
def test_whatever_stands_in_the_file_is_read_or_told(text: str) -> None:
    found = read_settings(text)
    assert all(fault.told for fault in found.faults)


def test_a_file_that_is_no_text_is_told(tmp_path: Path) -> None:
    file = tmp_path / "settings.toml"
    file.write_bytes(b"units = \xff")
    assert "UTF-8" in settings_in(file).faults[0].told
    file.unlink()
    file.mkdir()
    assert settings_in(file).faults


VALUES = {
    "units": "in",
    "second_folder": 'a "quoted" \\ path',
    "alarm.back": ("play", "horn 1.wav", "$(rm x)"),
    "keys.f13": "out",
    "keys.ctrl+b": "done",
    "gauges.by eye.cold_mm": 2.5,
}


@pytest.mark.parametrize("before", ["", explained(), "# mine\n[keys]\npause = 'in' # foot\n"])
def test_a_setting_is_changed_and_taken_out_with_the_rest_as_it_was(before: str) -> None:
    text = before
    for name, value in VALUES.items():
        setting = setting_of(name)
        assert setting is not None
        text = changed(text, setting, value)
        assert read_settings(text).get(name) == value
    others = {"keys.pause": "in"} if "'in'" in before else {}
    assert dict(read_settings(text).values) == {**VALUES, **others}
    for line in before.splitlines():
        if line.startswith("# "):
            assert line in text
    for name in VALUES:
        setting = setting_of(name)
        assert setting is not None
        text = changed(text, setting, None)
    assert dict(read_settings(text).values) == others
    tomllib.loads(text)
