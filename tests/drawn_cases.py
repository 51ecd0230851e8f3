"""How many cases a property draws: as many as it says in the gate, and in proportion under another profile."""

from __future__ import annotations

from hypothesis import settings

#: Cases of the house profile, where a property does not say how many.
USUAL = 100


def cases(most: int) -> settings:
    """Draw so many cases in the gate; a profile that draws more draws more of these too."""
    return settings(max_examples=in_proportion(most))


def in_proportion(count: int) -> int:
    """Bring a count of the gate to the profile of this run; never below one."""
    return -(-count * settings.default.max_examples // USUAL)
