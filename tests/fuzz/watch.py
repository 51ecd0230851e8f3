"""One text at one door, watched: refused in order or read, within two seconds of work."""

from __future__ import annotations

import signal
from types import FrameType

import click

from solver.refusals import RefusalError
from tests.fuzz.doors import Door

#: Seconds of this process's own work a text may take, whatever else the machine does.
LIMIT = 2.0
#: The same where a whole command answers, which may plan a sitting or search a whole series. [s]
WORKING_LIMIT = 20.0


class HangError(AssertionError):
    """A text took longer than the limit."""


def _too_long(_signal: int, _frame: FrameType | None) -> None:
    raise HangError("more work than the limit")


def knock(door: Door, text: str, limit: float = LIMIT) -> bool:
    """Say whether the door took the text; anything but a refusal in order is passed on, a hang as well."""
    before = signal.signal(signal.SIGPROF, _too_long)
    signal.setitimer(signal.ITIMER_PROF, limit)
    try:
        door.read(text)
    except (RefusalError, click.ClickException) as refusal:
        assert str(refusal).strip(), "a refusal without words"
        return False
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)
    return True
