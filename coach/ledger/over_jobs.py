"""One figure of a shop over its jobs: what each job says of it, drawn together with what is published."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt
from typing import NamedTuple

#: What is published is in doubt from shop to shop and, in one shop, from job to job. So much of its variance
#: is that from job to job (judgement).
_FROM_JOB_TO_JOB = 0.25
#: The variance from job to job counts as known from so many jobs before any was looked at (judgement).
_AS_MANY_JOBS = 5.0
#: A lesson whose variance is more than so many times that of what was known before has taught nothing (our
#: choice).
_NOTHING_TAUGHT = 1e4
#: So often the search halves: to fifteen digits of where it began (our choice).
_HALVINGS = 50


class Known(NamedTuple):
    """A figure and how well it is known."""

    value: float
    doubt: float  # standard uncertainty

    @property
    def variance(self) -> float:
        """Its square."""
        return self.doubt**2


class OverJobs(NamedTuple):
    """What a shop's jobs make of a figure together."""

    next_job: Known  # what a new job begins with: the shop's figure, and how far one job is from another
    shop: Known  # the shop's own figure
    from_job_to_job: float  # standard deviation of the jobs about that
    own_share: float  # how far it has gone from what is published to what the jobs say alone, 0 to 1


def lesson(began: Known, ended: Known) -> Known | None:
    """What a job itself says of a figure: what it ended with, less what it began with.

    Both are Gaussian, so that the information of readings is the difference: 1/v = 1/P₁ − 1/P₀. A job that
    began from the shop's own figure says so only once what it has learned itself. None where it has learned
    nothing.

    >>> found = lesson(Known(1.0, 0.5), Known(1.4, 0.4))
    >>> round(found.value, 3), round(found.doubt, 3)
    (2.111, 0.667)
    """
    if began.variance <= 0.0 or not 0.0 < ended.variance < began.variance:
        return None
    variance = 1.0 / (1.0 / ended.variance - 1.0 / began.variance)
    if variance > _NOTHING_TAUGHT * began.variance:
        return None
    value = variance * (ended.value / ended.variance - began.value / began.variance)
    return Known(value, sqrt(variance))


def pooled(lessons: Sequence[Known], between: float) -> Known:
    """The mean of what jobs say, each by the inverse of its variance and of that between them.

    The random effects model of R. DerSimonian and N. Laird, Controlled Clinical Trials 7 (1986), 177 (from
    memory).

    Args:
        lessons: at least one.
        between: the variance from job to job.
    """
    weights = [1.0 / (one.variance + between) for one in lessons]
    whole = sum(weights)
    return Known(
        sum(weight * one.value for weight, one in zip(weights, lessons, strict=True)) / whole,
        sqrt(1.0 / whole),
    )


def between_jobs(lessons: Sequence[Known]) -> float:
    """The variance from job to job by the method of Paule and Mandel; 0 where the jobs agree.

    It is that at which the weighted squares of their distances from the mean come to one less than there are
    of them. Sources: R. C. Paule and J. Mandel, Journal of Research of the NBS 87 (1982), 377; in the random
    effects model R. DerSimonian and R. Kacker, Contemporary Clinical Trials 28 (2007), 105 (from memory;
    the worked example of the second comes out).
    """
    if len(lessons) < 2:
        return 0.0

    def too_far(between: float) -> bool:
        mean = pooled(lessons, between).value
        squares = ((one.value - mean) ** 2 / (one.variance + between) for one in lessons)
        return sum(squares) > len(lessons) - 1

    if not too_far(0.0):
        return 0.0
    low, high = 0.0, sum((one.value - lessons[0].value) ** 2 for one in lessons)
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if too_far(middle) else (low, middle)
    return 0.5 * (low + high)


def over_jobs(published: Known, lessons: Sequence[Known]) -> OverJobs:
    """A figure of the shop from what its jobs say, drawn towards the published one while they are few.

    What is published stands as one more lesson of the random effects model, by what it says of a whole shop;
    so the figure is the shrinking estimator of B. Efron and C. Morris, Journal of the American Statistical
    Association 70 (1975), 311, with the published figure for the mean of the many. The variance from job to
    job is Paule's and Mandel's, itself drawn towards the share that is taken for granted, each weighed by how
    many jobs it rests on (A. Gelman et al., Bayesian Data Analysis, 3rd ed., 2013, 2.6, scaled inverse χ²;
    from memory).
    """
    usual = _FROM_JOB_TO_JOB * published.variance
    of_shop = Known(published.value, sqrt(published.variance - usual))
    if not lessons:
        return OverJobs(published, of_shop, sqrt(usual), 0.0)
    more = len(lessons) - 1
    between = (_AS_MANY_JOBS * usual + more * between_jobs(lessons)) / (_AS_MANY_JOBS + more)
    alone = pooled(lessons, between)
    share = of_shop.variance / (of_shop.variance + alone.variance)
    shop = Known(published.value + share * (alone.value - published.value), sqrt(share * alone.variance))
    doubt = min(sqrt(shop.variance + between), published.doubt)  # no job makes less known than the book
    return OverJobs(Known(shop.value, doubt), shop, sqrt(between), share)
