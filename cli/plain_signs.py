"""Signs spelt in letters for a terminal that cannot show them."""

from __future__ import annotations

import codecs
from typing import TextIO

PLAIN_ASCII = "plain_ascii"
#: What stands in for a sign. A fraction keeps off the figure before it: 47½ is no 471/2.
PLAIN_SIGNS = {
    "≈": "~", "±": "+/-", "×": "x", "·": "*", "−": "-", "‐": "-", "‑": "-", "‒": "-", "–": "-", "—": "-", "─": "-",
    "…": "...", "→": "->",
    "≤": "<=", "≥": ">=", "≠": "!=", "√": "root ", "²": "^2", "³": "^3",
    "π": "pi", "µ": "u", "μ": "u", "α": "alpha", "β": "beta", "λ": "lambda", "φ": "phi", "Δ": "delta ",
    "°": " deg", "º": " deg", "′": "'", "″": '"', "”": '"', "“": '"', "Ø": "dia ", "⌀": "dia ",
    "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅓": " 1/3", "⅔": " 2/3",
    "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8",
    "ä": "ae", "ö": "oe", "ü": "ue", "é": "e", "\N{REPLACEMENT CHARACTER}": "?", "\N{NO-BREAK SPACE}": " ",
}  # fmt: skip


def plain_signs(fault: UnicodeError) -> tuple[str, int]:
    """Spell the signs a terminal cannot show in letters it can; a question mark for anything else.

    Examples
    --------
    >>> plain_signs(UnicodeEncodeError("ascii", "≈2 mm", 0, 1, "ordinal not in range"))
    ('~', 1)
    >>> spell_plainly()
    >>> "47½° ± 5″".encode("ascii", "plain_signs")
    b'47 1/2 deg +/- 5"'
    """
    if not isinstance(fault, UnicodeEncodeError):
        raise fault
    signs = fault.object[fault.start : fault.end]
    return "".join(PLAIN_SIGNS.get(sign, "?") for sign in signs), fault.end


def spell_plainly(*streams: TextIO) -> None:
    """Have streams that cannot show a sign spell it in letters, where they would end in a traceback.

    Examples
    --------
    >>> import io
    >>> terminal = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    >>> spell_plainly(terminal)
    >>> terminal.encoding, terminal.errors
    ('plain_ascii', 'plain_signs')
    """
    codecs.register_error("plain_signs", plain_signs)
    codecs.register(_plain_ascii)
    for stream in streams:
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is None:
            continue
        is_ascii = codecs.lookup(stream.encoding).name == "ascii"
        reconfigure(encoding=PLAIN_ASCII if is_ascii else None, errors="plain_signs")


def _plain_ascii(name: str) -> codecs.CodecInfo | None:
    """Give ASCII under a name of our own: click takes a terminal of plain ASCII for a mistake and sends it UTF-8."""
    if name != PLAIN_ASCII:
        return None
    known = codecs.lookup("ascii")
    return codecs.CodecInfo(
        known.encode,
        known.decode,
        known.streamreader,
        known.streamwriter,
        known.incrementalencoder,
        known.incrementaldecoder,
        PLAIN_ASCII,
    )
