"""Rows of a log found in the bare pages of its file, whatever has become of the rest of it.

A row is known by its own seal alone, so neither the file's header nor the tree that its pages hang in is
needed: https://www.sqlite.org/fileformat.html, sections 1.5, 1.6 and 2.1.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import count
from pathlib import Path
from typing import BinaryIO, NamedTuple

from coach.log.entries import chained_digest
from coach.log.names import is_kept_name

Row = tuple[str, int, str, str, str, str, str]
"""job, number, at, kind, body as text, previous, digest."""


class Salvage(NamedTuple):
    """What is found in a file."""

    rows: tuple[Row, ...]  # those whose seals are right
    named: frozenset[tuple[str, int]]  # jobs and numbers of entries that are spoken of, sound or not
    unread: int  # how many pages are of no kind that can be told: nobody knows what was in them


_USUAL_SIZE = 4096  # https://www.sqlite.org/pgszchng2016.html
_HEADER = 100

# Numbers in the heads of records, big-endian with seven bits to a byte. The head of a row has its own
# length, nothing for its place, six texts and a number; where a text of 64 characters stands it is a digest.
_VARINT = rb"[\x80-\xff]{0,4}[\x00-\x7f]"
_WHOLE = rb"[\x01-\x06\x08\x09]"
_DIGEST = rb"\x81\x0d"
_ROW = re.compile(
    rb"(?=[\x09-\x1c]\x00(%b)(%b)(%b)(%b)(%b)(\x0d|%b)(%b))"
    % (_VARINT, _WHOLE, _VARINT, _VARINT, _VARINT, _DIGEST, _DIGEST),
    re.DOTALL,
)
# An index names each entry again: its job, its number, its place. The length of the record stands before.
_NAMED = re.compile(
    rb"(?=(\x81[\x00-\x7f]|[\x05-\x7f])([\x04\x05])(%b)(%b)%b)" % (_VARINT, _WHOLE, _WHOLE), re.DOTALL
)


def salvage(path: Path) -> Salvage:
    """Look through every page of a file. Raises OSError."""
    with path.open("rb") as file:
        told = int.from_bytes(file.read(18)[16:], "big")
        told = 65536 if told == 1 else told
        sizes = dict.fromkeys((told, _USUAL_SIZE)) if _can_be(told) else (_USUAL_SIZE,)
        return max((_Pages(file, size).looked_through() for size in sizes), key=lambda found: len(found.rows))


def _can_be(size: int) -> bool:
    return 512 <= size <= 65536 and size & (size - 1) == 0


class _Pages:
    """The pages of an open file, numbered from 1."""

    def __init__(self, file: BinaryIO, size: int) -> None:
        self._file = file
        self._size = size
        self._overflowing: set[int] = set()

    def looked_through(self) -> Salvage:
        rows: dict[str, Row] = {}
        named: set[tuple[str, int]] = set()
        strange: set[int] = set()
        pages = 0
        for number in count(1):
            page = self._page(number)
            if not page:
                break
            pages = number
            kind = page[_HEADER if number == 1 else 0 :][:1]
            if kind not in _KINDS or len(page) < self._size:
                strange.add(number)
            for row in self._rows_in(page):
                if chained_digest(row[5], *row[:5]) == row[6]:
                    rows[row[6]] = row
                named.add(row[:2])
            named.update(_named_in(page))
        last = self._pages_told() or pages  # what may follow these was never a part of the log
        unread = [number for number in strange - self._overflowing if number <= last]
        return Salvage(
            tuple(rows.values()),
            frozenset((job, number) for job, number in named if is_kept_name(job) and number > 0),
            len(unread) + max(0, last - pages),
        )

    def _page(self, number: int) -> bytes:
        self._file.seek((number - 1) * self._size)
        return self._file.read(self._size)

    def _pages_told(self) -> int:
        """How many pages the file says that it has; 0 where that cannot be."""
        head = self._page(1)[:_HEADER]
        counted = head[24:28] == head[92:96]  # otherwise the number is not to be relied upon
        told = int.from_bytes(head[28:32], "big")
        return told if counted and told < _MOST_PAGES else 0

    def _rows_in(self, page: bytes) -> Iterator[Row]:
        for found in _ROW.finditer(page):
            types = [_number_of(part) for part in found.groups()]
            sizes = [_INTEGERS[told] if place == 1 else (told - 13) // 2 for place, told in enumerate(types)]
            head = page[found.start()]
            texts_odd = all(told >= 13 and told % 2 for place, told in enumerate(types) if place != 1)
            if not texts_odd or head != 2 + sum(map(len, found.groups())) or sum(sizes) > _LONGEST:
                continue
            record, used = self._record(page, found.start(), head + sum(sizes))
            if len(record) < head + sum(sizes):
                continue
            parts, at = [], head
            for size in sizes:
                parts.append(record[at : at + size])
                at += size
            job, moment, kind, body, previous, digest = (
                part.decode("utf-8", "surrogateescape") for place, part in enumerate(parts) if place != 1
            )
            self._overflowing.update(used)
            yield job, _whole(types[1], parts[1]), moment, kind, body, previous, digest

    def _record(self, page: bytes, start: int, length: int) -> tuple[bytes, list[int]]:
        """A record of so many bytes, with the pages that it runs over into."""
        usable = self._size
        if length <= usable - 35:
            return page[start : start + length], []
        least = (usable - 12) * 32 // 255 - 23
        here = least + (length - least) % (usable - 4)
        here = here if here <= usable - 35 else least
        record = bytearray(page[start : start + here])
        following = int.from_bytes(page[start + here : start + here + 4], "big")
        used: list[int] = []
        while following and len(record) < length and following not in used:
            used.append(following)
            over = self._page(following)
            record += over[4:]
            following = int.from_bytes(over[:4], "big")
        return bytes(record[:length]), used


# The first byte of a page of a tree; a page that a record runs over into has none.
_KINDS = (b"\2", b"\5", b"\n", b"\r")
_INTEGERS = {1: 1, 2: 2, 3: 3, 4: 4, 5: 6, 6: 8, 8: 0, 9: 0}
_LONGEST = 100_000_000
_MOST_PAGES = 2**31


def _named_in(page: bytes) -> Iterator[tuple[str, int]]:
    for found in _NAMED.finditer(page):
        length, head, name, number = found.groups()
        told, size = _number_of(name), _INTEGERS[number[0]]
        at = found.start() + len(length) + head[0]
        end = at + (told - 13) // 2
        if (
            told >= 15
            and told % 2
            and head[0] == 3 + len(name)
            and _number_of(length) >= head[0] + end - at + size
        ):
            yield page[at:end].decode("utf-8", "surrogateescape"), _whole(number[0], page[end : end + size])


def _number_of(varint: bytes) -> int:
    number = 0
    for byte in varint:
        number = number << 7 | byte & 0x7F
    return number


def _whole(told: int, held: bytes) -> int:
    return told - 8 if told in (8, 9) else int.from_bytes(held, "big", signed=True)
