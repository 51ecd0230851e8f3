"""Reading a relative error as a bench writes it: so much in so much, or parts in a million."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import Length
from solver.quantities.written_lengths import read_length, read_micrometres
from solver.refusals import UnreadableFigureError

#: A screw farther off than this is another screw. [part of the lead]
LARGEST_ERROR = Fraction(1, 20)
_ERROR_HELP = "Write for example +0.03 mm in 300 mm, -0.0005 in in 1 in, or +100 ppm; plus is a long lead."


def read_progressive_error(text: str) -> Fraction:
    """Read a progressive error of a lead: an amount over a length, ``ppm`` or per cent, with its sign.

    Parameters
    ----------
    text : str
        Plus, or no sign, is a lead too long.

    Returns
    -------
    Fraction
        The error as a part of the lead.

    Raises
    ------
    UnreadableFigureError
        No amount, no length, or more than a twentieth of the lead.

    Examples
    --------
    >>> read_progressive_error("+0.03 mm in 300 mm"), read_progressive_error("-100 ppm")
    (Fraction(1, 10000), Fraction(-1, 10000))
    >>> read_progressive_error("0.0005 in in 1 in")
    Fraction(1, 2000)
    """
    stripped = text.strip().replace("−", "-")
    sign = -1 if stripped.startswith("-") else 1
    body = stripped[1:] if stripped[:1] in ("+", "-") else stripped
    error = sign * _size(body, text)
    if abs(error) > LARGEST_ERROR:
        raise UnreadableFigureError(text, 0, "an error of more than a twentieth is another lead", help_text=_ERROR_HELP)
    return error


def read_share(text: str, help_text: str = "") -> Fraction | None:
    """Read a part of the whole.

    Parameters
    ----------
    text : str
        For example ``200 ppm`` or ``0.1 %``.
    help_text : str, optional
        What such a figure looks like, for a refusal.

    Returns
    -------
    Fraction or None
        ``None`` where the figure has another unit, or none.

    Raises
    ------
    UnreadableFigureError
        It begins with no figure, or goes on after the unit.

    Examples
    --------
    >>> read_share("200 ppm"), read_share("0.1%"), read_share("5 um")
    (Fraction(1, 5000), Fraction(1, 1000), None)
    """
    reader = FigureReader(text, help_text)
    figure = reader.number()
    reader.skip_spaces()
    if reader.peek() == "%":
        reader.at, whole = reader.at + 1, 100
    elif reader.word().lower() == "ppm":
        whole = 1_000_000
    else:
        return None
    reader.finish()
    return figure / whole


def _size(body: str, text: str) -> Fraction:
    share = read_share(body, _ERROR_HELP)
    if share is not None:
        return share
    amount, length = _parted(body)
    if not length:
        raise UnreadableFigureError(text, 0, "an error needs the length it adds up over", help_text=_ERROR_HELP)
    over = read_length(length)
    if over.mm == 0:
        raise UnreadableFigureError(text, 0, "no error adds up over no length", help_text=_ERROR_HELP)
    return read_micrometres(amount) / over


def _parted(body: str) -> tuple[str, str]:
    """Part the amount from the length at the word between them; ``in`` may be the inch too, so the last one parts."""
    words = body.split()
    for at in range(len(words) - 2, 0, -1):
        if words[at].lower() in ("in", "per", "over"):
            return " ".join(words[:at]), " ".join(words[at + 1 :])
    return body, ""


def says_exact(text: str) -> bool:
    """Say whether a tolerance is written as the word ``exact``: no error at all.

    Examples
    --------
    >>> says_exact(" Exact "), says_exact("1 ppm")
    (True, False)
    """
    return text.strip().lower() == "exact"


def read_within(text: str, length: Length) -> Fraction:
    """Read a tolerance as a part of the lead: ``200 ppm``, ``0.1 %``, ``5 um`` over a length, or ``exact``.

    Parameters
    ----------
    text : str
        Never signed.
    length : Length
        Over which an amount in micrometres or another length is meant.

    Raises
    ------
    UnreadableFigureError
        No figure, or no unit of an error.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> read_within("200 ppm", Length.of_mm(25)), read_within("5 um", Length.of_mm(25))
    (Fraction(1, 5000), Fraction(1, 5000))
    >>> read_within("exact", Length.of_mm(25))
    Fraction(0, 1)
    """
    if says_exact(text):
        return Fraction(0)
    help_text = "Write for example 200 ppm, 0.1 %, 5 um or exact."
    share = read_share(text, help_text)
    if share is not None:
        return share
    reader = FigureReader(text, help_text)
    reader.number()
    reader.skip_spaces()
    if reader.is_done():
        raise reader.refuse("an error needs its unit")
    return read_micrometres(text) / length
