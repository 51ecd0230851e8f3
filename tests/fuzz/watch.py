"""One text at one door, watched: refused in order or read, within two seconds of work."""

from __future__ import annotations

import signal
from types import FrameType

import click

from solver.refusals import RefusalError
from tests.fuzz.doors import Door

#: Seconds of this process's own work a text may take, whatever else the machine does.
LIMIT = 2.0


class HangError(AssertionError):
    """A text took longer than the limit."""


def _too_long(_signal: int, _frame: FrameType | None) -> None:
    raise HangError(f"more than {LIMIT} s of work")


def knock(door: Door, text: str) -> bool:
    """Say whether the door took the text; anything but a refusal in order is passed on, a hang as well."""
    before = signal.signal(signal.SIGPROF, _too_long)
    signal.setitimer(signal.ITIMER_PROF, LIMIT)
    try:
        door.read(text)
    except (RefusalError, click.ClickException) as refusal:
        assert str(refusal).strip(), "a refusal without words"
        return False
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)
    return True
