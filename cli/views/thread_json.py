"""The answer of ``thread`` as JSON: exact figures as fractions, others as decimals, each marked."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from cli.thread_sheet import HoleSection, SheetWishes, SpeedSection, ThreadSheet
from cli.views.answer_json import as_text, tool_way
from cli.views.thread_dials import coarse_dial, dials_json, marks_within_class, on_dial_json
from cli.views.thread_to_class import deeper_for_class, limits_of_cut, slide_share
from gearsets.special_sizes import outside_remark
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.quantities.powers import is_exact_figure
from solver.quantities.shown_lengths import Rounding, shown_decimal
from solver.threads.basic_dimensions import Diameters
from solver.threads.blanks import is_hole_outside_class, is_outside_class
from solver.threads.cutting import Cutting
from solver.threads.limits import Band, Limits
from solver.threads.measuring import Measuring
from solver.threads.reading_verdict import Fit, Verdict
from solver.threads.tapers import has_nut_figures, taper_of
from solver.threads.thread import Thread
from solver.threads.to_shoulder import ToShoulder

#: Decimals of a figure that is not exact; it is carried further than that. [decimal places]
PLACES = 12


def figure(value: Fraction, rounding: Rounding = Rounding.NEAREST) -> str:
    """Write an exact figure as a fraction, one that went through a root, a sine or pi as a decimal.

    Examples
    --------
    >>> figure(Fraction(127, 64)), figure(Fraction(10**40 // 3, 10**40))
    ('127/64', '0.333333333333')
    """
    return f"{value}" if is_exact_figure(value) else shown_decimal(value, PLACES, rounding)


def length(value: Length | None, rounding: Rounding = Rounding.NEAREST) -> dict[str, Any] | None:
    """Describe a length in both units; a bound is rounded to its own side.

    Examples
    --------
    >>> length(Length.of_mm(10))
    {'mm': '10', 'in': '50/127', 'exact': True}
    """
    if value is None:
        return None
    mm, inches = figure(value.mm, rounding), figure(value.inches, rounding)
    return {"mm": mm, "in": inches, "exact": is_exact_figure(value.mm)}


def thread_json(sheet: ThreadSheet) -> str:
    """Write the answer of ``thread`` as JSON."""
    drawn, wishes = sheet.drawn, sheet.wishes
    thread = drawn.thread
    answer: dict[str, Any] = {
        "asked": {
            "thread": drawn.name,
            "series": drawn.row.series if drawn.row else None,
            "status": drawn.row.status if drawn.row else None,
            "remark": outside_remark(drawn.row) or None,
            "internal": wishes.cut.internal,
            "class_remark": drawn.class_beside(internal=wishes.cut.internal) or None,
            "hand": wishes.hand.value,
            "unit": "inch" if wishes.in_inches else "mm",
        },
        "form": {
            "name": thread.form.key,
            "standard": thread.form.standard,
            "included_angle_deg": figure(thread.form.half_angle.degrees * 2),
            "taper_on_diameter": f"{thread.form.taper}",
            "taper_to_axis_deg": figure(thread.form.taper_to_axis.degrees),
        },
        "pitch": length(thread.pitch),
        "starts": thread.starts,
        "lead": length(thread.lead),
    }
    if "dimensions" in wishes.sections:
        basic = thread.basic()
        answer["basic"] = {
            "screw": _diameters(basic.external),
            "nut": _diameters(basic.internal) if has_nut_figures(thread) else None,
            "rule": basic.rule,
        }
        answer["taper"] = _taper(thread)
        answer["core"] = {
            "diameter": length(thread.core),
            "part_of_major": figure(thread.core / thread.major),
            "thin": thread.has_thin_core,
        }
        answer["limits"] = [_limits(each) for each in (sheet.screw_limits, sheet.nut_limits) if each is not None]
    if sheet.cutting is not None:
        limits = limits_of_cut(sheet)
        outside = wishes.cut.blank and is_outside_class(wishes.cut.blank, limits, internal=wishes.cut.internal)
        answer["cutting"] = {
            **_cutting(sheet.cutting, wishes),
            "blank_outside_class": outside,
            "coarse_dial": coarse_dial(sheet, sheet.cutting) or None,
            "to_class": _to_class(sheet, sheet.cutting),
        }
    if sheet.speed is not None:
        answer["speed"] = _speed(sheet.speed)
    if "measuring" in wishes.sections:
        answer["measuring"] = _measuring(sheet.measuring) if sheet.measuring else {"not_measured": sheet.no_wires}
    if "hole" in wishes.sections:
        answer["hole"] = _hole(sheet.hole, sheet.nut_limits) if sheet.hole else {"no_hole": sheet.no_hole}
    return as_text(answer)


def _taper(thread: Thread) -> dict[str, Any] | None:
    """Describe where a tapered thread has which diameters; nothing where that is not known."""
    found = taper_of(thread)
    return found and {
        "gauge_length": length(found.gauge_length),
        "gauge_length_status": "memory",
        "at_small_end": _diameters(found.small_end),
        "at_gauge_plane": _diameters(found.gauge_plane),
        "effective_length": length(found.effective),
    }


def _diameters(found: Diameters) -> dict[str, Any]:
    return {
        "major": length(found.major),
        "pitch": length(found.pitch),
        "minor": length(found.minor),
        "depth": length(found.depth),
    }


def _band(band: Band) -> dict[str, Any]:
    return {"least": length(band.least), "most": length(band.most)}


def _limits(limits: Limits) -> dict[str, Any]:
    return {
        "class": limits.of_class.value,
        "of": "nut" if limits.is_internal else "screw",
        "major": _band(limits.major),
        "pitch": _band(limits.pitch),
        "minor": _band(limits.minor),
        "notes": list(limits.notes),
    }


def _degrees(angle: Angle) -> str:
    return figure(angle.degrees)


def _cutting(cut: Cutting, wishes: SheetWishes) -> dict[str, Any]:
    noses, groove = cut.noses, cut.groove
    return {
        "depth": length(cut.root.depth),
        "depth_from_touch": length(cut.feed.depth),
        "root_diameter": length(cut.root.diameter),
        "basic_depth": length(cut.basic_root.depth),
        "top_slide": {
            "angle_from_cross_slide_deg": _degrees(cut.feed.slide_angle),
            "angle_from_lathe_axis_deg": _degrees(cut.feed.from_axis),
            "travel": length(cut.feed.slide_travel),
            "shift_along": length(cut.feed.shift),
            "flank_left": length(cut.feed.flank_left),
        },
        "dial_step": length(cut.step),
        "cross_screw": dials_json(wishes.screw),
        "top_screw": dials_json(wishes.top_screw),
        "first_cut": length(cut.cuts.first) if cut.cuts else None,
        "least_cut": length(cut.cuts.least) if cut.cuts else None,
        "least_cut_basis": cut.cuts.basis.value if cut.cuts else None,
        "passes": [
            {
                "pass": each.number,
                "cross_slide": length(each.depth),
                "top_slide": length(each.slide_travel),
                "adds": length(each.adds),
                "cross_slide_on_dial": on_dial_json(wishes.screw, each.depth),
                "top_slide_on_dial": on_dial_json(wishes.top_screw, each.depth * slide_share(cut)),
                "spring": each.is_spring,
            }
            for each in cut.passes
        ],
        "tool_nose": {
            "flat": length(noses.flat),
            "radius": length(noses.radius),
            "largest_flat": length(noses.largest_flat, Rounding.DOWN),
            "largest_radius": length(noses.largest_radius, Rounding.DOWN),
        },
        "lead_angle_deg": {
            "pitch": _degrees(cut.lead_angles.pitch),
            "minor": _degrees(cut.lead_angles.minor),
            "major": _degrees(cut.lead_angles.major),
        },
        "side_relief_deg": {"leading": _degrees(cut.relief.leading), "trailing": _degrees(cut.relief.trailing)},
        "flank_clearance_deg": _degrees(cut.flank_clearance),
        "tool_travel": tool_way(wishes.hand),
        "run_out": {
            "groove_width": length(groove.width),
            "groove_diameter": length(groove.diameter),
            "tool_width": length(groove.tool_width),
            "stopping": length(groove.stopping),
            "chamfer": length(groove.chamfer),
        },
    }


def _to_class(sheet: ThreadSheet, cut: Cutting) -> list[dict[str, Any]]:
    found = [(each, cut.feed.depth + each.past) for each in deeper_for_class(sheet)]
    # A dial without a mark in the class has nothing to set for it.
    cross, top = marks_within_class(sheet, cut).values()
    screw = None if cross is False else sheet.wishes.screw
    top_screw = None if top is False else sheet.wishes.top_screw
    return [
        {
            "what": each.what,
            "past": length(each.past, each.rounding),
            "cross_slide": length(depth, each.rounding),
            "top_slide": length(depth * slide_share(cut), each.rounding),
            "cross_slide_mark_within": cross,
            "top_slide_mark_within": top,
            "cross_slide_on_dial": on_dial_json(screw, depth, each.rounding),
            "top_slide_on_dial": on_dial_json(top_screw, depth * slide_share(cut), each.rounding),
        }
        for each, depth in found
    ]


def _speed(section: SpeedSection) -> dict[str, Any]:
    speed = section.speed
    return {
        "turning_rpm": figure(speed.turning),
        "threading_rpm": figure(speed.threading),
        "approach_rpm": figure(speed.approach),
        "take_rpm": int(speed.slower),
        "set_by": speed.set_by,
        "surface_per_minute": length(section.surface),
        "surface_assumed": section.surface_assumed,
        "reaction_s": f"{section.reaction}",
        "reaction_assumed": section.reaction_assumed,
        "stopping": length(section.stopping),
        "to_shoulder": _to_shoulder(section.shoulder) if section.shoulder else None,
    }


def _to_shoulder(found: ToShoulder) -> dict[str, Any]:
    return {
        "length": length(found.length),
        "turns": figure(found.turns),
        "full_thread": length(found.full_thread),
        "at_rpm": _or_none(found.speed),
        "by_hand": found.speed is None,
        "carriage_per_minute": length(found.travel_per_minute),
        "seconds": _or_none(found.seconds),
        "passes": found.passes,
        "springs": found.springs,
        "starts": found.starts,
        "cutting_seconds": _or_none(found.cutting_seconds),
        "seconds_with_return_in_reverse": _or_none(found.whole_seconds),
    }


def _or_none(value: Fraction | None) -> str | None:
    return None if value is None else figure(value)


def _measuring(found: Measuring) -> dict[str, Any]:
    wires, basic, read = found.wires, found.basic, found.reading
    return {
        "wires": {
            "smallest": length(wires.smallest, Rounding.UP),
            "best": length(wires.best),
            "best_without_lead": length(wires.best_without_lead),
            "largest": length(wires.largest, Rounding.DOWN),
        },
        "over": {
            "wire": length(basic.wire),
            "pitch_diameter": length(basic.pitch_diameter),
            "touches_at": length(basic.touches_at),
            "exact_seat": length(basic.exact),
            "without_lead_angle": length(basic.simple),
            "with_lead_angle": length(basic.with_lead),
        },
        "class_limits": {
            "least": length(found.least, Rounding.UP),
            "most": length(found.most, Rounding.DOWN),
        },
        "reading": read
        and {
            "over": length(read.over),
            "pitch_diameter": length(read.pitch_diameter),
            "without_lead_angle": length(read.simple),
            "with_lead_angle": length(read.with_lead),
            **_verdict(found.verdict),
        },
    }


def _verdict(verdict: Verdict | None) -> dict[str, Any]:
    if verdict is None:
        return {}
    cut = verdict.to_cut
    return {
        "verdict": verdict.fit.value,
        "within_class": {Fit.WITHIN: True, Fit.TOO_LARGE: False, Fit.TOO_SMALL: False}.get(verdict.fit),
        "off_by": length(verdict.off_by),
        "still_to_cut": {"least": length(cut[0]), "most": length(cut[1])} if cut else None,
    }


def _hole(hole: HoleSection, nut: Limits | None) -> dict[str, Any]:
    return {
        "basis": hole.basis.key,
        "engagement": figure(hole.engagement),
        "hole": length(hole.hole),
        "class": nut.of_class.value if nut else None,
        "class_allows": _band(nut.minor) if nut else None,
        "outside_class": is_hole_outside_class(hole.hole, nut),
        "other_bases": {basis.key: figure(part) for basis, part in hole.on_other_bases},
        "drills": [
            {
                "name": drill.name,
                "diameter": length(drill.diameter),
                "engagement": figure(part),
                "outside_class": is_hole_outside_class(drill.diameter, nut),
            }
            for drill, part in hole.drills
        ],
        "die_blank": length(hole.blank),
        "die_blank_by_class": hole.blank_by_class,
    }
