"""The tolerance of the fit: given by hand, or known for the thread."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import Length
from solver.quantities.pitches import Pitch
from solver.quantities.written_lengths import read_micrometres
from solver.refusals import ImpossibleSettingError

if TYPE_CHECKING:
    from gearsets.thread_tables import SeriesThread
    from solver.trains.fit_tolerance import FitTolerance

fit_option = click.option(
    "--fit",
    "fit_text",
    metavar="TOLERANCE",
    help="Tolerance of the pitch diameter, as '132 um', for the judgement. [default: class 2A for unified threads]",
)
#: Series whose class 2A is made for an engagement of one diameter, and the one made for nine pitches.
ONE_DIAMETER = ("unc", "unf")
NINE_PITCHES = ("unef",)


def read_fit(text: str | None, asked: Pitch, thread: SeriesThread | None) -> FitTolerance | None:
    """Read the tolerance of the fit, else take the one known for the thread; ``None`` where neither is to be had.

    Raises
    ------
    ImpossibleSettingError
        One was given for a form whose share cannot be told.

    Examples
    --------
    >>> from solver.quantities.written_pitches import read_pitch
    >>> read_fit("132 um", read_pitch("1.5mm"), None).high
    Length(mm=Fraction(33, 250))
    """
    if text is None:
        return known_tolerance(thread, asked.starts)
    from cli.views.train_screen import form_words
    from solver.trains.fit_tolerance import FitTolerance

    if not form_words(asked, thread):
        raise ImpossibleSettingError(
            f"--fit {text!r} was given, but the share of a tolerance is told for 60° forms only.",
            help_text="Leave --fit out, or set --length and --within to what the screw must hold.",
        )
    tolerance = read_micrometres(text)
    if tolerance.mm == 0:
        raise FigureReader(text).refuse("a tolerance is above zero", at=0)
    return FitTolerance.given(tolerance, "as given")


def known_tolerance(thread: SeriesThread | None, starts: int = 1) -> FitTolerance | None:
    """Return the pitch-diameter tolerance of a single-start thread of the tables, where its formula is known here.

    Examples
    --------
    >>> from gearsets.designations import read_designation
    >>> known_tolerance(read_designation("M6")) is None
    True
    """
    if thread is None or starts != 1 or thread.series not in (*ONE_DIAMETER, *NINE_PITCHES):
        return None
    from solver.trains.fit_tolerance import unified_2a

    pitch = thread.pitch.pitch
    if thread.diameter is None or not isinstance(pitch, Length):
        return None
    return unified_2a(thread.diameter, pitch, thread.diameter if thread.series in ONE_DIAMETER else pitch * 9)
