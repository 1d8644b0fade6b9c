"""Every question of the reckoner declares itself whole, and what it answers holds values."""

from __future__ import annotations

import inspect

import pytest

from coach.declared import declared
from coach.quantities.takes import Take, Typed
from coach.reckoner.asking import question, questions

NAMES = sorted(questions())


@pytest.mark.parametrize("name", NAMES)
def test_a_question_reckons_with_what_it_takes(name: str) -> None:
    module = question(name)
    takes: tuple[Take, ...] = module.TAKES
    parameters = inspect.signature(module.reckon).parameters
    assert {take.key for take in takes} == set(parameters)
    for take in takes:
        given = take.needed or take.usual or take.typed is Typed.FLAG
        assert given or parameters[take.key].default is not inspect.Parameter.empty


@pytest.mark.parametrize("name", NAMES)
def test_a_question_can_be_listed_without_being_loaded(name: str) -> None:
    told = declared(questions()[name], "SUMMARY", "SOURCES")
    assert told == {"SUMMARY": question(name).SUMMARY, "SOURCES": question(name).SOURCES}
    assert len(f"  {name:<10}  {told['SUMMARY']}") <= 80


@pytest.mark.parametrize("name", NAMES)
def test_every_argument_says_what_it_means(name: str) -> None:
    for take in question(name).TAKES:
        assert take.help
        assert take.metavar or take.typed is Typed.FLAG
