"""What a drawing says beyond diameter and pitch: the hand, held against --hand, and a size its standard lacks."""

from __future__ import annotations

from collections.abc import Sequence

import click
from click.core import ParameterSource

from gearsets.special_sizes import outside_remark
from gearsets.thread_endings import written_hand
from gearsets.thread_tables import SeriesThread
from solver.trains.hand import Hand


def chosen_hand(hand_word: str, *texts: str) -> Hand:
    """Return the hand of the threads asked for: as they write it, else that of the option.

    Parameters
    ----------
    hand_word : str
        What the option says, or its default.
    texts : str
        Threads or pitches as written.

    Raises
    ------
    click.UsageError
        The option was given and a thread says otherwise, or some of the threads are left-hand and some right-hand.
    """
    is_given = click.get_current_context().get_parameter_source("hand_word") is ParameterSource.COMMANDLINE
    asked = Hand(hand_word)
    for text in texts:
        written = written_hand(text)
        if is_given and written not in (None, asked):
            raise click.UsageError(
                f"{text.strip()[:40]!r} is a {written.value}-hand thread and --hand says {asked.value}: leave one of "
                "them out."
            )
    hands = {written_hand(text) or asked for text in texts}
    if len(hands) > 1:
        raise click.UsageError("Some of these threads are left-hand and some right-hand: ask for them apart.")
    return hands.pop() if hands else asked


def remark_hand_unused(texts: Sequence[str]) -> None:
    """Say on stderr that a hand was read and plays no part in the answer."""
    named = next((text for text in texts if written_hand(text) is not None), None)
    if named is not None:
        click.echo(
            f"The hand of {named.strip()[:40]!r} plays no part here, only its lead; 'halfnut train' tells how it comes "
            "about.",
            err=True,
        )


def remark_outside(thread: SeriesThread | None) -> None:
    """Say on stderr that a thread is in no list of its standard, where the screen has no line for it."""
    if remark := outside_remark(thread):
        click.echo(f"{remark}.", err=True)
