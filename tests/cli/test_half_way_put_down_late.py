"""A half-way size from paper notes, put down in the evening, is not asked for again: it was read since."""

from __future__ import annotations

from tests.cli.conftest import Coach


def day(coach: Coach) -> None:
    coach("begin", "first-hook", "--name", "a", "--at", "2026-03-02 09:00")
    coach("done", "a", "--at", "2026-03-02 09:15")
    coach("done", "a", "--at", "2026-03-02 09:20")
    coach("heat", "a", "--at", "2026-03-02 10:00")
    coach("heat", "a", "--at", "2026-03-02 10:10")


def test_it_is_noted_and_what_was_read_after_it_counts(coach: Coach) -> None:
    day(coach)
    coach("read", "a", "shank.side=8.1", "shank.length=111", "--at", "2026-03-02 10:15")
    coach("done", "a", "--at", "2026-03-02 10:20")
    said = coach("read", "a", "shank.side=9.1", "--at", "2026-03-02 10:05")
    assert said.code == 0
    assert "noted; the 8.1 mm read after it counts" in said.out
    assert "Read it again" not in said.out


def test_where_nothing_was_read_after_it_it_is_asked_for_again(coach: Coach) -> None:
    day(coach)
    assert "Read it again" in coach("read", "a", "shank.side=9.1", "--at", "2026-03-02 10:05").out
