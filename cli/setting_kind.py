"""Whether a setting that is to be audited is a train of wheels or a move of the index crank."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import click

from solver.dividing.written_moves import read_moves
from solver.refusals import AmbiguousRequestError, RefusalError
from solver.trains.written_trains import read_set_up

#: Words that only a move has; they say which reader is to name what stands in the way.
_MOVE_WORDS = ("on", "in", "turn", "turns", "hole", "holes", "space", "spaces")


def means_move(
    text: str, of_train: Mapping[str, str | None], of_move: Mapping[str, str | None], against: str | None
) -> bool:
    """Say whether a setting is an index move; one pair with a stroke is told by the options beside it.

    Parameters
    ----------
    text : str
        As written.
    of_train, of_move : mapping of str to str
        Options that belong to the one or the other, with what was given for them.
    against : str or None
        What the setting is held against: a bare number for a move, a pitch for a train.

    Raises
    ------
    AmbiguousRequestError
        One pair with a stroke, and nothing beside it that tells.
    click.UsageError
        Nothing is written.

    Examples
    --------
    >>> means_move("9 on 21", {}, {}, None), means_move("20/40 50/127", {}, {}, None)
    (True, False)
    >>> means_move("20/80", {}, {"--head": "head-60"}, None), means_move("20/80", {}, {}, "1 mm")
    (True, False)
    """
    words = text.lower().split()
    if not words:
        raise click.UsageError("Nothing is written: give a train such as 40-80-50-127, or a move such as '9 on 21'.")
    is_train, is_move = _reads(read_set_up, text), _reads(read_moves, text)
    if is_train != is_move:
        return is_move
    if not is_train:
        return bool(set(_MOVE_WORDS) & set(words)) or "/" in text
    driver, _, driven = text.partition("/")
    if not (driver.strip().isdecimal() and driven.strip().isdecimal()):
        # A minus between two pairs: the two motions of compound work.
        return True
    says_train, says_move = (any(given is not None for given in each.values()) for each in (of_train, of_move))
    if against is not None:
        says_train, says_move = (says_train, True) if against.strip().isdecimal() else (True, says_move)
    if says_train == says_move:
        train, move = f"{driver.strip()}-{driven.strip()}", f"{driver.strip()} on {driven.strip()}"
        raise AmbiguousRequestError(
            f"{text.strip()[:40]} may be wheels, driver over driven, or spaces on a circle",
            help_text=f"Write {train} for the train, '{move}' for the index move; or name --lathe or --head.",
        )
    return says_move


def _reads(reader: Callable[[str], object], text: str) -> bool:
    try:
        reader(text)
    except RefusalError:
        return False
    return True
