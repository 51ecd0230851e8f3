"""The terminal screen of ``thread``: the thread, its dimensions, and how it is cut."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from cli.thread_sheet import ThreadSheet
from cli.views.cautions import thread_cautions
from cli.views.screen import console, facts_table, print_list, print_rows
from cli.views.shop_figures import lead_text
from cli.views.taper_rows import taper_rows
from cli.views.thread_checks_screen import print_hole, print_measuring, print_speed
from cli.views.thread_dials import DIALS_TITLE, TOO_COARSE, coarse_dial, dial_rows, dial_table, dials_notes
from cli.views.thread_figures import Say, bounds_text, columns, degrees_text, dial_column, saying, step_text
from cli.views.thread_to_class import for_class_rows, limits_of_cut, to_class_table, to_class_title
from cli.views.told_figures import roughly, roughly_adding_up
from cli.views.tool_travel_text import way_text
from gearsets.special_sizes import OUTSIDE, outside_remark
from gearsets.thread_tables import SERIES_TITLES
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.quantities.shown_lengths import Rounding, in_both_units
from solver.threads.blanks import is_outside_class
from solver.threads.cutting import Cutting
from solver.threads.limits import Limits
from solver.threads.tapers import has_nut_figures
from solver.threads.thread import USUAL_CORE, coarsest_words
from solver.trains.hand import Hand

if TYPE_CHECKING:
    from rich.console import Console

ROUNDED = (
    "Each figure is rounded once, to 0.001 mm and 0.0001 in, so that a sum may end one off; --json gives exact "
    "figures, or 12 decimals."
)
#: A nose nearer than this to the largest could be told larger than it: a whole unit of the last figure in inches.
NEAR_THE_LARGEST = Length.of_inches("0.0001")


def show_thread(sheet: ThreadSheet) -> None:
    """Print the answer of ``thread``."""
    out = console()
    say = saying(in_inches=sheet.wishes.in_inches)
    out.print(facts_table(thread_rows(sheet)))
    if "dimensions" in sheet.wishes.sections:
        _print_dimensions(out, sheet)
    if sheet.cutting is not None:
        out.print()
        out.print("CUTTING", style="bold")
        out.print(facts_table(cutting_rows(sheet, sheet.cutting, say)))
        _print_passes(out, sheet, sheet.cutting)
    print_speed(out, sheet, say)
    print_measuring(out, sheet, say)
    print_hole(out, sheet, say)
    if sheet.cutting is not None:
        print_list(out, "Early check, before metal is cut", early_check(sheet, say))
    print_list(out, "Cautions", cautions_for(sheet))


def cautions_for(sheet: ThreadSheet) -> tuple[str, ...]:
    """List the cautions of the sections that were asked for."""
    is_cut = sheet.cutting is not None or sheet.speed is not None
    is_measured = sheet.measuring is not None
    if not (is_cut or is_measured):
        return ()
    reversing = sheet.speed is not None and sheet.speed.shoulder is not None
    return thread_cautions(
        internal=sheet.wishes.cut.internal,
        cut=is_cut,
        measured=is_measured,
        from_groove=is_cut and sheet.wishes.hand is Hand.LEFT,
        reversing=reversing,
        by_marks=sheet.cutting is not None and (sheet.wishes.screw or sheet.wishes.top_screw) is not None,
    )


def thread_rows(sheet: ThreadSheet) -> list[tuple[str, str]]:
    """Echo the thread, in both systems of units."""
    say = saying(in_inches=sheet.wishes.in_inches)
    thread = sheet.drawn.thread
    facts = [("Thread", _named(sheet))]
    if remark := outside_remark(sheet.drawn.row):
        facts.append(("", remark))
    facts.append(("Form", f"{thread.form.title} ({thread.form.standard})"))
    facts.append(("Pitch", lead_text(thread.pitch)))
    if thread.starts > 1:
        facts.append(("Lead", f"{lead_text(thread.lead)}: {thread.starts} starts; the depth goes by the pitch"))
    if thread.form.taper:
        facts += taper_rows(sheet, say)
    if thread.has_thin_core:
        facts.append(("Core", thin_core_text(sheet, say)))
    facts.append(("To cut", f"the {'nut' if sheet.wishes.cut.internal else 'screw'}, {sheet.wishes.hand.value}-hand"))
    if beside := sheet.drawn.class_beside(internal=sheet.wishes.cut.internal):
        facts.append(("", beside))
    return facts


def thin_core_text(sheet: ThreadSheet, say: Say) -> str:
    """Warn of a core of less than half the diameter."""
    thread = sheet.drawn.thread
    usual = coarsest_words(thread, USUAL_CORE)
    part = trimmed_decimal_text(thread.core / thread.major * 100, 0)
    coarsest = f" Up to a pitch of {usual} half is left." if usual else ""
    left = f"{say(thread.core)}, {part} % of the diameter"
    return f"THIN: {left}; no thread of a standard series leaves so little.{coarsest}"


def _named(sheet: ThreadSheet) -> str:
    row = sheet.drawn.row
    if row is None:
        return sheet.drawn.name
    from_memory = "; its figures are from memory" if row.status == "memory" else ""
    series = "" if row.status == OUTSIDE else f", {SERIES_TITLES[row.series]}"
    return f"{row.designation}{series}{from_memory}"


#: Said where no limits are worked out.
NO_LIMITS = "Limits of a class are not worked out here for this thread; take them from its standard."
#: Rows of the tables of dimensions and limits.
DIAMETERS = ("major dia", "pitch dia", "minor dia")
#: Columns of the table of limits.
LIMIT_HEADS = (
    ("", "left"), ("Least, mm", "right"), ("Most, mm", "right"), ("Least, in", "right"), ("Most, in", "right"),
)  # fmt: skip


def _print_dimensions(out: Console, sheet: ThreadSheet) -> None:
    basic = sheet.drawn.thread.basic()
    out.print()
    out.print("DIMENSIONS, basic", style="bold")
    print_rows(out, *dimension_table(sheet))
    out.print(f"Rule: {basic.rule}.")
    for limits in (sheet.screw_limits, sheet.nut_limits):
        if limits is not None:
            out.print()
            out.print(f"LIMITS of {limits_title(limits)}", style="bold")
            print_rows(out, LIMIT_HEADS, limit_cells(limits))
            out.print(limits_rule(limits))
    if sheet.screw_limits is None and sheet.nut_limits is None:
        out.print(NO_LIMITS)
    out.print(ROUNDED)


def dimension_table(sheet: ThreadSheet) -> tuple[list[tuple[str, str]], list[list[str]]]:
    """List the basic diameters and depths of the screw and, where they say anything of it, of the nut."""
    basic = sheet.drawn.thread.basic()
    # Figures of the screw's small end say nothing of the nut, unless the way to its mouth is known.
    has_nut = has_nut_figures(sheet.drawn.thread)
    of_nut = ["Nut, mm", "Nut, in"]
    if sheet.drawn.thread.form.is_told_at_small_end:
        of_nut = ["Nut mouth, mm", "Nut mouth, in"]
    heads = ["Screw, mm", "Screw, in", *(of_nut if has_nut else [])]
    named = zip(DIAMETERS, basic.external, basic.internal, strict=True)
    rows = [*named, ("depth on radius", basic.external.depth, basic.internal.depth)]
    cells = [[name, *columns(screw), *(columns(nut) if has_nut else ())] for name, screw, nut in rows]
    return [("", "left"), *((head, "right") for head in heads)], cells


def limits_title(limits: Limits) -> str:
    """Name the class, and what is said of its figures."""
    notes = f" ({'; '.join(limits.notes)})" if limits.notes else ""
    return f"class {limits.of_class.value}, {'nut' if limits.is_internal else 'screw'}{notes}"


def limits_rule(limits: Limits) -> str:
    """Say which unit is the standard's, and how the other was made of it."""
    standard, other = ("mm", "inch") if limits.of_class.is_metric else ("inch", "mm")
    return f"The standard gives the {standard} limits; those in {other} are converted, and rounded to within them."


def limit_cells(limits: Limits) -> list[list[str]]:
    """List the least and the most of each diameter: as the standard prints them, and within that in the other unit."""
    rows = []
    for name, band in zip(DIAMETERS, (limits.major, limits.pitch, limits.minor), strict=True):
        least, most = _cells(band.least, Rounding.UP), _cells(band.most, Rounding.DOWN)
        rows.append([name, *(cell for pair in zip(least, most, strict=True) for cell in pair)])
    return rows


def _cells(end: Length | None, inward: Rounding) -> tuple[str, str]:
    return ("-", "-") if end is None else columns(end, inward)


def cutting_rows(sheet: ThreadSheet, cut: Cutting, say: Say) -> list[tuple[str, str]]:
    """List what is set and ground: blank, depth, top slide, nose, relief, run-out."""
    feed, groove, angles = cut.feed, cut.groove, cut.lead_angles
    in_inches = sheet.wishes.in_inches
    finely = saying(in_inches=in_inches, finer=dial_column(cut.step, in_inches=in_inches).finer)
    facts = _blank(sheet, say)
    root = "major diameter" if sheet.wishes.cut.internal else "root"
    facts.append(("Depth", f"{finely(feed.depth)} on the radius, to a {root} of {say(cut.root.diameter)}"))
    facts += for_class_rows(sheet, cut)
    if cut.root != cut.basic_root:
        facts.append(("Your nose", _nose_change(cut, say)))
    if feed.slide_angle.turns:
        shown, from_axis = degrees_text(feed.slide_angle), degrees_text(feed.from_axis)
        facts += [
            ("Top slide", f"{shown} from the cross slide ({from_axis} on one graduated from the lathe axis)"),
            ("", f"its travel {finely(feed.slide_travel)}, which carries the tool {say(feed.shift)} along"),
            ("", f"leaves {say(feed.flank_left)} on the trailing flank for a last straight-in pass"),
        ]
    facts += dial_rows(sheet, cut)
    facts += _nose(cut, in_inches=in_inches)
    pitch, minor, major = (degrees_text(each) for each in angles)
    facts.append(("Lead angle", f"{pitch} at the pitch diameter, {minor} at the minor, {major} at the major"))
    facts.append(("Side relief", _relief(sheet, cut)))
    if sheet.drawn.thread.form.has_angle:
        beside = degrees_text(cut.flank_clearance, 1)
        facts.append(
            ("Front", f"10° of clearance at the front alone leaves {beside} beside the flanks, along the axis")
        )
    facts += [
        ("Tool goes", way_text(sheet.wishes.hand, internal=sheet.wishes.cut.internal)),
        *_run_out_rows(sheet, cut),
        (
            "Free end" if sheet.wishes.hand is Hand.LEFT else "Start",
            f"chamfer of 45° to the root, {roughly(groove.chamfer, inches_first=in_inches)} long",
        ),
    ]
    return facts


def _blank(sheet: ThreadSheet, say: Say) -> list[tuple[str, str]]:
    """Say what the work is before the first touch, and what the class allows of it."""
    wishes, basic, limits = sheet.wishes.cut, sheet.drawn.thread.basic(), limits_of_cut(sheet)
    name, size = ("Bore", basic.internal.minor) if wishes.internal else ("Blank", basic.external.major)
    facts = [(name, f"{say(wishes.blank or size)}; depths are told from first touch on it")]
    if limits is not None:
        band = limits.minor if wishes.internal else limits.major
        if band.least is not None and band.most is not None:
            allowed = bounds_text(band.least, band.most, in_inches=sheet.wishes.in_inches)
            facts.append(("", f"class {limits.of_class.value} allows {allowed}"))
            if wishes.blank and is_outside_class(wishes.blank, limits, internal=wishes.internal):
                facts.append(("", f"OUTSIDE CLASS {limits.of_class.value}: {_outside_text(wishes.blank, band.least)}"))
    return facts


def _outside_text(given: Length, least: Length) -> str:
    return "what you gave is below the least" if given < least else "what you gave is above the most"


def _run_out_rows(sheet: ThreadSheet, cut: Cutting) -> list[tuple[str, str]]:
    """Tell the groove to the figures that a rule of practice holds."""
    groove, in_inches = cut.groove, sheet.wishes.in_inches
    tool, stopping, width = roughly_adding_up(groove.tool_width, groove.stopping, inches_first=in_inches)
    past = roughly(Length(abs((groove.diameter - cut.root.diameter).mm) / 2), inches_first=in_inches)
    if sheet.wishes.hand is Hand.LEFT:
        return [
            ("Groove", f"to begin in, about {width} wide, and {past} deeper than the root (practice)"),
            ("", f"{tool} for the tool and {stopping} to stop in on the way back: no full thread there"),
        ]
    return [
        ("Run-out", f"at a shoulder a groove about {width} wide, and {past} deeper than the root (practice)"),
        ("", f"{tool} for the tool and {stopping} to stop in: no full thread there"),
    ]


def _nose_change(cut: Cutting, say: Say) -> str:
    change = (cut.root.depth - cut.basic_root.depth).mm
    word = "deeper" if change > 0 else "shallower"
    return f"cuts {say(Length(abs(change)))} {word} than the standard form, for the same pitch diameter"


def _nose(cut: Cutting, *, in_inches: bool) -> list[tuple[str, str]]:
    noses = cut.noses
    flat = nose_text(noses.flat, noses.largest_flat, in_inches=in_inches)
    largest = in_both_units(noses.largest_flat, Rounding.DOWN, inches_first=in_inches)
    if noses.radius is None or noses.largest_radius is None:
        return [("Tool nose", f"flat {flat} for the standard root, at most {largest}")]
    radius = nose_text(noses.radius, noses.largest_radius, in_inches=in_inches)
    roundest = in_both_units(noses.largest_radius, Rounding.DOWN, inches_first=in_inches)
    return [
        ("Tool nose", f"flat {flat}, or radius {radius}"),
        ("", f"at most flat {largest} or radius {roundest}, to clear the mate"),
    ]


def nose_text(nose: Length, largest: Length, *, in_inches: bool) -> str:
    """Write a nose, rounded down where it is the largest, so that a nose of the figure that is told does go."""
    is_largest = nose + NEAR_THE_LARGEST > largest
    return in_both_units(nose, Rounding.DOWN if is_largest else Rounding.NEAREST, inches_first=in_inches)


def _relief(sheet: ThreadSheet, cut: Cutting) -> str:
    leading, trailing = ("left", "right") if sheet.wishes.hand is Hand.RIGHT else ("right", "left")
    words = f"leading ({leading}) {degrees_text(cut.relief.leading, 1)}, trailing ({trailing}) "
    if cut.relief.trailing.turns <= 0:
        return f"{words}none needed: the lead alone leaves it 3° clear"
    return f"{words}{degrees_text(cut.relief.trailing, 1)}, for 3° clear of each flank"


def passes_title(sheet: ThreadSheet) -> str:
    """Name the table of passes with the unit it is read in."""
    return f"{'inch' if sheet.wishes.in_inches else 'mm'} readings from first touch"


def _print_passes(out: Console, sheet: ThreadSheet, cut: Cutting) -> None:
    out.print()
    out.print(f"PASSES, {passes_title(sheet)}", style="bold")
    heads, rows = pass_table(sheet, cut)
    print_rows(out, [*heads, ("Done", "left")], ([*row, "[ ]"] for row in rows))
    out.print(passes_rule(sheet, cut))
    if warning := coarse_dial(sheet, cut):
        out.print(f"{TOO_COARSE}. {warning}")
    heads, rows = dial_table(sheet, cut)
    if rows:
        out.print()
        out.print(DIALS_TITLE, style="bold")
        print_rows(out, heads, rows)
        for note in dials_notes(sheet, cut):
            out.print(note)
    heads, rows = to_class_table(sheet, cut)
    if rows:
        out.print()
        out.print(to_class_title(sheet), style="bold")
        print_rows(out, [*heads, ("Measured", "left")], ([*row, "________"] for row in rows))


def pass_table(sheet: ThreadSheet, cut: Cutting) -> tuple[list[tuple[str, str]], list[list[str]]]:
    """List the passes: heads, and the readings of each from first touch."""
    dial = dial_column(cut.step, in_inches=sheet.wishes.in_inches)
    with_slide = cut.feed.slide_angle.turns != 0
    slides = ["Cross slide, radius", "Cross slide, diameter", *(["Or top slide"] if with_slide else [])]
    rows = []
    before = Fraction(0)
    for each in cut.passes:
        reads = dial.shown(each.depth)
        # What is printed adds up: twice the reading, and the reading less the one above it.
        cells = [reads, reads * 2, *([dial.shown(each.slide_travel)] if with_slide else [])]
        adds = "spring" if each.is_spring else dial.text(reads - before)
        rows.append([str(each.number), *map(dial.text, cells), adds])
        before = reads
    adds = "Adds, radius (cross slide)" if with_slide and sheet.wishes.top_screw else "Adds, radius"
    return [(head, "right") for head in ("Pass", *slides, adds)], rows


def passes_rule(sheet: ThreadSheet, cut: Cutting) -> str:
    """Say how the passes were shared out, with the least cut and what it rests on."""
    in_inches = sheet.wishes.in_inches
    step = step_text(cut.step, in_inches=in_inches)
    beside = "; those of the top slide the nearest mark of its dial" if sheet.wishes.top_screw else ""
    ends = f"Readings are whole steps of {step}{beside}; the last is the whole depth, wherever it stands between marks."
    if cut.cuts is None:
        cuts = sum(not each.is_spring for each in cut.passes)
        left_out = (sheet.wishes.cut.passes or cuts) - cuts
        short = f"; {left_out} of them are less than a step and left out" if left_out else ""
        return f"Equal chip area in the number of passes asked for{short}. {ends}"
    say = saying(in_inches=in_inches, finer=dial_column(cut.step, in_inches=in_inches).finer)
    return (
        f"Least cut {say(cut.cuts.least)} on the radius ({cut.cuts.basis.value}): equal chip area while it leaves more "
        f"than that, then even passes; only spring passes take less. {ends}"
    )


def early_check(sheet: ThreadSheet, say: Say) -> list[str]:
    """Say what to see on the first passes."""
    ten = say(sheet.drawn.thread.lead * 10)
    return [
        f"After a scratch pass ten grooves, each of the same start, take {ten}.  Measured: ________  Date: ________",
        "Touch off on the finished blank and set both dials to zero; the depths count from there.",
    ]
