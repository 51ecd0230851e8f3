"""Reading how many divisions a round is to have; a refusal names the limit and why it stands there."""

from __future__ import annotations

from fractions import Fraction

import click

from solver.dividing.divide import MOST_DIVISIONS
from solver.quantities.figure_reader import FigureReader
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
        angle = f" '{1 / broken} turn'" if broken > 1 and len(str(broken)) <= 12 else ""
        raise click.UsageError(
            f"{shown} divisions do not close a round: their number is whole. One part alone goes with --angle{angle}."
        )
    raise click.UsageError(
        f"{shown!r} is not a number of divisions. Write a whole number such as 28; angles go with --angle."
    )


def _figure(word: str) -> Fraction | None:
    """Read a written number, broken or not; nothing where it is none."""
    try:
        reader = FigureReader(word)
        figure = reader.number()
        reader.finish()
    except UnreadableFigureError:
        return None
    return figure
