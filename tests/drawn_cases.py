"""How many cases a property draws: as many as it says in the gate, and in proportion under a wider profile."""

from __future__ import annotations

from hypothesis import settings

#: Cases of the house profile, where a property does not say how many.
USUAL = 100


def cases(most: int) -> settings:
    """Draw so many cases in the gate; a profile that draws more draws more of these too."""
    return settings(max_examples=most * settings.default.max_examples // USUAL)
