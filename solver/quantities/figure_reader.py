"""A small reader for written figures: no ``eval``, no algebra library, a marker under the bad character."""

from __future__ import annotations

from fractions import Fraction

from solver.refusals import UnreadableFigureError

#: Longest written figure taken in. [characters]
LONGEST_TEXT = 120
#: Longest run of digits taken in; no shop figure needs more. [digits]
LONGEST_NUMBER = 18

_DIGITS = "0123456789"
#: Signs that stand for words of the trade, and fractions with a sign of their own.
_VULGAR = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "⅓": "1/3",
    "⅔": "2/3",
}


class FigureReader:
    """A cursor over one written figure.

    Parameters
    ----------
    text : str
        What the person wrote, kept whole for messages.
    help_text : str, optional
        What such a figure looks like: said with every refusal that has nothing more apt to say.

    Raises
    ------
    UnreadableFigureError
        The text is empty or longer than any figure.

    Examples
    --------
    >>> reader = FigureReader("11 1/2 tpi")
    >>> reader.number(), reader.word()
    (Fraction(23, 2), 'tpi')
    """

    def __init__(self, text: str, help_text: str = "") -> None:
        self.text = text
        self.help_text = help_text
        self.at = 0
        if len(text) > LONGEST_TEXT:
            raise self.refuse(
                f"a figure of {len(text)} characters is too long; {LONGEST_TEXT} at most", at=LONGEST_TEXT
            )
        self.skip_spaces()
        if self.is_done():
            raise self.refuse("nothing is written here")

    def peek(self) -> str:
        """Return the character at the cursor, empty at the end.

        Examples
        --------
        >>> FigureReader("7 mm").peek()
        '7'
        """
        return self.text[self.at : self.at + 1]

    def is_done(self) -> bool:
        """Say whether the whole text has been read.

        Examples
        --------
        >>> FigureReader("x").is_done()
        False
        """
        return self.at >= len(self.text)

    def skip_spaces(self) -> None:
        """Move past blanks.

        Examples
        --------
        >>> reader = FigureReader("  7")
        >>> reader.at
        2
        """
        while self.peek().isspace():
            self.at += 1

    def refuse(self, reason: str, *, at: int | None = None, help_text: str | None = None) -> UnreadableFigureError:
        """Build the refusal for the character at the cursor, or at ``at``.

        Examples
        --------
        >>> print(FigureReader("?").refuse("not a digit"))
        not a digit
          ?
          ^
        """
        where = self.at if at is None else at
        return UnreadableFigureError(
            self.text, where, reason, help_text=self.help_text if help_text is None else help_text
        )

    def starts_number(self) -> bool:
        """Say whether a number begins at the cursor.

        Examples
        --------
        >>> FigureReader(".5").starts_number(), FigureReader("M6").starts_number()
        (True, False)
        """
        here = self.peek()
        if here == ".":
            return self.text[self.at + 1 : self.at + 2] in tuple(_DIGITS)
        return here != "" and (here in _DIGITS or here in _VULGAR)

    def whole(self) -> int:
        """Read a whole number.

        Examples
        --------
        >>> FigureReader("127").whole()
        127
        """
        start = self.at
        while (here := self.peek()) != "" and here in _DIGITS:
            self.at += 1
        if self.at == start:
            raise self.refuse("a digit was expected here")
        if self.at - start > LONGEST_NUMBER:
            raise self.refuse(f"a number of more than {LONGEST_NUMBER} digits is not a shop figure", at=start)
        if self.peek() in ("e", "E") and self.text[self.at + 1 : self.at + 2] in tuple(_DIGITS + "+-"):
            raise self.refuse("an exponent is not a shop figure; write the number out")
        return int(self.text[start : self.at])

    def number(self) -> Fraction:
        """Read ``3``, ``1.25``, ``1/20``, ``11 1/2``, ``11-1/2`` or ``11½``, exactly and above or equal to zero.

        Raises
        ------
        UnreadableFigureError
            A sign, a comma, an exponent or a zero denominator stands there.

        Examples
        --------
        >>> FigureReader("1/20").number(), FigureReader("2.5").number(), FigureReader("4½").number()
        (Fraction(1, 20), Fraction(5, 2), Fraction(9, 2))
        """
        if self.peek() in ("-", "\N{MINUS SIGN}"):
            raise self.refuse("this figure is not negative; leave the sign out")
        if self.peek() in _VULGAR:
            return self._vulgar()
        if self.peek() == ".":
            return self._decimals(0)
        first = self.whole()
        here = self.peek()
        if here == ".":
            return self._decimals(first)
        if here == "," and self.text[self.at + 1 : self.at + 2] in tuple(_DIGITS):
            raise self._comma(first)
        if here == "/":
            return self._over(Fraction(first))
        if here in _VULGAR:
            return first + self._vulgar()
        return first + self._mixed_part()

    def decimal(self) -> Fraction:
        """Read ``3`` or ``1.25`` and stop before any stroke, which is left to the caller.

        Raises
        ------
        UnreadableFigureError
            A sign, a decimal comma or an exponent stands there.

        Examples
        --------
        >>> reader = FigureReader("12/365.2422")
        >>> reader.decimal(), reader.peek()
        (Fraction(12, 1), '/')
        """
        if self.peek() in ("-", "\N{MINUS SIGN}"):
            raise self.refuse("this figure is not negative; leave the sign out")
        if self.peek() == ".":
            return self._decimals(0)
        first = self.whole()
        here = self.peek()
        if here == "," and self.text[self.at + 1 : self.at + 2] in tuple(_DIGITS):
            raise self._comma(first)
        return self._decimals(first) if here == "." else Fraction(first)

    def _comma(self, first: int) -> UnreadableFigureError:
        rest = self.text[self.at + 1 :].strip()
        # A second comma, or a point behind it: this one is no decimal point.
        is_point = not {",", "."} & set(rest.rstrip("."))
        return self.refuse(
            "a comma may mean a decimal point or thousands, so it is not read",
            help_text=f"Write a point: {first}.{rest[:20]}" if is_point else None,
        )

    def _decimals(self, whole: int) -> Fraction:
        self.at += 1
        start = self.at
        part = self.whole()
        value = whole + Fraction(part, 10 ** (self.at - start))
        if self.peek() in (",", ".") and self.text[self.at + 1 : self.at + 2] in tuple(_DIGITS):
            raise self.refuse("one decimal point is enough")
        return value

    def _over(self, numerator: Fraction) -> Fraction:
        self.at += 1
        start = self.at
        denominator = self.whole()
        if denominator == 0:
            raise self.refuse("nothing can be divided by zero", at=start)
        return numerator / denominator

    def _vulgar(self) -> Fraction:
        value = Fraction(_VULGAR[self.peek()])
        self.at += 1
        return value

    def _mixed_part(self) -> Fraction:
        """Read the ``1/2`` of ``11 1/2`` or ``11-1/2``; leave the cursor alone when none stands there."""
        kept = self.at
        if self.peek() == "-":
            self.at += 1
        else:
            self.skip_spaces()
        if self.peek() != "" and self.peek() in _DIGITS:
            start = self.at
            numerator = self.whole()
            if self.peek() == "/":
                part = self._over(Fraction(numerator))
                if part >= 1:
                    raise self.refuse("the fraction after a whole number is below one", at=start)
                return part
        self.at = kept
        return Fraction(0)

    def word(self) -> str:
        """Read a run of letters, and the marks that stand for inch, degree, minute and second.

        Examples
        --------
        >>> FigureReader("tpi").word(), FigureReader('"').word()
        ('tpi', '"')
        """
        self.skip_spaces()
        start = self.at
        if self.peek() in ("°", "'", '"', "′", "″"):
            self.at += 1
        else:
            while self.peek().isalpha():
                self.at += 1
        return self.text[start : self.at]

    def finish(self) -> None:
        """Refuse anything that is left over.

        Examples
        --------
        >>> reader = FigureReader("7")
        >>> reader.whole()
        7
        >>> reader.finish()
        """
        self.skip_spaces()
        if not self.is_done():
            raise self.refuse("this is more than one figure, or not one at all")
