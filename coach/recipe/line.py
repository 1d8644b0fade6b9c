"""A line of a recipe as it is read from left to right, knowing where each letter of it stands in the file."""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass, field

from coach.quantities.words import Words
from coach.recipe.findings import AT_KEY, Findings, Offset, Path

#: What ends a part of a line: a comma with a blank behind it, or the end. `12,5` is twelve and a half.
_PART_END = re.compile(r"\s*(?:,(?=\s|$)|$)")


@dataclass(slots=True)
class Line:
    """A text, put together of a value or of a key and its value, and what has been read of it."""

    findings: Findings
    unit: str  # of bare numbers: mm or in
    text: str = ""
    at: int = 0  # how far it is read
    faulty: bool = False
    _starts: list[int] = field(default_factory=list)
    _paths: list[tuple[Path, bool]] = field(default_factory=list)

    @classmethod
    def of(cls, text: str, path: Path, findings: Findings, unit: str) -> Line:
        """A value of the file."""
        line = cls(findings, unit)
        line._add(text, path, at_key=False)
        return line

    @classmethod
    def of_key(cls, name: str, text: str, path: Path, findings: Findings, unit: str) -> Line:
        """A key of the file and its value, as if both stood behind a comma."""
        line = cls(findings, unit)
        line._add(f"{name} ", path, at_key=True)
        line._add(text, path, at_key=False)
        return line

    def _add(self, text: str, path: Path, *, at_key: bool) -> None:
        self._starts.append(len(self.text))
        self._paths.append((path, at_key))
        self.text += text

    def place(self, at: int | None = None) -> Path:
        """The place in the file of the letter at an offset; of where reading is when none is given."""
        offset = self.at if at is None else at
        index = max(bisect_right(self._starts, offset) - 1, 0)
        path, at_key = self._paths[index]
        return (*path, AT_KEY if at_key else Offset(offset - self._starts[index]))

    def fault(self, message: str | Words, at: int | None = None) -> None:
        """Note that something is wrong there."""
        self.faulty = True
        self.findings.add(self.place(at), message)

    @property
    def rest(self) -> str:
        """What is not read yet."""
        return self.text[self.at :]

    @property
    def is_read(self) -> bool:
        """Whether nothing is left."""
        return not self.rest.strip()

    def looks(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """Whether what follows begins so."""
        return pattern.match(self.text, self.at)

    def take(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """The same, and reading goes on behind it."""
        found = pattern.match(self.text, self.at)
        if found:
            self.at = found.end()
        return found

    def part_end(self) -> int:
        """Where the part that is being read ends."""
        found = _PART_END.search(self.text, self.at)
        return found.start() if found else len(self.text)

    @property
    def part(self) -> str:
        """What is left of the part that is being read."""
        return self.text[self.at : self.part_end()]

    def take_part(self) -> str:
        """The rest of the part; reading goes on behind it."""
        part = self.part
        self.at += len(part)
        return part.strip()

    def next_part(self) -> bool:
        """Go on to the next part or word; false at the end."""
        before = self.at
        self.take(re.compile(r"\s*"))
        if self.text[self.at : self.at + 1] == ",":
            self.take(re.compile(r",\s*"))
            if self.is_read:
                self.fault("nothing stands behind this comma", before)
        return not self.is_read
