"""One job as one readable file, to be carried from one log to another."""

from __future__ import annotations

import json
from collections.abc import Mapping

from coach.log.entries import (
    FIRST_PREVIOUS,
    StoredEntry,
    canonical_json,
    read_chain,
)
from coach.log.errors import LogError
from coach.log.jobs import Log
from coach.log.kinds import body_of
from coach.log.limits import OutOfLimits, kept_text
from coach.log.names import JOB_NAMES, is_job_name
from coach.quantities.words import Words

FORMAT = "between-heats job"
VERSION = 1

_PARTS = ("number", "at", "kind", "body", "previous", "digest")


class JobFileFault(LogError):
    """The text is not a whole, unaltered job; `str()` says which line and what is wrong."""


def export_job(log: Log, job: str) -> str:
    """Return the job as JSON Lines: a line that tells what this is, then one line for each entry.

    The first line also gives the number of entries and the last digest, so that a file cut short is
    noticed. Raises a LogError.
    """
    entries = log.entries(job)
    head = {
        "format": FORMAT,
        "version": VERSION,
        "job": job,
        "entries": len(entries),
        "ends": entries[-1].digest,
    }
    lines = [head] + [
        {**{part: getattr(entry, part) for part in _PARTS}, "body": entry.body.to_json()} for entry in entries
    ]
    return "".join(json.dumps(line, ensure_ascii=False) + "\n" for line in lines)


def import_job(log: Log, text: str) -> str:
    """Add a job that was carried here as text, entry for entry as it was made, and return its name.

    Raises JobFileFault for the first fault in the text, JobExists when the log has a job of that name,
    or another LogError; then nothing has been added.
    """
    lines = _lines_of(text)
    if not lines:
        raise JobFileFault("The job file is empty: have it exported again.")
    job, count, ends = _read_head(_read_object(lines[0][1], 1))
    stored = [_read_entry(_read_object(line, place), place) for place, line in lines[1:]]
    chain = read_chain(job, stored, 1, FIRST_PREVIOUS)
    if chain.faults:
        number, fault = chain.faults[0]
        missing = all(row[0] != number for row in stored)
        raise fault_of_entry(text, number, fault, in_line=not missing)
    if len(stored) != count or chain.sound[-1].digest != ends:
        raise JobFileFault(
            f"The job file holds {len(stored)} of {count} entries or ends otherwise than it says: have it"
            " exported again."
        )
    log.begin_with(job, [(entry.at, entry.body) for entry in chain.sound])
    return job


def fault_of_entry(text: str, number: int, fault: str, *, in_line: bool = True) -> JobFileFault:
    """The refusal of one entry of a job file: which it is, and the line that it stands in."""
    return JobFileFault(f"{_entry_of(text, number, in_line)} {fault}: have it exported again.")


def refused_entry(text: str, number: int, why: Words) -> JobFileFault:
    """The refusal of one that would be refused if it were typed; `why` is a sentence."""
    return JobFileFault("{} would be refused if it were typed: {}", _entry_of(text, number, True), why)


def _entry_of(text: str, number: int, in_line: bool) -> str:
    lines = _lines_of(text)
    return f"Entry {number} of the job file" + (
        f", line {lines[number][0]}," if in_line and number < len(lines) else ""
    )


def _lines_of(text: str) -> list[tuple[int, str]]:
    """The lines that are not blank, each with its place; an editor may have put blank ones between."""
    # Not splitlines: it also breaks at characters that a note may hold, such as U+2028.
    numbered = enumerate(text.removeprefix("\ufeff").split("\n"), start=1)
    return [(place, line) for place, line in numbered if line.strip()]


def _read_object(line: str, place: int) -> Mapping[str, object]:
    try:
        found = json.loads(line)
    except (ValueError, RecursionError):
        raise JobFileFault(f"Line {place} of the job file cannot be read as JSON.") from None
    if not isinstance(found, dict):
        raise JobFileFault(f"Line {place} of the job file is not a JSON object.")
    return found


def _read_head(head: Mapping[str, object]) -> tuple[str, int, str]:
    if head.get("format") != FORMAT:
        raise JobFileFault("Line 1 of the job file does not say that it is a job: choose another file.")
    version = head.get("version")
    if type(version) is not int or version < VERSION:
        raise JobFileFault(
            f"Line 1 of the job file says that its version is {kept_text(version)}, which there is not:"
            f" {VERSION} was expected, so have it exported again."
        )
    if version > VERSION:
        raise JobFileFault(
            f"The job file is of version {kept_text(version)} and this program reads version {VERSION}:"
            " install the newer program."
        )
    job, count, ends = head.get("job"), head.get("entries"), head.get("ends")
    if not isinstance(job, str) or not isinstance(ends, str) or type(count) is not int or count < 1:
        raise JobFileFault("Line 1 of the job file lacks the job's name, its entries or its end.")
    if not is_job_name(job):
        raise JobFileFault(f"Line 1 of the job file has a name that no job can have: it takes {JOB_NAMES}.")
    return job, count, ends


def _read_entry(line: Mapping[str, object], place: int) -> StoredEntry:
    lacking = [part for part in _PARTS if part not in line]
    if lacking:
        raise JobFileFault(f"Line {place} of the job file lacks {', '.join(lacking)}.")
    kind, body = line["kind"], line["body"]
    if not isinstance(body, dict):
        raise JobFileFault(f"Line {place} of the job file has a body that is not a JSON object.")
    try:
        body_json = canonical_json(body)
        body_of(str(kind), body)
    except OutOfLimits as wrong:
        raise JobFileFault("Line {} of the job file is refused: {}.", place, wrong.clause) from None
    except ValueError as error:
        raise JobFileFault(f"Line {place} of the job file has a body that is refused: {error}.") from None
    return (line["number"], line["at"], kind, body_json, line["previous"], line["digest"])
