"""Wide-range heads: a large crank on the worm, and a small crank that turns the large one slowly.

Both moves are made for every division. The large crank is moved on its circle, the small one on its own.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from solver.dividing.heads import Head, SmallCrank
from solver.dividing.moves import CrankMove
from solver.quantities.angles import Angle
from solver.refusals import ImpossibleSettingError


@dataclass(frozen=True, slots=True)
class TwoCrankSetting:
    """One setting of both cranks.

    Parameters
    ----------
    large, small : CrankMove
        Moves of the two cranks, in that order; whole turns, or none, name no circle.
    plate : str
        Plate of the large crank.
    wanted : Fraction
        Turns of the work asked for, each move.
    reached : Fraction
        Turns of the work made, each move.
    moves_to_close : int
        Moves after which the work should be back where it began.
    """

    large: CrankMove
    small: CrankMove
    plate: str
    wanted: Fraction
    reached: Fraction
    moves_to_close: int

    @property
    def is_exact(self) -> bool:
        """True only for an error of zero.

        Examples
        --------
        >>> move = CrankMove(0, 1, 100)
        >>> TwoCrankSetting(move, CrankMove(0, 0, None), "A", Fraction(1, 4000), Fraction(1, 4000), 4000).is_exact
        True
        """
        return self.wanted == self.reached

    @property
    def error_per_move(self) -> Angle:
        """Reached minus wanted, once.

        Examples
        --------
        >>> move = CrankMove(0, 1, 100)
        >>> TwoCrankSetting(move, CrankMove(0, 0, None), "A", Fraction(1, 4000), Fraction(1, 4000), 4).error_per_move
        Angle(turns=Fraction(0, 1))
        """
        return Angle(self.reached - self.wanted)

    @property
    def error_at_closure(self) -> Angle:
        """What the repeated move is off after the full round.

        Examples
        --------
        >>> move = CrankMove(0, 1, 100)
        >>> TwoCrankSetting(move, move, "A", Fraction(1, 4000), Fraction(2, 4000), 8).error_at_closure
        Angle(turns=Fraction(1, 500))
        """
        return self.error_per_move * self.moves_to_close


def two_crank_settings(head: Head, wanted: Fraction, *, most: int = 6) -> tuple[TwoCrankSetting, ...]:
    """Find the settings of both cranks for a part of a turn.

    Every pair of circles is tried, and on it every move of the large crank after which the small one meets
    other places; no setting with both cranks going forward is nearer. Of exact settings the ones that leave
    least for the small crank come first; when there is none, the nearest.

    Parameters
    ----------
    head : Head
        With a small crank.
    wanted : Fraction
        Turns of the work for each move, above 0 and at most 1.
    most : int, optional
        How many to return.

    Returns
    -------
    tuple of TwoCrankSetting
        Exact ones only, or none that is exact.

    Raises
    ------
    ImpossibleSettingError
        The head has no small crank or no plate, or half the smallest move is more than what is wanted.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> head = Head("wide", Fraction(40), (Plate("A", ((100,),)),), small_crank=SmallCrank(Fraction(100), (100, 54)))
    >>> first = two_crank_settings(head, Fraction(1, 127_000))[0]
    >>> first.small, first.is_exact
    (CrankMove(turns=0, spaces=3, circle=100, sign=1), False)
    >>> two_crank_settings(head, Fraction(1, 216_000))[0].small
    CrankMove(turns=0, spaces=1, circle=54, sign=1)
    """
    if head.small_crank is None or not head.plates:
        raise ImpossibleSettingError(
            "this head has no small crank beside its large one",
            help_text="Name a wide-range head with --head, or describe yours with [small_crank].",
        )
    found = sorted(
        dict.fromkeys(_every(head, head.small_crank, wanted)),
        key=lambda each: (
            abs(each.error_per_move.turns),
            abs(each.small.value),
            -(each.large.circle or 0),
            -(each.small.circle or 0),
            each.plate,
        ),
    )
    if not found:
        raise ImpossibleSettingError(
            f"{wanted} turn of the work is less than half the smallest move of this head",
            help_text="Ask for fewer divisions.",
        )
    if found[0].is_exact:
        found = [each for each in found if each.is_exact]
    return tuple(found[:most])


def _every(head: Head, small: SmallCrank, wanted: Fraction) -> Iterator[TwoCrankSetting]:
    crank = wanted * head.worm_ratio
    for plate, circle in head.circles():
        for small_circle in small.circles:
            # Beyond so many spaces the small crank meets the same places again.
            period = (small.ratio * small_circle / circle).denominator
            # Rounded down, so that both cranks go the same way and no play comes in between them.
            most = int(crank * circle // 1)
            for spaces in range(most, max(-1, most - period), -1):
                large = Fraction(spaces, circle)
                little = Fraction(round((crank - large) * small.ratio * small_circle), small_circle)
                reached = (large + little / small.ratio) / head.worm_ratio
                if reached:
                    yield TwoCrankSetting(
                        _move(large, circle),
                        _move(little, small_circle),
                        plate,
                        wanted,
                        reached,
                        wanted.denominator,
                    )


def _move(turns: Fraction, circle: int) -> CrankMove:
    """Make a move; whole turns name no circle, since any serves."""
    return CrankMove(int(turns), 0, None) if turns.denominator == 1 else CrankMove.of(turns, circle)
