"""Reading how a round is to be divided: into how many parts, or at which angles; a refusal says why it stands there."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import click

from solver.dividing.divide import MOST_DIVISIONS
from solver.quantities.figure_reader import FigureReader
from solver.quantities.written_angles import read_angle
from solver.refusals import UnreadableFigureError

#: Arc between two marks of the largest count. [arc seconds]
FINEST = Fraction(1_296_000, MOST_DIVISIONS)


def read_divisions(text: str) -> int:
    """Read a whole number of divisions, 1 to the most.

    Raises
    ------
    click.UsageError
        Nought, below nought, a broken number, more than the most, or no number at all; each in words of its own.

    Examples
    --------
    >>> read_divisions("28"), read_divisions(" 0127 ")
    (28, 127)
    """
    word = text.strip()
    shown = word if len(word) <= 40 else f"{word[:37]}..."
    if word.isascii() and word.isdigit():
        digits = word.lstrip("0")
        if not digits:
            raise click.UsageError("No divisions at all leave nothing to turn. Write a whole number, 1 or more.")
        if len(digits) > len(str(MOST_DIVISIONS)) or int(digits) > MOST_DIVISIONS:
            raise click.UsageError(
                f"{shown} divisions are more than the {MOST_DIVISIONS} answered: with so many the marks stand "
                f"{float(FINEST):.4f} seconds of arc apart already, finer than any head can hold. Ask for fewer."
            )
        return int(digits)
    if word[:1] in ("-", "\N{MINUS SIGN}") and _figure(word[1:]) is not None:
        raise click.UsageError(f"{shown} is below nought: a round has 1 division or more. Leave the sign out.")
    broken = _figure(word)
    if broken is not None and broken.denominator == 1:
        raise click.UsageError(f"Write {shown!r} as a whole number of divisions, without point or stroke.")
    if broken:
        is_short = len(str(broken)) <= 12
        angle = f' "{word} deg"' if is_short and broken <= 360 else ""
        part = f" One part of a round so divided is --angle '{1 / broken} turn'." if is_short and broken > 1 else ""
        raise click.UsageError(
            f"{shown} divisions do not close a round: their number is whole. An angle goes with --angle{angle}.{part}"
        )
    raise click.UsageError(
        f"{shown!r} is not a number of divisions. Write a whole number such as 28; angles go with --angle."
    )


def read_part(text: str) -> Fraction:
    """Read one angle of the work, above 0 and at most a turn, in turns.

    Raises
    ------
    click.UsageError
        An angle that is no part of a turn.

    Examples
    --------
    >>> read_part("37.5 deg")
    Fraction(5, 48)
    """
    turns = _turns(text)
    if not 0 < turns <= 1:
        raise click.UsageError(f"--angle takes an angle above 0 and at most 360 deg, not {text.strip()[:40]!r}.")
    return turns


def read_marks(texts: Sequence[str]) -> tuple[Fraction, ...]:
    """Read the angles of several marks, each measured from mark 0, and put them in rising order behind it.

    Raises
    ------
    click.UsageError
        Beyond a turn, or the same angle twice; mark 0 is where the work begins, and is not given.

    Examples
    --------
    >>> [str(mark) for mark in read_marks(["90 deg", "1/12 turn"])]
    ['0', '1/12', '1/4']
    """
    written: dict[Fraction, str] = {}
    for text in texts:
        if _turns(text) == 0:
            raise click.UsageError("Mark 0 is where you begin: of several angles give only the others.")
        turns = read_part(text)
        if turns in written:
            raise click.UsageError(
                f"{text.strip()[:40]!r} is the same angle as {written[turns][:40]!r}: give each mark once."
            )
        written[turns] = text.strip()
    return (Fraction(0), *sorted(written))


def _turns(text: str) -> Fraction:
    """Read one angle; several in one text are refused as such."""
    try:
        return read_angle(text).turns
    except UnreadableFigureError as refusal:
        if "," not in text.strip().rstrip(",") or refusal.help_text.startswith("Write a point"):
            raise
        reason = "several angles are not read from one text"
        raise UnreadableFigureError(
            text, refusal.at, reason, help_text="Give --angle once for each angle."
        ) from refusal


def _figure(word: str) -> Fraction | None:
    """Read a written number, broken or not; nothing where it is none."""
    try:
        reader = FigureReader(word)
        figure = reader.number()
        reader.finish()
    except UnreadableFigureError:
        return None
    return figure
