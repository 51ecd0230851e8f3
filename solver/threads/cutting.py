"""Everything that is set, ground and fed to cut one thread, joined from the rooms that work it out."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.quantities.shown_lengths import in_both_units
from solver.refusals import ImpossibleSettingError
from solver.threads.basic_dimensions import Diameters
from solver.threads.blanks import refuse_past_sharp_crest
from solver.threads.infeed import Infeed, infeed
from solver.threads.lead_angles import SideRelief, flank_clearance, lead_angle, side_relief
from solver.threads.passes import Cuts, Pass, choose_cuts, cumulative_depths, dial_step, equal_passes, schedule
from solver.threads.run_out import RunOut, run_out
from solver.threads.thread import Thread
from solver.threads.tool_nose import Nose, Root, largest_nose, nose_for, root_of


class CuttingWishes(NamedTuple):
    """What a person may set; ``None`` takes the usual.

    Parameters
    ----------
    internal : bool
        True for a nut.
    nose : Nose or None
        Of the tool in hand.
    slide_angle : Angle or None
        Of the top slide, from the cross slide.
    first_cut, least_cut : Length or None
        On the radius.
    passes : int or None
        Passes of equal area, in place of the two cuts.
    springs : int
        Passes without further infeed.
    step : Length
        Smallest step read on the dials.
    stopping : Length or None
        Travel allowed for stopping at a shoulder.
    blank : Length or None
        What the work is turned or bored to before the first touch.
    by_marks : bool
        The step is a mark of the person's own dial, and is kept however shallow the thread.
    slide_step : Length or None
        Step of the top slide, where it has another dial than the cross slide.
    slide_by_marks : bool
        That step is a mark of the person's own dial: the top slide reads the nearest.
    """

    internal: bool = False
    nose: Nose | None = None
    slide_angle: Angle | None = None
    first_cut: Length | None = None
    least_cut: Length | None = None
    passes: int | None = None
    springs: int = 2
    step: Length = Length(Fraction(1, 100))
    stopping: Length | None = None
    blank: Length | None = None
    by_marks: bool = False
    slide_step: Length | None = None
    slide_by_marks: bool = False


class Noses(NamedTuple):
    """Flat and radius that reach the basic root, and the largest that clear the mate."""

    flat: Length
    radius: Length | None
    largest_flat: Length
    largest_radius: Length | None


class LeadAngles(NamedTuple):
    """Lead angle at the three diameters."""

    pitch: Angle
    minor: Angle
    major: Angle


class Cutting(NamedTuple):
    """How one thread is cut.

    Parameters
    ----------
    root : Root
        Root diameter and depth with the nose that is used.
    basic_root : Root
        The same with the nose of the standard form.
    feed : Infeed
        From first touch on the blank, with the top slide set over or straight in.
    step : Length
        Step of the dials to which the passes are rounded.
    cuts : Cuts or None
        First and least cut; ``None`` where a number of passes was asked for.
    passes : tuple of Pass
        In order; the last reads the whole depth.
    noses : Noses
        What to grind.
    lead_angles : LeadAngles
        At the three basic diameters.
    relief : SideRelief
        Of the two sides of the tool.
    flank_clearance : Angle
        What the usual front clearance leaves beside the flanks, along the axis.
    groove : RunOut
        At a shoulder.
    """

    root: Root
    basic_root: Root
    feed: Infeed
    step: Length
    cuts: Cuts | None
    passes: tuple[Pass, ...]
    noses: Noses
    lead_angles: LeadAngles
    relief: SideRelief
    flank_clearance: Angle
    groove: RunOut


def cutting(thread: Thread, wishes: CuttingWishes) -> Cutting:
    """Work out how a thread is cut.

    Parameters
    ----------
    thread : Thread
        What is cut.
    wishes : CuttingWishes
        What the person sets.

    Raises
    ------
    ImpossibleSettingError
        The nose fouls the mate, the slide would cut the trailing flank, nothing of the blank is left to cut, the
        flanks would meet before they reach its surface, or the cuts make no schedule.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> found = cutting(Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5")), CuttingWishes(passes=6))
    >>> [str(each.depth.mm) for each in found.passes[:5]]
    ['37/100', '53/100', '13/20', '3/4', '21/25']
    """
    internal = wishes.internal
    basic = thread.basic().internal if internal else thread.basic().external
    basic_root = Root(basic.major if internal else basic.minor, basic.depth)
    root = root_of(thread, wishes.nose, internal=internal) if wishes.nose else basic_root
    noses = Noses(*nose_for(thread, internal=internal), *largest_nose(thread, internal=internal))
    feed = infeed(_from_touch(thread, root, wishes), thread.form, wishes.slide_angle)
    step = wishes.step if wishes.by_marks else dial_step(feed.depth, wishes.step)
    cut = Diameters(root.diameter, basic.pitch, basic.minor) if internal else basic._replace(minor=root.diameter)
    cuts, depths = _depths(thread, feed.depth, noses, wishes, step)
    angles = LeadAngles(*(lead_angle(thread.lead, each) for each in (cut.pitch, cut.minor, cut.major)))
    return Cutting(
        root,
        basic_root,
        feed,
        step,
        cuts,
        schedule(
            depths,
            feed,
            step,
            wishes.springs,
            cuts.least if cuts else None,
            wishes.slide_step,
            slide_to_nearest=wishes.slide_by_marks,
        ),
        noses,
        angles,
        side_relief(thread.lead, cut),
        flank_clearance(thread.form),
        run_out(thread, root.diameter, internal=internal, stopping=wishes.stopping),
    )


def _from_touch(thread: Thread, root: Root, wishes: CuttingWishes) -> Length:
    """Depth from first touch on the blank to the root."""
    if wishes.blank is None:
        return root.depth
    # A tapered blank has no one diameter to hold against the crest.
    if not thread.form.taper:
        refuse_past_sharp_crest(thread, wishes.blank, internal=wishes.internal)
    depth = (wishes.blank - root.diameter) * Fraction(-1 if wishes.internal else 1, 2)
    if depth.mm <= 0:
        word = "bore" if wishes.internal else "blank"
        raise ImpossibleSettingError(
            f"A {word} of {in_both_units(wishes.blank)} leaves nothing to cut: the root of the thread is at "
            f"{in_both_units(root.diameter)}.",
            help_text="Give the diameter before threading; without --blank the basic size is taken.",
        )
    return depth


def _depths(
    thread: Thread, depth: Length, noses: Noses, wishes: CuttingWishes, step: Length
) -> tuple[Cuts | None, tuple[Length, ...]]:
    """First and least cut, and the unrounded depths after each pass."""
    flat, slope = _tool(thread, noses, wishes), thread.form.tangent
    if wishes.passes is not None:
        return None, equal_passes(depth, wishes.passes, flat=flat, slope=slope)
    cuts = choose_cuts(depth, step, first=wishes.first_cut, least=wishes.least_cut, flat=flat, slope=slope)
    return cuts, cumulative_depths(depth, cuts.first, cuts.least, flat=flat, slope=slope)


def _tool(thread: Thread, noses: Noses, wishes: CuttingWishes) -> Length:
    """Flat at the end of the tool for the chip area; a round nose and the round-rooted forms count as sharp."""
    if wishes.nose is not None and wishes.nose.flat is not None:
        return wishes.nose.flat
    is_round = thread.form.round_root or (wishes.nose is not None and wishes.nose.radius is not None)
    return Length(Fraction(0)) if is_round else noses.flat
