"""The tolerance of the fit: given by hand, or known for the thread."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from cli.sizes import read_size
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
    help="Tolerance of the pitch diameter, as '132 um', for the judgement. [default: the class written, else 6g or 2A]",
)


def read_fit(
    text: str | None, asked: Pitch, thread: SeriesThread | None, written_class: str = ""
) -> FitTolerance | None:
    """Read the tolerance of the fit, else take that of its class; ``None`` where neither is to be had.

    Raises
    ------
    ImpossibleSettingError
        One was given for a form whose share cannot be told.

    Examples
    --------
    >>> from solver.quantities.written_pitches import read_pitch
    >>> read_fit("132 um", read_pitch("1.5mm"), None).width
    Length(mm=Fraction(33, 250))
    """
    if text is None:
        return known_tolerance(thread, asked.starts, written_class)
    from cli.views.train_screen import form_words
    from solver.trains.fit_tolerance import FitTolerance

    if not form_words(asked, thread):
        raise ImpossibleSettingError(
            f"--fit {text!r} was given, but the share of a tolerance is told for 60° forms only.",
            help_text="Leave --fit out, or set --length and --within to what the screw must hold.",
        )
    return FitTolerance.given(read_size(text, "a tolerance", read_micrometres), "as given")


def known_tolerance(thread: SeriesThread | None, starts: int = 1, written_class: str = "") -> FitTolerance | None:
    """Return the pitch-diameter tolerance of a single-start thread of the tables, where its class is worked out.

    Examples
    --------
    >>> from gearsets.designations import read_designation
    >>> known_tolerance(read_designation("M6")).source, known_tolerance(read_designation("2 BA"))
    ('class 6g', None)
    """
    if thread is None or starts != 1:
        return None
    from gearsets.thread_forms import pitch_tolerance
    from solver.trains.fit_tolerance import FitTolerance

    found = pitch_tolerance(thread, written_class)
    return None if found is None else FitTolerance.given(found[1], f"class {found[0].value}")
