"""What a repeated move is off, each time and after the round: one home for every kind of setting."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.angles import Angle


class Closing:
    """Errors of a setting that has ``wanted``, ``reached`` and ``moves_to_close``.

    Examples
    --------
    >>> class Setting(Closing):
    ...     wanted, reached, moves_to_close = Fraction(1, 127), Fraction(1, 120), 127
    >>> Setting().is_exact, Setting().error_at_closure
    (False, Angle(turns=Fraction(7, 120)))
    """

    __slots__ = ()

    wanted: Fraction
    reached: Fraction
    moves_to_close: int

    @property
    def is_exact(self) -> bool:
        """True only for an error of zero.

        Examples
        --------
        >>> class Setting(Closing):
        ...     wanted = reached = Fraction(1, 8)
        >>> Setting().is_exact
        True
        """
        return self.reached == self.wanted

    @property
    def error_per_move(self) -> Angle:
        """Reached minus wanted, once.

        Examples
        --------
        >>> class Setting(Closing):
        ...     wanted, reached = Fraction(1, 8), Fraction(1, 6)
        >>> Setting().error_per_move
        Angle(turns=Fraction(1, 24))
        """
        return Angle(self.reached - self.wanted)

    @property
    def error_at_closure(self) -> Angle:
        """What the repeated move is off after the full round; repeating accumulates.

        Examples
        --------
        >>> class Setting(Closing):
        ...     wanted, reached, moves_to_close = Fraction(1, 8), Fraction(1, 6), 8
        >>> Setting().error_at_closure
        Angle(turns=Fraction(1, 3))
        """
        return self.error_per_move * self.moves_to_close
