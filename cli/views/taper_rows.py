"""A tapered thread on the screen: its taper, where its gauge stands, and what its diameters are there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from solver.quantities.angles import sexagesimal_text
from solver.threads.tapers import taper_of

if TYPE_CHECKING:
    from cli.thread_sheet import ThreadSheet
    from cli.views.thread_figures import Say
    from solver.threads.tapers import Taper


def taper_rows(sheet: ThreadSheet, say: Say) -> list[tuple[str, str]]:
    """List the taper, and the places along it that are known."""
    thread = sheet.drawn.thread
    form, found = thread.form, taper_of(thread)
    to_axis = sexagesimal_text(form.taper_to_axis)
    place = "gauge plane"
    if form.is_told_at_small_end:
        place = "small end of the screw" if found is None else "small end of the screw and at the mouth of the nut"
    facts = [("Taper", f"1 in {1 / form.taper} on the diameter, {to_axis} to the axis; figures at the {place}")]
    if found is not None:
        return facts + _places(found, say, told_at_small_end=form.is_told_at_small_end)
    if form.is_told_at_small_end:
        facts.append(("", "the nut, and where the gauge stands, are known of the sizes of the standard alone"))
    return facts


def _places(found: Taper, say: Say, *, told_at_small_end: bool) -> list[tuple[str, str]]:
    at = f"{say(found.gauge_length)} from the small end (length from memory)"
    if not told_at_small_end:
        small = found.small_end
        return [
            ("Gauge plane", at),
            ("", f"at the small end major dia {say(small.major)}, pitch dia {say(small.pitch)}"),
        ]
    rows = [
        ("Gauge plane", f"L1, hand tight: {at}; there the mouth of the nut comes to"),
        ("", f"pitch diameter there E1 = {say(found.gauge_plane.pitch)}"),
    ]
    if found.effective is not None:
        rows.append(("Effective", f"L2 = (0.80 D + 6.8) p = {say(found.effective)} of full thread from the small end"))
    return rows
