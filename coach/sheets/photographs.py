"""Photographs in a page that is shown: the picture itself, and nothing of where it was taken."""

from __future__ import annotations

import struct
from base64 import b64encode
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Final

from coach.bench.sheet import PhotographTaken
from coach.files import contents
from coach.sheets.html import text
from coach.telling.photographs import photograph_named, photograph_text

#: No file above this is put in a page, and no more of them than this together (our choice).
_MOST_BYTES: Final = 12_000_000
_MOST_TOGETHER: Final = 48_000_000
_PNG: Final = b"\x89PNG\r\n\x1a\n"
_JPEG: Final = b"\xff\xd8\xff"
#: The parts of a PNG that hold words and where it was taken (PNG, third edition, 11.3, from memory).
_PNG_SAYS: Final = (b"eXIf", b"tEXt", b"iTXt", b"zTXt", b"tIME")
#: The parts of a JPEG that hold the same: of programs, all but those of its colours, and words.
_JPEG_SAYS: Final = ({*range(0xE1, 0xF0)} - {0xE2, 0xEE}) | {0xFE}
_NOT_TO_BE_SHOWN: Final = "it is no whole JPEG or PNG, or too large"
_EXIF, _SCAN, _TURNED = 0xE1, 0xDA, 0x0112


def figures_html(taken: Iterable[PhotographTaken]) -> str:
    """Every photograph that can be shown, with what is to be seen on it; its file's name without its folder.

    Of a file that is no JPEG or PNG, that is very large or that is not there any more it is told why not.
    """
    return "".join(_figures(taken))


def _figures(taken: Iterable[PhotographTaken]) -> Iterator[str]:
    room = _MOST_TOGETHER
    for one in taken:
        found = _picture(one.file)
        if found is None or len(found[1]) > room:
            why = "it is not there any more" if not _is_there(one.file) else _NOT_TO_BE_SHOWN
            yield f"<p>{text(f'{photograph_named(one.file)} is not shown here: {why}.')}</p>\n"
            continue
        kind, shown = found
        room -= len(shown)
        source = f"data:image/{kind};base64,{b64encode(shown).decode('ascii')}"
        told = text(photograph_text(one, to_show=True))
        named = text(one.text or photograph_named(one.file))
        yield f'<figure><img src="{source}" alt="{named}"/><figcaption>{told}</figcaption></figure>\n'


def _is_there(file: str) -> bool:
    try:
        return Path(file).is_file()
    except (OSError, ValueError):  # a name that no file can have
        return False


def _picture(file: str) -> tuple[str, bytes] | None:
    """The kind of a picture, and its bytes without what they say besides; None of any other file."""
    try:
        held = contents(Path(file), _MOST_BYTES + 1)
        if len(held) > _MOST_BYTES:
            return None
        if held.startswith(_PNG):
            return "png", _bare_png(held)
        return ("jpeg", _bare_jpeg(held)) if held.startswith(_JPEG) else None
    except (OSError, ValueError, struct.error, IndexError):
        return None


def _bare_png(held: bytes) -> bytes:
    kept, at = [_PNG], len(_PNG)
    while at < len(held):
        length, name = struct.unpack_from(">I4s", held, at)
        end = at + 12 + length
        if end > len(held):
            raise ValueError("a part is cut short")
        if name not in _PNG_SAYS:
            kept.append(held[at:end])
        if name == b"IEND":
            break
        at = end
    return b"".join(kept)


def _bare_jpeg(held: bytes) -> bytes:
    """A JPEG with which way up it is, and nothing else that a camera wrote into it."""
    kept, at, up = [b"\xff\xd8"], 2, 1
    while True:
        fill, marker = held[at], held[at + 1]
        if fill != 0xFF:
            raise ValueError("no part begins here")
        if marker == 0xFF:  # one that only fills
            at += 1
            continue
        end = at + 2 + int(struct.unpack_from(">H", held, at + 2)[0])
        if marker == _EXIF:
            up = _way_up(held[at + 4 : end]) or up
        elif marker not in _JPEG_SAYS:
            kept.append(held[at:] if marker == _SCAN else held[at:end])
        if marker == _SCAN:
            break
        at = end
    if up != 1:
        said = b"Exif\0\0MM\0*" + struct.pack(">IHHHIHHI", 8, 1, _TURNED, 3, 1, up, 0, 0)
        kept.insert(1, b"\xff\xe1" + struct.pack(">H", len(said) + 2) + said)
    return b"".join(kept)


def _way_up(said: bytes) -> int:
    """Which way up a picture is, 1 to 8, by its Exif part (Exif 2.3, 4.6.4, from memory); 0 where none is."""
    if not said.startswith(b"Exif\0\0"):
        return 0
    told = said[6:]
    order = ">" if told[:2] == b"MM" else "<"
    try:
        start = int(struct.unpack_from(f"{order}I", told, 4)[0])
        for number in range(int(struct.unpack_from(f"{order}H", told, start)[0])):
            name, _, _, value = struct.unpack_from(f"{order}HHIH", told, start + 2 + 12 * number)
            if name == _TURNED:
                return int(value) if 1 <= value <= 8 else 0
    except struct.error:
        return 0
    return 0
