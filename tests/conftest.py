"""What every test shares: no deadlines of hypothesis, a clock in UTC, nothing set by another."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Iterator

import pytest
from hypothesis import settings

from coach.metals import look_in
from coach.metals.grade import keep_to
from coach.settings import use

settings.register_profile("house", deadline=None)
settings.load_profile("house")

# Moments are told as the clock on the wall shows them: here it shows UTC.
os.environ["TZ"] = "UTC"
if hasattr(time, "tzset"):
    time.tzset()


# Whatever began the tests may ignore signals, as a shell does for what runs behind it, and a coach that was
# begun so goes on when it is told to stop.
for told in ("SIGINT", "SIGQUIT", "SIGHUP", "SIGTERM"):
    number = getattr(signal, told, None)
    if number is not None and signal.getsignal(number) is signal.SIG_IGN:
        signal.signal(number, signal.default_int_handler if told == "SIGINT" else signal.SIG_DFL)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers(config: pytest.Config) -> int:
    """Two more workers than there are cores: much of a screen's test is waiting for its timers."""
    return (os.cpu_count() or 1) + 2


@pytest.fixture(autouse=True)
def _nothing_of_one_s_own() -> Iterator[None]:
    """What one test has told the coach of a smith's own grades and settings is not there for the next."""
    yield
    use(None)
    look_in()
    keep_to({})
