"""A figure over jobs: against a published worked example, and what must hold of any such rule."""

from __future__ import annotations

import random
from math import log, sqrt
from statistics import mean

import pytest

from coach.ledger.over_jobs import Known, between_jobs, lesson, over_jobs, pooled

# Six trials, each of two groups: how many took part and how many had the event; R. DerSimonian and R. Kacker,
# Contemporary Clinical Trials 28 (2007), 105: the CLASP example.
_TRIALS = (
    (156, 5, 74, 8),
    (303, 5, 303, 17),
    (565, 12, 477, 9),
    (1570, 69, 1565, 94),
    (103, 9, 105, 11),
    (4659, 313, 4650, 352),
)


def clasp() -> list[Known]:
    """The logarithm of each trial's odds ratio, and its doubt by the usual sum of reciprocals."""
    return [
        Known(
            log((a / (n - a)) / (c / (m - c))),
            sqrt(1 / a + 1 / (n - a) + 1 / c + 1 / (m - c)),
        )
        for n, a, m, c in _TRIALS
    ]


def test_the_published_example_of_paule_and_mandel_comes_out() -> None:
    # The same paper, Tables 3 and 4 (p. 111 f.), as checked in the tests of a well-kept statistics package:
    # tau 0.3681, mean -0.3811, its standard error 0.2060.
    between = between_jobs(clasp())
    assert sqrt(between) == pytest.approx(0.3681, abs=5e-5)
    found = pooled(clasp(), between)
    assert found.value == pytest.approx(-0.3811, abs=5e-5)
    assert found.doubt == pytest.approx(0.2060, abs=5e-5)


def test_the_published_mean_at_dersimonian_and_lairds_variance_comes_out() -> None:
    # The same tables: tau 0.2323, mean -0.3240, its standard error 0.1540.
    found = pooled(clasp(), 0.2323**2)
    assert found.value == pytest.approx(-0.3240, abs=1e-4)
    assert found.doubt == pytest.approx(0.1540, abs=1e-4)


def test_jobs_that_agree_have_no_variance_between_them() -> None:
    assert between_jobs([Known(1.4, 0.2)] * 4) == 0.0
    assert between_jobs([Known(1.4, 0.2)]) == 0.0


BOOK = Known(1.0, 0.5)


def test_without_a_job_the_book_counts_as_it_is() -> None:
    assert over_jobs(BOOK, []).next_job == BOOK


def test_one_job_goes_part_of_the_way_and_many_nearly_all_of_it() -> None:
    one, ten, hundred = (over_jobs(BOOK, [Known(1.8, 0.3)] * count) for count in (1, 10, 100))
    assert 1.2 < one.next_job.value < 1.6
    assert one.next_job.value < ten.next_job.value < hundred.next_job.value < 1.8
    assert hundred.next_job.value == pytest.approx(1.8, abs=0.02)
    assert BOOK.doubt > one.next_job.doubt > ten.next_job.doubt > hundred.next_job.doubt


def test_jobs_far_from_one_another_leave_the_next_one_in_doubt() -> None:
    alike = over_jobs(BOOK, [Known(1.5, 0.1)] * 8)
    apart = over_jobs(BOOK, [Known(1.5 + off, 0.1) for off in (-0.6, 0.6) * 4])
    assert apart.next_job.doubt > 1.5 * alike.next_job.doubt
    assert apart.next_job.doubt <= BOOK.doubt  # no job makes less known than the book
    assert apart.next_job.value == pytest.approx(1.5, abs=0.1)


def test_a_lesson_does_not_count_what_the_job_began_with() -> None:
    """Readings of 1.6 ± 0.2, whatever a job believed before them."""
    said = Known(1.6, 0.2)
    for began in (Known(1.0, 0.5), Known(1.5, 0.15), Known(0.7, 0.3)):
        weight = 1.0 / began.variance + 1.0 / said.variance
        mean_of_both = (began.value / began.variance + said.value / said.variance) / weight
        found = lesson(began, Known(mean_of_both, sqrt(1.0 / weight)))
        assert found is not None
        assert found == pytest.approx(said)


def test_a_job_that_learned_nothing_has_no_lesson() -> None:
    assert lesson(BOOK, BOOK) is None
    assert lesson(BOOK, Known(1.0, 0.5 - 1e-9)) is None
    assert lesson(Known(0.0, 0.0), BOOK) is None


def test_in_shops_drawn_as_assumed_the_next_job_lies_inside_as_often_as_told() -> None:
    """Shops and jobs by lot: nine in ten of the next jobs' figures lie within the 90 % told."""
    by_lot, inside = random.Random(7), []
    for _ in range(1500):
        shop = by_lot.gauss(1.0, sqrt(0.75) * 0.5)
        lessons = []
        for _ in range(by_lot.randrange(1, 11)):
            doubt = by_lot.uniform(0.1, 0.6)
            lessons.append(Known(by_lot.gauss(by_lot.gauss(shop, 0.25), doubt), doubt))
        told = over_jobs(BOOK, lessons).next_job
        inside.append(abs(by_lot.gauss(shop, 0.25) - told.value) <= 1.645 * told.doubt)
    assert mean(inside) == pytest.approx(0.90, abs=0.025)
