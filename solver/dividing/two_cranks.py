"""Wide-range heads: a large crank on the worm, and a small crank that turns the large one slowly.

Both moves are made for every division. The large crank is moved on its circle, the small one on its own. Both go
forward where that serves as well; one goes back where only that is exact, or nearer.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from solver.dividing.closing import Closing
from solver.dividing.heads import Head, SmallCrank
from solver.dividing.moves import CrankMove
from solver.refusals import ImpossibleSettingError


@dataclass(frozen=True, slots=True)
class TwoCrankSetting(Closing):
    """One setting of both cranks.

    Parameters
    ----------
    large, small : CrankMove
        Moves of the two cranks; whole turns, or none, name no circle. One of them may go back.
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
    def runs_both_ways(self) -> bool:
        """True when one crank goes back while the other goes forward.

        Examples
        --------
        >>> part = Fraction(1, 4000)
        >>> large, small = CrankMove(0, 2, 100), CrankMove(0, 1, 54, -1)
        >>> TwoCrankSetting(large, small, "A", part, part, 4000).runs_both_ways
        True
        """
        return self.large.value * self.small.value < 0


def two_crank_settings(head: Head, wanted: Fraction, *, most: int = 6) -> tuple[TwoCrankSetting, ...]:
    """Find the settings of both cranks for a part of a turn.

    Every pair of circles is tried, and on it every move of the large crank after which the small one meets other
    places, forwards and back: no setting is nearer, and none with both cranks going forward is nearer than the first
    of those. One crank goes back only where that is exact or nearer; then the best with both forward stands there too.

    Parameters
    ----------
    head : Head
        With a small crank, and a plate for the large one.
    wanted : Fraction
        Turns of the work for each move, above 0 and at most 1.
    most : int, optional
        How many to return.

    Returns
    -------
    tuple of TwoCrankSetting
        Least error first, then little for the small crank. Exact ones only where there are any, but for the best with
        both cranks forward, which stands last where exactness takes one back. Where none is exact at most half of them
        take one back.

    Raises
    ------
    ImpossibleSettingError
        The head has no small crank, or half the smallest move is more than what is wanted.

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
    if head.small_crank is None:
        raise ImpossibleSettingError(
            "this head has no small crank beside its large one",
            help_text="Name a two-crank head with --head, or describe yours with [small_crank].",
        )
    found = sorted(dict.fromkeys(_every(head, head.small_crank, wanted)), key=_rank)
    if not found:
        raise ImpossibleSettingError(
            f"{wanted} turn of the work is less than half the smallest move of this head",
            help_text="Ask for fewer divisions.",
        )
    both_forward = [each for each in found if not each.runs_both_ways]
    if not both_forward:
        return tuple(each for each in found if each.is_exact == found[0].is_exact)[:most]
    least = abs(both_forward[0].error_per_move.turns)
    # Going back is worth the play only where it comes nearer.
    one_back = [each for each in found if each.runs_both_ways and abs(each.error_per_move.turns) < least]
    if least == 0:
        return tuple(each for each in both_forward if each.is_exact)[:most]
    if one_back and one_back[0].is_exact:
        return (*[each for each in one_back if each.is_exact][: most - 1], both_forward[0])
    return tuple(sorted((*one_back[: most // 2], *both_forward), key=_rank)[:most])


def _rank(setting: TwoCrankSetting) -> tuple[object, ...]:
    return (
        abs(setting.error_per_move.turns),
        setting.runs_both_ways,
        abs(setting.small.value),
        abs(setting.large.value),
        -(setting.large.circle or 0),
        -(setting.small.circle or 0),
        setting.plate,
    )


def _every(head: Head, small: SmallCrank, wanted: Fraction) -> Iterator[TwoCrankSetting]:
    crank = wanted * head.worm_ratio
    for plate, circle in head.circles():
        for small_circle in small.circles:
            # Beyond so many spaces the small crank meets the same places again.
            period = (small.ratio * small_circle / circle).denominator
            # The last hole short of what is wanted: up to it the small crank goes forward, past it back. Fewer than
            # no spaces are the large crank going back itself.
            short = int(crank * circle // 1)
            for spaces in range(short - period + 1, short + period + 1):
                large = Fraction(spaces, circle)
                little = Fraction(round((crank - large) * small.ratio * small_circle), small_circle)
                reached = (large + little / small.ratio) / head.worm_ratio
                if reached > 0:
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
    sign = -1 if turns < 0 else 1
    if turns.denominator == 1:
        return CrankMove(abs(int(turns)), 0, None, sign)
    return replace(CrankMove.of(abs(turns), circle), sign=sign)
