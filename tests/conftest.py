"""What every test shares: hypothesis without deadlines, for speed is measured in the benchmarks."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("house", deadline=None)
settings.load_profile("house")
