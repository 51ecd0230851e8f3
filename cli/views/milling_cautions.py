"""Cautions of gashing, hobbing and helical milling: only those that belong to the job."""

from __future__ import annotations

from cli.views.cautions import DEFER

#: Guarding the eyes belongs to every job that throws brass.
CHIPS = "Brass chips fly as needles: goggles, no air jet; a brush, not fingers."
#: The worm has no second chance: it is cut last, from the solid, to fit.
WORM_CUTTING = "One chance on the real blank: cut a rehearsal worm first, and try it in the wheel."


def gashing_cautions(*, by_dial: bool = False) -> tuple[str, ...]:
    """List the cautions of gashing on a head, or on a table that goes ``by_dial``.

    Examples
    --------
    >>> gashing_cautions(by_dial=True)[0]
    'Gash with the cutter stopped while the handle is turned; lock the table to cut, unlock it to move.'
    """
    turned, held = ("handle", "lock the table") if by_dial else ("crank", "clamp the spindle")
    return (
        f"Gash with the cutter stopped while the {turned} is turned; {held} to cut, un{held.split()[0]} it to move.",
        "Count the gashes, and see the last meet the first by touch, before any goes to depth.",
    )


def hobbing_cautions(tool: str) -> tuple[str, ...]:
    """List the cautions of a blank that a tap or hob turns by itself; ``tool`` is which of the two."""
    return (
        f"A {tool} that turns the blank does not promise a tooth count: stop at the first touch and count the marks.",
        f"Lowest speed; hands away from the turning {tool}. The blank can stall and snatch: never help it by hand.",
        CHIPS,
    )


def helix_cautions(*, is_short: bool) -> tuple[str, ...]:
    """List the cautions of helical milling."""
    lines = [
        "Isolate the mill before hands go near the wheels; refit the guard before power.",
        "Plate stop pin out, spindle and table locks off, or the train strains; move the whole travel by hand first.",
        "See that nothing fouls at both ends of the swing, cutter and guard included.",
        "The train is in use: differential indexing cannot be had at the same time.",
        "Drop the table before the return, or backlash drags the cutter through the groove.",
    ]
    if is_short:
        lines.append("Worm out of mesh: nothing but the wheels holds the work; turn the table screw by hand.")
    lines.append(f"Scribe one line with a sharp point first: measure its lead and see its hand. {DEFER}")
    return tuple(lines)
