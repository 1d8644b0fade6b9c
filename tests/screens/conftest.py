"""The shop that every test of the screens begins with."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from coach.bench.session import Session
from coach.bench.shop import Shop
from tests.screens.stage import a_job, a_shop


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    with a_shop(tmp_path) as opened:
        yield opened


@pytest.fixture
def job(shop: Shop) -> Session:
    return a_job(shop)
