"""What one entry of a job is, how it is written as text, and how each entry seals the one before it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from hashlib import sha256
from typing import NamedTuple

from coach.log.body import Body
from coach.log.kinds import body_of
from coach.log.limits import OutOfLimits, moment_fault
from coach.log.names import JOB_NAMES, LONGEST_JOB, is_kept_name, is_of_rack

FIRST_PREVIOUS = ""
"""What the first entry of a job gives as the digest before it."""

DEEPEST_NESTING = 60
"""How many lists and objects may lie inside one another in a body."""


class Entry(NamedTuple):
    """One thing that was entered for a job; never changed once it is written."""

    job: str
    """Name of the job."""
    number: int
    """1 for the job's first entry, then one more each time."""
    at: str
    """Moment it was entered: ISO 8601, UTC."""
    body: Body
    """What was entered."""
    previous: str
    """Digest of the entry before it; empty for the first."""
    digest: str
    """SHA-256 of all the above, in hexadecimal."""

    @property
    def kind(self) -> str:
        """What sort of entry it is: `began`, `reading`, `note`…"""
        return self.body.KIND


StoredEntry = tuple[object, object, object, object, object, object]
"""number, at, kind, body as text, previous, digest: as read, so not yet to be trusted."""


class Chain(NamedTuple):
    """Entries as they were read back, with whatever is wrong with them."""

    sound: tuple[Entry, ...]
    """The entries before the first fault."""
    faults: tuple[tuple[int, str], ...]
    """Entry number and the end of a sentence that begins "entry 7 …"."""


def _plain(value: object, depth: int) -> object:
    if depth > DEEPEST_NESTING:
        raise ValueError("it is nested too deep")
    if isinstance(value, Mapping):
        if not all(isinstance(name, str) for name in value):
            raise ValueError("a name in it is not text")
        return {name: _plain(inner, depth + 1) for name, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(inner, depth + 1) for inner in value]
    return value


def canonical_json(body: Mapping[str, object]) -> str:
    """Return the one spelling of `body` as JSON: names sorted, no spaces, nothing escaped without need.

    Raises ValueError, saying what is wrong, when JSON in UTF-8 cannot hold it: a number that is not
    finite, a name that is not text, half of a character, another kind of object.
    """
    try:
        text = json.dumps(
            _plain(body, 0), ensure_ascii=False, allow_nan=False, sort_keys=True, separators=(",", ":")
        )
    except TypeError as error:
        raise ValueError(f"it holds something that is neither text nor number ({error})") from None
    try:
        text.encode()
    except UnicodeEncodeError:
        raise ValueError("it holds a broken character") from None
    return text


def chained_digest(previous: str, job: str, number: int, at: str, kind: str, body_json: str) -> str:
    """Return the SHA-256 (FIPS 180-4), in hexadecimal, that seals an entry to the one before it.

    The six parts are hashed as one JSON list in UTF-8. Quotes and escapes keep the parts apart, so two
    different entries can never give the same text to hash.
    """
    parts = json.dumps([previous, job, number, at, kind, body_json], ensure_ascii=False)
    # Damaged text reaches here as lone surrogates: it must give some other digest, not an exception.
    return sha256(parts.encode("utf-8", "surrogatepass")).hexdigest()


def make_entry(job: str, number: int, at: str, body: Body, previous: str) -> tuple[Entry, str]:
    """Return the entry, sealed, with its body as canonical text.

    The entry's body is what the text reads back as, so that an entry just written equals the same entry
    read a week later. Raises ValueError, saying what is wrong, when a part cannot be written down.
    """
    if not is_kept_name(job):
        raise ValueError(f"{job[:LONGEST_JOB]!r} cannot be its job's name, which takes {JOB_NAMES}")
    if fault := moment_fault(at):
        raise ValueError(f"its moment {fault}: look at this computer's clock")
    if fault := _out_of_place(job, number, body):
        raise ValueError(fault)
    body_json = canonical_json(body.to_json())
    digest = chained_digest(previous, job, number, at, body.KIND, body_json)
    return Entry(job, number, at, body_of(body.KIND, json.loads(body_json)), previous, digest), body_json


def read_chain(job: str, stored: Iterable[StoredEntry], first: int, previous: str | None) -> Chain:
    """Check entries of `job` in one pass, in order of number, and return them with their faults.

    `first` is the number the first of them must have and `previous` the digest it must follow; None
    when the entry before is not to hand.
    """
    sound: list[Entry] = []
    faults: list[tuple[int, str]] = []
    expected = first
    for row in stored:
        number, *texts = row
        if not isinstance(number, int) or not all(isinstance(text, str) for text in texts):
            faults.append((expected, "is not in a form that can be read"))
            expected, previous = expected + 1, None
            continue
        if number != expected:
            faults.append((expected, "is missing"))
            previous = None
        judged = _judge(job, number, [str(text) for text in texts], previous)
        if isinstance(judged, Entry) and not faults:
            judged = _fault_among(judged, first, sound) or judged
        if isinstance(judged, str):
            faults.append((number, judged))
        elif not faults:
            sound.append(judged)
        expected, previous = number + 1, str(row[5])
    return Chain(tuple(sound), tuple(faults))


def _judge(job: str, number: int, texts: Sequence[str], previous: str | None) -> Entry | str:
    """Return the entry these texts make, or what is wrong with it."""
    at, kind, body_json, stored_previous, digest = texts
    if chained_digest(stored_previous, job, number, at, kind, body_json) != digest:
        return "is not as it was written"
    if previous is not None and stored_previous != previous:
        return "does not follow the entry before it"
    held = (_held_once if len(body_json) > _LARGE else _held)(kind, body_json)
    if held is None:
        return "does not hold a JSON object"
    if fault := moment_fault(at):
        return f"has a moment that cannot be: {fault}"
    if isinstance(held, str):
        return held
    return Entry(job, number, at, held, stored_previous, digest)


def _held(kind: str, body_json: str) -> Body | str | None:
    """What an entry of that kind holds, or what is wrong with it; None where it is no JSON object."""
    found = _object_in(body_json)
    try:
        return None if found is None else body_of(kind, found)
    except OutOfLimits as wrong:
        return f"holds what cannot be: {wrong.clause}"
    except Exception as error:  # one job's entry, whatever a hand has made of it, is no fault of the others
        return f"holds what cannot be read ({type(error).__name__})"


#: What is so long is a recipe, which many jobs share (our choice).
_LARGE, _LARGE_KEPT = 2000, 8
_held_once = lru_cache(_LARGE_KEPT)(_held)


def _out_of_place(job: str, number: int, body: Body) -> str:
    """Why an entry of that kind cannot stand there; "" where it can."""
    if is_of_rack(job):
        return "" if body.OF_RACK else "it is of a job, and not of the rack"
    if not body.OF_JOB:
        return "it is of the rack, and not of a job"
    return "" if body.BEGINS is (number == 1) else "a job has one beginning, and that is its first entry"


def _fault_among(entry: Entry, first: int, before: Sequence[Entry]) -> str | None:
    """What is wrong with an entry where it stands, `before` being those from number `first` on."""
    if fault := _out_of_place(entry.job, entry.number, entry.body):
        return f"is out of place: {fault}"
    for name, number in entry.body.meant().items():
        at = number - first
        if number >= entry.number or (at >= 0 and not entry.body.can_mean(name, type(before[at].body))):
            return f"holds what cannot be: {entry.body.refused(name, str(number)).clause}"
    return None


def _object_in(body_json: str) -> Mapping[str, object] | None:
    try:
        body = json.loads(body_json)
    except (ValueError, RecursionError):
        return None
    return body if isinstance(body, dict) else None


def numbers_of(entries: Sequence[Entry]) -> str:
    """Say which entries these are: `entry 4`, `entries 4 to 6`, `no entries`."""
    if not entries:
        return "no entries"
    if len(entries) == 1:
        return f"entry {entries[0].number}"
    return f"entries {entries[0].number} to {entries[-1].number}"
