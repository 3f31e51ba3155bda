"""What every test shares."""

from __future__ import annotations

from hypothesis import settings

# No deadline: the first example of a run pays for an import, and says nothing about the code.
settings.register_profile("firstfill", deadline=None)
settings.load_profile("firstfill")
