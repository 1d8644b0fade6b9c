"""A photograph stands in the page that is shown, without what a camera or a program wrote into it besides."""

from __future__ import annotations

import io
from base64 import b64decode
from pathlib import Path

import pytest
from PIL import Image, PngImagePlugin

from coach.bench.sheet import PhotographTaken
from coach.sheets.photographs import figures_html
from tests.sheets.test_job_sheet import root_of

SAID = "by the old mill"
_ORIENTATION, _DESCRIPTION, _GPS = 0x0112, 0x010E, 0x8825


def drawn() -> Image.Image:
    """A picture of four colours, wider than it is high."""
    made = Image.new("RGB", (32, 16), (200, 30, 30))
    made.paste((20, 180, 40), (0, 0, 16, 8))
    return made


def shown_of(file: Path, text: str = "") -> list[tuple[str, bytes]]:
    """The kind and the bytes of each picture that stands in the page."""
    html = figures_html([PhotographTaken(7, 2, str(file), text)])
    assert str(file.parent) not in html
    root = root_of(f"\n<div>{html}</div>")
    sources = [one.attrib["src"].partition(";base64,") for one in root.iter("img")]
    return [(kind.removeprefix("data:image/"), b64decode(held)) for kind, _, held in sources]


def test_a_jpeg_is_shown_the_right_way_up_and_does_not_say_where_it_was_taken(tmp_path: Path) -> None:
    file, exif = tmp_path / "hook.jpg", Image.Exif()
    exif[_ORIENTATION], exif[_DESCRIPTION] = 6, SAID
    exif.get_ifd(_GPS)[1] = "N"
    drawn().save(file, exif=exif, comment=SAID.encode())
    assert SAID.encode() in file.read_bytes()
    ((kind, held),) = shown_of(file)
    assert kind == "jpeg"
    assert SAID.encode() not in held
    with Image.open(io.BytesIO(held)) as found, Image.open(file) as was:
        assert found.tobytes() == was.tobytes()
        assert dict(found.getexif()) == {_ORIENTATION: 6}


def test_a_png_is_shown_without_the_words_in_it(tmp_path: Path) -> None:
    file, words = tmp_path / "hook.png", PngImagePlugin.PngInfo()
    words.add_text("place", SAID)
    drawn().save(file, pnginfo=words)
    assert SAID.encode() in file.read_bytes()
    ((kind, held),) = shown_of(file)
    assert kind == "png"
    assert SAID.encode() not in held
    with Image.open(io.BytesIO(held)) as found:
        assert found.tobytes() == drawn().tobytes()


@pytest.mark.parametrize(
    "held",
    [b"", b"\xff\xd8\xff", b"\xff\xd8\xff\xe1\x00", b"\x89PNG\r\n\x1a\n\x00\x00\xff", b"<svg/>", None],
)
def test_what_is_no_whole_picture_or_is_gone_is_left_out(tmp_path: Path, held: bytes | None) -> None:
    file = tmp_path / "hook.jpg"
    if held is not None:
        file.write_bytes(held)
    assert shown_of(file) == []


@pytest.mark.parametrize(
    ("held", "why"),
    [(None, "it is not there any more"), (b"<svg/>", "it is no whole JPEG or PNG, or too large")],
)
def test_why_a_photograph_is_not_shown_is_told_without_where_it_lay(
    tmp_path: Path, held: bytes | None, why: str
) -> None:
    file = tmp_path / "hook.jpg"
    if held is not None:
        file.write_bytes(held)
    html = figures_html([PhotographTaken(7, 2, str(file), "")])
    assert html == f"<p>hook.jpg is not shown here: {why}.</p>\n"


def test_what_is_to_be_seen_on_it_stands_under_it_and_is_no_tag(tmp_path: Path) -> None:
    file = tmp_path / "hook.png"
    drawn().save(file)
    html = figures_html([PhotographTaken(7, 2, str(file), 'the "bend" <b>')])
    (caption,) = root_of(f"\n<div>{html}</div>").iter("figcaption")
    assert caption.text == 'Step 2: hook.png, the "bend" <b>'
