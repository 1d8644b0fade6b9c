"""A form is one class in one file, found without a list."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import coach.forms
from coach.forms import kinds
from coach.forms.finding import scan
from tests.made import make

WEDGE = '''
"""A form of somebody's own."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from coach.forms.bar import Bar
from coach.forms.base import Loop, rectangle
from coach.forms.flat import Flat


@dataclass(frozen=True, slots=True)
class Strap(Bar):
    """V = 2·w·t·L: two flats together."""

    KIND: ClassVar[str] = "{kind}"
    SUMMARY: ClassVar[str] = "two flats together"
    DIMENSIONS: ClassVar[tuple[str, ...]] = ("width", "thickness", "length")

    width_mm: float
    thickness_mm: float
    length_mm: float

    def section_area_mm2(self) -> float:
        return 2 * self.width_mm * self.thickness_mm

    def perimeter_mm(self) -> float:
        return 4 * self.thickness_mm + 2 * self.width_mm

    def outline(self) -> Loop:
        return rectangle(self.width_mm, 2 * self.thickness_mm)
'''


@pytest.fixture
def folder_of_forms(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A folder that the package of forms reaches into for the length of a test."""
    monkeypatch.setattr(coach.forms, "__path__", [*coach.forms.__path__, str(tmp_path)])
    kinds.cache_clear()
    yield tmp_path
    sys.modules.pop("coach.forms.strap", None)
    vars(coach.forms).pop("strap", None)
    kinds.cache_clear()


def test_a_new_file_is_a_new_form(folder_of_forms: Path) -> None:
    (folder_of_forms / "strap.py").write_text(WEDGE.format(kind="double strap"), encoding="utf-8")
    assert "double strap" in kinds()
    strap = make("double strap", {"width": 30, "thickness": 5, "length": 100})
    assert strap.volume_mm3() == 30_000
    # No solution of its own: the size is found from its volume.
    assert strap.solved("thickness", 60_000).size_mm("thickness") == pytest.approx(10)


def test_two_forms_may_not_share_a_name(folder_of_forms: Path) -> None:
    (folder_of_forms / "strap.py").write_text(WEDGE.format(kind="flat"), encoding="utf-8")
    with pytest.raises(ValueError, match="two forms are called 'flat'"):
        scan(coach.forms)


def test_every_form_of_the_design_is_there() -> None:
    assert set(kinds()) >= {
        "flat",
        "square",
        "round",
        "octagon",
        "hexagon",
        "taper",
        "round taper",
        "eyed",
        "profile",
        "ring",
        "round ring",
        "socket",
    }


def test_the_list_of_forms_cannot_be_changed() -> None:
    with pytest.raises(TypeError):
        kinds()["flat"] = kinds()["round"]  # type: ignore[index]


def test_forms_need_nothing_but_python() -> None:
    asked = (
        "import sys; import coach.forms as f; f.kinds(); "
        "print([m for m in sys.modules if m.split('.')[0] in"
        " {'numpy', 'scipy', 'shapely', 'trimesh', 'pint', 'pydantic', 'yaml', 'textual', 'rich'}])"
    )
    answer = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True)
    assert answer.stdout.strip() == "[]"
