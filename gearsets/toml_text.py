"""Writing values as TOML text that is read back as the same values."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from solver.quantities.angles import Angle
from solver.quantities.exact_numbers import is_finite_decimal, trimmed_decimal_text
from solver.quantities.lengths import Length

#: Decimal places beyond which a figure is written as a fraction.
DECIMALS_KEPT = 6
_SHORT_ESCAPES = {"\\": "\\\\", '"': '\\"', "\n": "\\n", "\t": "\\t"}


def toml_string(text: str) -> str:
    r"""Write text in quotes.

    Examples
    --------
    >>> print(toml_string('the 3" lathe'))
    "the 3\" lathe"
    """
    return '"' + "".join(_escaped(letter) for letter in text) + '"'


def _escaped(letter: str) -> str:
    if letter in _SHORT_ESCAPES:
        return _SHORT_ESCAPES[letter]
    return f"\\u{ord(letter):04x}" if letter < " " or letter == "\x7f" else letter


def toml_key(key: str) -> str:
    """Write a key, in quotes where TOML wants them.

    Examples
    --------
    >>> toml_key("A1"), toml_key("A 1")
    ('A1', '"A 1"')
    """
    is_bare = key.isascii() and key.replace("-", "a").replace("_", "a").isalnum()
    return key if is_bare else toml_string(key)


def figure_text(figure: Fraction, unit: str) -> str:
    """Write an exact figure with its unit: a short decimal, else a fraction.

    Examples
    --------
    >>> figure_text(Fraction(-20), "deg"), figure_text(Fraction(1, 3), "mm")
    ('-20 deg', '1/3 mm')
    """
    if is_finite_decimal(figure, DECIMALS_KEPT):
        return f"{trimmed_decimal_text(figure, DECIMALS_KEPT)} {unit}"
    return f"{figure} {unit}"


def length_toml(length: Length) -> str:
    """Write a length in millimetres, or in inches where those are the shorter decimal.

    Examples
    --------
    >>> length_toml(Length.of_mm(150)), length_toml(Length.of_inches("0.123457"))
    ('"150 mm"', '"0.123457 in"')
    """
    if not is_finite_decimal(length.mm, DECIMALS_KEPT) and is_finite_decimal(length.inches, DECIMALS_KEPT):
        return toml_string(figure_text(length.inches, "in"))
    return toml_string(figure_text(length.mm, "mm"))


def angle_toml(angle: Angle) -> str:
    """Write an angle in degrees.

    Examples
    --------
    >>> angle_toml(Angle(Fraction(-1, 18)))
    '"-20 deg"'
    """
    return toml_string(figure_text(angle.degrees, "deg"))


def list_toml(entries: Iterable[str]) -> str:
    """Write a list of values that are TOML text already.

    Examples
    --------
    >>> list_toml(["15", "16"])
    '[15, 16]'
    """
    return f"[{', '.join(entries)}]"


def inline_table_toml(entries: Iterable[tuple[str, str]]) -> str:
    """Write a table on one line, from keys and values that are TOML text already.

    Examples
    --------
    >>> inline_table_toml([("20", "2"), ("127", "1")])
    '{ 20 = 2, 127 = 1 }'
    """
    inside = ", ".join(f"{toml_key(key)} = {value}" for key, value in entries)
    return f"{{ {inside} }}" if inside else "{}"
