"""What holds for every test."""

from __future__ import annotations

from hypothesis import settings

# Times are measured in benchmarks; a busy machine fails no test.
settings.register_profile("no deadline", deadline=None)
settings.load_profile("no deadline")
