"""What stands round a thread or a pitch and is no part of it: its hand, its starts, and the lead of several starts."""

from __future__ import annotations

from typing import NamedTuple

from solver.quantities.figure_reader import FigureReader
from solver.refusals import UnreadableFigureError
from solver.trains.hand import Hand

#: How a drawing writes the hand, the longest first.
_HANDS = {
    "left-handed": Hand.LEFT, "left handed": Hand.LEFT, "left-hand": Hand.LEFT, "left hand": Hand.LEFT,
    "l.h.": Hand.LEFT, "left": Hand.LEFT, "lh": Hand.LEFT,
    "right-handed": Hand.RIGHT, "right handed": Hand.RIGHT, "right-hand": Hand.RIGHT, "right hand": Hand.RIGHT,
    "r.h.": Hand.RIGHT, "right": Hand.RIGHT, "rh": Hand.RIGHT,
}  # fmt: skip
_DASHES = "-‐‑‒–—−"


class Endings(NamedTuple):
    """A text without its hand and starts.

    Parameters
    ----------
    whole : str
        The text without its hand, which a pitch is read from.
    core : str
        Without its starts too; several starts of the standards are written as their pitch.
    starts : int
        One where none are written.
    at : int
        Where their figure stood in ``whole``.
    hand : Hand or None
        As written; ``None`` where nothing is.
    """

    whole: str
    core: str
    starts: int
    at: int
    hand: Hand | None


def without_endings(text: str) -> Endings:
    """Take the hand and the starts off a thread or a pitch.

    Raises
    ------
    UnreadableFigureError
        The hand is said twice, or a lead is no whole number of its pitches.

    Examples
    --------
    >>> without_endings("Tr 40x14(P7) LH")[1:3], without_endings("1.5mm LH").hand
    (('Tr 40x7', 2), <Hand.LEFT: 'left'>)
    >>> without_endings("M16xPh3P1.5-6H").core, without_endings("Tr 16x4 2-start").starts
    ('M16x1.5-6H', 2)
    """
    bare, hand = _without_hand(text)
    named = _with_starts_named(bare)
    core, starts, at = _without_starts(named)
    return Endings(bare, core, starts, at, hand)


def written_hand(text: str) -> Hand | None:
    """Return the hand that a drawing writes beside a thread or a pitch, ``None`` where it writes none.

    Examples
    --------
    >>> written_hand("1-8 UNC-2A-LH"), written_hand("M6"), written_hand("left-hand 20 tpi").value
    (<Hand.LEFT: 'left'>, None, 'left')
    """
    return _without_hand(text)[1]


def _without_hand(text: str) -> tuple[str, Hand | None]:
    """Take out the word for the hand, which stands before the class, behind it, or before all."""
    found = _find_hand(text, 0)
    if found is None:
        return text, None
    at, end, hand = found
    before, behind = text[:at].rstrip(f" \t,{_DASHES}"), text[end:]
    bare = before + behind if before else behind.lstrip(f" \t,{_DASHES}")
    if not bare.strip():
        return text, None
    again = _find_hand(text, end)
    if again is not None:
        raise UnreadableFigureError(text, again[0], "the hand of a thread is said once", help_text="For example M6 LH.")
    return bare, hand


def _find_hand(text: str, start: int) -> tuple[int, int, Hand] | None:
    """Find a word for the hand that no letter touches: where it begins and ends."""
    # Letter by letter, since some letters are two when they are small.
    small = "".join(each.lower() if each.isascii() else each for each in text)
    for at in range(start, len(small)):
        if at and small[at - 1].isalpha():
            continue
        for word, hand in _HANDS.items():
            end = at + len(word)
            if small.startswith(word, at) and not small[end : end + 1].isalnum():
                return at, end, hand
    return None


def _with_starts_named(text: str) -> str:
    """Write the standards' ``Tr 16x8(P4)`` and ``M16xPh3P1.5``, lead then pitch, as ``Tr 16x4, 2 starts``."""
    size, joint, rest = text.replace("×", "x").replace("X", "x").partition("x")
    if not joint or not rest.strip() or not size.strip().casefold().startswith(("m", "tr")):
        return text
    try:
        reader = FigureReader(rest)
        if rest[reader.at :].casefold().startswith("ph"):
            reader.at += len("ph")
            reader.skip_spaces()
        lead = reader.number()
        reader.skip_spaces()
        has_bracket = reader.peek() == "("
        reader.at += has_bracket
        if reader.word().casefold() != "p":
            return text
        reader.skip_spaces()
        at = reader.at
        pitch = reader.number()
        written = rest[at : reader.at].strip()
        reader.skip_spaces()
    except UnreadableFigureError:
        return text
    if has_bracket and reader.peek() != ")":
        return text
    reader.at += has_bracket
    if pitch == 0 or lead == 0 or (lead / pitch).denominator != 1:
        place = len(size) + len(joint) + at
        reason = "the lead is a whole number of these pitches"
        raise UnreadableFigureError(
            text, place, reason, help_text="For example Tr 16x8(P4): lead 8, pitch 4, 2 starts."
        )
    return f"{size}x{written}{rest[reader.at :]}, {lead / pitch} starts"


def _without_starts(text: str) -> tuple[str, int, int]:
    """Take ``, 2 starts`` or ``2-start`` off the end; also say where the figure stood."""
    bare = text.rstrip()
    for word in ("starts", "start"):
        if bare.casefold().endswith(word):
            before = bare[: -len(word)].rstrip()
            if before.endswith(tuple(_DASHES)):
                before = before[:-1].rstrip()
            at = len(before)
            while at > 0 and before[at - 1] in "0123456789":
                at -= 1
            # A digit that touches what stands before it belongs to that.
            if at and len(before) - at in range(1, 5) and before[at - 1] in " ,\t":
                return before[:at].rstrip(" ,\t"), int(before[at:]), at
    return text, 1, 0
