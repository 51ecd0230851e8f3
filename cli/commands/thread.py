"""``thread``: what to set, grind, feed and measure for a thread."""

from __future__ import annotations

from fractions import Fraction
from typing import TypedDict, Unpack

import click

from cli.drawing_words import chosen_hand
from cli.part_options import MOST_MARKS, chosen_screw
from cli.sheet_files import refuse_sheet, sheet_option, write_card
from cli.shop_options import force_option, hand_option, json_option
from cli.sizes import optional_size
from cli.thread_sheet import SECTIONS, SheetWishes, class_remark, thread_sheet
from gearsets.designations import read_thread_or_pitch, written_class
from gearsets.thread_forms import DrawnThread, drawn_thread, usual_form
from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import Length
from solver.quantities.written_angles import read_angle
from solver.quantities.written_lengths import read_micrometres
from solver.quantities.written_pitches import pitch_with_starts
from solver.quantities.written_speeds import read_seconds, read_surface_speed
from solver.threads.cutting import CuttingWishes
from solver.threads.forms import read_form
from solver.threads.tool_nose import Nose
from solver.trains.hand import Hand

#: Steps of a dial, by the unit of the set-up.
MM_STEP, INCH_STEP = Length.of_mm("0.01"), Length.of_inches("0.0005")
#: Options that speak to some sections only, the first of which is named where none of them is shown.
_SPEAKS_TO = {
    "blank": "cutting measuring", "slide_angle": "cutting", "first_cut": "cutting", "least_cut": "cutting",
    "passes": "cutting", "screw": "cutting", "marks": "cutting", "top_screw": "cutting", "top_marks": "cutting",
    "nose_radius": "cutting", "nose_flat": "cutting", "surface_speed": "speed", "reaction": "speed", "length": "speed",
    "wire": "measuring", "reading": "measuring", "engagement": "hole", "basis": "hole",
}  # fmt: skip


class ThreadOptions(TypedDict):
    """Options as click passes them; a figure is still the person's text."""

    major: str | None
    form: str | None
    starts: int | None
    internal: bool
    hand_word: str
    in_inches: bool | None
    blank: str | None
    slide_angle: str | None
    first_cut: str | None
    least_cut: str | None
    passes: int | None
    springs: int
    nose_radius: str | None
    nose_flat: str | None
    screw: str | None
    marks: int | None
    top_screw: str | None
    top_marks: int | None
    surface_speed: str | None
    length: str | None
    run_out: str | None
    reaction: str | None
    wire: str | None
    reading: str | None
    engagement: str | None
    basis: str | None


@click.command("thread", short_help="Dimensions, infeed, passes, tool, wires and tapping hole of a thread.")
@click.argument("designation")
@click.option("--major", metavar="LENGTH", help="Major diameter, where only a pitch is given.")
@click.option("--form", metavar="FORM", help="Form, by angle (60, 55, 47.5, 29, 30) or name (square).")
@click.option(
    "--starts", type=click.IntRange(1, 99), metavar="N", help="Starts of the thread; the lead is so many pitches."
)
@click.option("--internal", is_flag=True, help="Cut the nut instead of the screw.")
@hand_option
@click.option("--inch/--mm", "in_inches", default=None, help="Unit of the set-up. [default: that of the pitch]")
@click.option(
    "--show",
    "sections",
    type=click.Choice(SECTIONS),
    metavar="SECTION",
    multiple=True,
    help=f"Only this section of {', '.join(SECTIONS)}; may be given several times. [default: all]",
)
@click.option("--blank", metavar="LENGTH", help="Diameter of your blank, or bore, before threading. [default: basic]")
@click.option("--slide-angle", metavar="ANGLE", help="Top slide, from the cross slide: 29.5 deg.")
@click.option("--first-cut", metavar="LENGTH", help="Deepest first pass, on the radius.")
@click.option("--least-cut", metavar="LENGTH", help="Shallowest pass worth making, on the radius.")
@click.option("--passes", type=click.IntRange(1, 200), metavar="N", help="So many passes of equal chip area instead.")
@click.option(
    "--spring", "springs", type=click.IntRange(0, 20), metavar="N", default=2, show_default=True, help="Spring passes."
)
@click.option(
    "--screw", metavar="LEAD", help="Lead of your cross-slide screw, as 2 mm or 10 tpi: passes in its marks too."
)
@click.option("--marks", type=click.IntRange(1, MOST_MARKS), metavar="N", help="With --screw: marks on its dial.")
@click.option("--top-screw", metavar="LEAD", help="The same of your top slide.")
@click.option(
    "--top-marks", type=click.IntRange(1, MOST_MARKS), metavar="N", help="With --top-screw: marks on its dial."
)
@click.option("--nose-radius", metavar="LENGTH", help="Nose radius of your tool.")
@click.option("--nose-flat", metavar="LENGTH", help="Flat at the end of your tool.")
@click.option("--surface-speed", metavar="SPEED", help="Turning speed: 25 m/min, 90 ft/min.")
@click.option(
    "--length", metavar="LENGTH", help="From the start to the shoulder: turns, carriage speed and times of it."
)
@click.option("--run-out", metavar="LENGTH", help="Room to stop in at a shoulder. [default: 2 leads]")
@click.option("--reaction", metavar="TIME", help="Time your hand takes to stop. [default: 1 s]")
@click.option("--wire", metavar="LENGTH", help="Your measuring wires. [default: the best, rounded]")
@click.option("--reading", metavar="LENGTH", help="A reading over the wires, for the pitch diameter.")
@click.option("--engagement", metavar="PERCENT", help="Thread left in a tapped hole: 75%.")
@click.option("--basis", metavar="BASIS", help="What 100% of it means, at 60 degrees: 3H/4 or 5H/8.")
@sheet_option
@force_option
@json_option
def command(
    designation: str,
    *,
    sections: tuple[str, ...],
    sheet_to: str | None,
    force: bool,
    as_json: bool,
    **given: Unpack[ThreadOptions],
) -> int:
    """Give what to set, grind, feed and measure for DESIGNATION: a thread, or a pitch with --major.

    \b
    Example:
      halfnut thread M10
      halfnut thread "2 BA" --show cutting
      halfnut thread 0.7mm --major 6mm --nose-radius 0.08mm
      halfnut thread M4 --length "10 mm" --show speed
      halfnut thread M4 --screw 10tpi --marks 100 --show cutting
    """
    _refuse_idle(sections, given)
    refuse_sheet(sheet_to, force=force)
    drawn = _drawn(designation, given)
    in_inches = drawn.is_inch if given["in_inches"] is None else bool(given["in_inches"])
    hand = chosen_hand(given["hand_word"], designation)
    sheet = thread_sheet(drawn, _wishes(given, hand, sections or SECTIONS, in_inches=in_inches))
    if sheet.wishes.top_screw and sheet.cutting and not sheet.cutting.feed.slide_angle.turns:
        raise click.UsageError("This thread is fed straight in, by the cross slide alone: leave --top-screw out.")
    if remark := class_remark(sheet, written_class(designation)):
        click.echo(remark, err=True)
    if sheet_to:
        from cli.views.sheets.thread_cards import thread_card

        write_card(thread_card(sheet), sheet_to)
    if as_json:
        from cli.views.thread_json import thread_json

        click.echo(thread_json(sheet))
    else:
        from cli.views.thread_screen import show_thread

        show_thread(sheet)
    return 0


def _drawn(designation: str, given: ThreadOptions) -> DrawnThread:
    pitch, row = read_thread_or_pitch(designation)
    if given["starts"] is not None:
        if pitch.starts not in (1, given["starts"]):
            raise click.UsageError(f"The thread says {pitch.starts} starts and --starts says {given['starts']}.")
        pitch = pitch_with_starts(designation, pitch, given["starts"])
    if row is not None and given["major"]:
        raise click.UsageError(f"{row.designation} has its diameter; --major goes with a pitch alone.")
    form = read_form(given["form"], usual_form(pitch, row)) if given["form"] else None
    major = optional_size(given["major"], "--major", read_micrometres)
    return drawn_thread(pitch, row, major=major, form=form, written_class=written_class(designation))


def _wishes(given: ThreadOptions, hand: Hand, sections: tuple[str, ...], *, in_inches: bool) -> SheetWishes:
    screw = chosen_screw(given["screw"], given["marks"])
    top_screw = chosen_screw(given["top_screw"], given["top_marks"], ("--top-screw", "--top-marks"))
    usual = INCH_STEP if in_inches else MM_STEP
    cut = CuttingWishes(
        internal=given["internal"],
        nose=_nose(given),
        slide_angle=read_angle(given["slide_angle"]) if given["slide_angle"] else None,
        first_cut=optional_size(given["first_cut"], "--first-cut", read_micrometres),
        least_cut=optional_size(given["least_cut"], "--least-cut", read_micrometres),
        passes=given["passes"],
        springs=given["springs"],
        step=screw.per_mark if screw else usual,
        by_marks=screw is not None,
        slide_step=top_screw.per_mark if top_screw else usual if screw else None,
        slide_by_marks=top_screw is not None,
        stopping=optional_size(given["run_out"], "--run-out", read_micrometres),
        blank=optional_size(given["blank"], "--blank", read_micrometres),
    )
    return SheetWishes(
        cut,
        hand,
        in_inches,
        sections,
        surface=read_surface_speed(given["surface_speed"]) if given["surface_speed"] else None,
        screw=screw,
        top_screw=top_screw,
        length=optional_size(given["length"], "a length to thread"),
        reaction=read_seconds(given["reaction"]) if given["reaction"] else None,
        wire=optional_size(given["wire"], "--wire", read_micrometres),
        reading=optional_size(given["reading"], "--reading", read_micrometres),
        engagement=_percent(given["engagement"]) if given["engagement"] else None,
        basis_word=given["basis"],
    )


def _refuse_idle(sections: tuple[str, ...], given: ThreadOptions) -> None:
    """Refuse options that would do nothing, or that say the same thing twice."""
    for name, value in given.items():
        spoken_to = _SPEAKS_TO.get(name, "").split()
        if spoken_to and value is not None and sections and not set(spoken_to) & set(sections):
            raise click.UsageError(
                f"--{name.replace('_', '-')} speaks to the section {' or '.join(spoken_to)}: --show {spoken_to[0]} too."
            )
    if given["passes"] is not None and (given["first_cut"] or given["least_cut"]):
        raise click.UsageError("--passes fixes the passes; leave --first-cut and --least-cut out.")
    if given["nose_radius"] and given["nose_flat"]:
        raise click.UsageError("A nose has a radius or a flat: give --nose-radius or --nose-flat.")


def _nose(given: ThreadOptions) -> Nose | None:
    if given["nose_radius"] is not None:
        return Nose(radius=read_micrometres(given["nose_radius"]))
    return Nose(flat=read_micrometres(given["nose_flat"])) if given["nose_flat"] is not None else None


def _percent(text: str) -> Fraction:
    """Read ``75%`` or ``75 %``; a minus sign is read too, so that it can be answered for what it is.

    Examples
    --------
    >>> _percent("75 %"), _percent("-5%")
    (Fraction(3, 4), Fraction(-1, 20))
    """
    reader = FigureReader(text, "Write for example 75%.")
    sign = 1
    if reader.peek() in ("-", "\N{MINUS SIGN}"):
        sign, reader.at = -1, reader.at + 1
    figure = reader.number()
    reader.skip_spaces()
    if reader.peek() != "%":
        raise reader.refuse("a part of the thread is written in per cent")
    reader.at += 1
    reader.finish()
    return sign * figure / 100
