"""Names of regular shapes, by which a drawing asks for so many flats."""

from __future__ import annotations

from solver.dividing.shapes import FEWEST_FLATS, MOST_FLATS

#: Short names that a drawing has for some of them.
_SHORT = {"hex": "hexagon", "oct": "octagon", "sq": "square"}
#: Names of shapes and how many flats each has.
SHAPES = {
    "flats": 2, "triangle": 3, "square": 4, "pentagon": 5, "hexagon": 6, "heptagon": 7, "octagon": 8,
    "nonagon": 9, "decagon": 10, "dodecagon": 12,
}  # fmt: skip


def flats_named(word: str) -> int | None:
    """Return how many flats a word asks for, a name or a number; ``None`` where it is no shape.

    Examples
    --------
    >>> flats_named("Square"), flats_named("hex"), flats_named("7"), flats_named("round")
    (4, 6, 7, None)
    """
    text = word.strip().lower().rstrip(".")
    text = _SHORT.get(text, text)
    if text in SHAPES:
        return SHAPES[text]
    if text.isascii() and text.isdigit() and len(text) <= len(str(MOST_FLATS)):
        return int(text) if FEWEST_FLATS <= int(text) <= MOST_FLATS else None
    return None
