"""The class a drawing writes behind a thread, which no wheel depends on but a tolerance does."""

from __future__ import annotations

#: Words of the British standards for how freely a thread goes together.
FIT_WORDS = ("close", "medium", "free", "normal")
#: Classes of the external pipe thread G.
PIPE_CLASSES = ("A", "B")
_DIGITS = "123456789"
_LETTERS = "abcdefghABCDEFGH"


def class_of(rest: str) -> str | None:
    """Read what stands behind a designation as its class.

    Parameters
    ----------
    rest : str
        All that is left of the text.

    Returns
    -------
    str or None
        The class as a drawing writes it, without blanks: ``6g``, ``6H/6g``, ``4h6h``, ``2A``, ``5h3``, ``medium``;
        ``None`` when it is something else, or nothing.

    Examples
    --------
    >>> class_of(" - 6H / 6g"), class_of("2A"), class_of("-5h3"), class_of("6z"), class_of("hello")
    ('6H/6g', '2A', '5h3', None, None)
    """
    words = "".join(rest.split()).removeprefix("-")
    if words.casefold() in FIT_WORDS:
        return words.casefold()
    sides = words.split("/")
    return words if len(sides) <= 2 and all(_is_class(side) for side in sides) else None


def _is_class(side: str) -> bool:
    """Say whether it is one class, or two grades of one; the miniature ones have a figure behind (5h3)."""
    bare = side[:-1] if len(side) == 3 and side[-1] in _DIGITS else side
    pairs = [bare[at : at + 2] for at in range(0, len(bare), 2)]
    return 1 <= len(pairs) <= 2 and all(len(pair) == 2 and pair[0] in _DIGITS and pair[1] in _LETTERS for pair in pairs)
