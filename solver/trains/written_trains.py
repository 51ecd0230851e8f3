"""Reading a train written as one dash-joined token, spindle side first."""

from __future__ import annotations

from collections.abc import Sequence

from solver.quantities.figure_reader import FigureReader
from solver.trains.chain import Idler
from solver.trains.wheels import FEWEST_TEETH, MOST_TEETH, Pair, Train, WheelClass

#: Most wheels read in one train.
MOST_WHEELS = 12
TRAIN_HELP = "Write driver-driven-driver-driven from the spindle side, for example 40-80-50-127, idlers in brackets."


def read_train(text: str, classes: Sequence[WheelClass] = ()) -> Train:
    """Read a train such as ``40-80-50-127``: driver, driven, driver, driven.

    Parameters
    ----------
    text : str
        Even number of tooth counts joined by dashes.
    classes : sequence of WheelClass, optional
        The box; a pair is given the first class that holds both of its wheels, else the first class.

    Returns
    -------
    Train
        As written; whether the wheels are in a box is another question.

    Raises
    ------
    UnreadableFigureError
        Not whole numbers, an odd number of them, or a wheel with too few or too many teeth.

    Examples
    --------
    >>> read_train("40-80-50-127").ratio
    Fraction(25, 127)
    """
    return read_set_up(text, classes)[0]


def read_set_up(text: str, classes: Sequence[WheelClass] = ()) -> tuple[Train, tuple[Idler, ...]]:
    """Read a train with its idlers in brackets, as ``50-(100)-127``; also the forms ``20/40 50/127`` and ``20:40``.

    Parameters
    ----------
    text : str
        Tooth counts from the spindle side, idlers in brackets where they go.
    classes : sequence of WheelClass, optional
        As for `read_train`.

    Returns
    -------
    (Train, tuple of Idler)
        As written.

    Raises
    ------
    UnreadableFigureError
        As for `read_train`, and for an idler on the spindle or the leadscrew, or between wheels of one stud.

    Examples
    --------
    >>> read_set_up("20-40-50-(65)-127")[1]
    (Idler(mesh=2, teeth=65),)
    >>> str(read_set_up("20/40 50/127")[0])
    '20-40-50-127'
    """
    reader = FigureReader(text, TRAIN_HELP)
    teeth: list[int] = []
    idlers: list[Idler] = []
    while True:
        if reader.peek() == "(":
            idlers.append(_idler(reader, teeth))
        else:
            teeth.append(_wheel(reader))
        if reader.is_done():
            break
        _skip_joint(reader)
    if len(teeth) > MOST_WHEELS:
        raise reader.refuse(f"a train of {len(teeth)} wheels is too long; {MOST_WHEELS} at most, idlers apart")
    if len(teeth) % 2:
        wheels = "1 wheel does" if len(teeth) == 1 else f"{len(teeth)} wheels do"
        raise reader.refuse(f"{wheels} not make pairs of driver and driven; idlers stand in brackets")
    pairs = (_pair(driver, driven, classes) for driver, driven in zip(teeth[::2], teeth[1::2], strict=True))
    return Train(tuple(pairs)), tuple(idlers)


def _skip_joint(reader: FigureReader) -> None:
    """Step over what joins two wheels: a dash, a stroke, a colon, a times sign, or the blank between two pairs."""
    at = reader.at
    if reader.peek() in ("-", "–", "/", ":", "x", "×"):
        reader.at += 1
        reader.skip_spaces()
    elif reader.text[at - 1] != " ":
        raise reader.refuse("wheels are joined by dashes")


def _idler(reader: FigureReader, teeth: Sequence[int]) -> Idler:
    if len(teeth) % 2 == 0:
        raise reader.refuse("an idler goes between a driver and the wheel it drives")
    reader.at += 1
    reader.skip_spaces()
    count = _wheel(reader)
    if reader.peek() != ")":
        raise reader.refuse("the bracket of an idler is not closed")
    reader.at += 1
    reader.skip_spaces()
    return Idler(len(teeth) // 2 + 1, count)


def _pair(driver: int, driven: int, classes: Sequence[WheelClass]) -> Pair:
    for number, wheel_class in enumerate(classes):
        held = {teeth for teeth, _ in wheel_class.stock}
        if driver in held and driven in held:
            return Pair(driver, driven, number)
    return Pair(driver, driven)


def _wheel(reader: FigureReader) -> int:
    at = reader.at
    if not reader.starts_number():
        raise reader.refuse("a tooth count was expected here")
    teeth = reader.whole()
    reader.skip_spaces()
    if not FEWEST_TEETH <= teeth <= MOST_TEETH:
        raise reader.refuse(f"a change wheel has {FEWEST_TEETH} to {MOST_TEETH} teeth", at=at)
    return teeth
