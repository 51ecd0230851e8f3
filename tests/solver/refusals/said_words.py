"""Rows of what is asked and all that is said, and the one look at them."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from solver.refusals import RefusalError


def said(ask: Callable[[], object], says: str) -> object:
    """Put what is asked beside all that is said."""
    return pytest.param(ask, says, id=says.partition("\n")[0][:60])


def look_at_words(ask: Callable[[], object], says: str) -> None:
    """Hold a refusal to its words; what only a program can ask is no refusal of a person's wish, and gets no help."""
    with pytest.raises(ValueError) as caught:  # noqa: PT011 - the whole text is held below.
        ask()
    assert str(caught.value) == says
    assert isinstance(caught.value, RefusalError) == ("\n" in says)
