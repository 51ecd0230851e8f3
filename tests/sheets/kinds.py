"""Every kind of sheet: the words that make it, and on how many pages it is to come out at most, of A4 and of Letter."""

from __future__ import annotations

from typing import NamedTuple


class Kind(NamedTuple):
    """A command that makes a sheet, and the pages stated for it."""

    words: tuple[str, ...]
    pages: tuple[int, int]


KINDS = {
    "train": Kind(("train", "1.25mm", "--lathe", "inch-8-banjo"), (2, 2)),
    "train in a box": Kind(("train", "M6", "--lathe", "inch-12-box"), (2, 2)),
    "feed": Kind(("feed", "--lathe", "inch-8-banjo", "--mounted", "20-100"), (2, 2)),
    "train of starts": Kind(("train", "2mm 3 starts", "--hand", "left"), (3, 3)),
    "thread": Kind(("thread", "M10"), (4, 4)),
    "thread to a shoulder": Kind(
        (
            "thread",
            "Acme 1/2-10",
            "--hand",
            "left",
            "--length",
            "30 mm",
            "--screw",
            "2mm",
            "--marks",
            "100",
            "--top-screw",
            "10tpi",
            "--top-marks",
            "100",
        ),
        (5, 5),
    ),
    "tapered thread": Kind(("thread", "1/2 NPT", "--length", "15 mm"), (4, 4)),
    "divide": Kind(("divide", "28"), (2, 2)),
    "divide by wheels": Kind(("divide", "127"), (5, 5)),
    "divide nearest": Kind(("divide", "127", "--method", "nearest"), (4, 4)),
    "divide on two circles": Kind(("divide", "69", "--method", "compound"), (3, 3)),
    "long round": Kind(("divide", "180"), (5, 5)),
    "divide by a dial": Kind(("divide", "72", "--with", "dial", "--head", "table-90-dial"), (3, 3)),
    "divide at angles": Kind(("divide", "--angle", "30 deg", "--angle", "58.5 deg", "--angle", "119.1 deg"), (2, 2)),
    "divide at angles by a dial": Kind(
        ("divide", "--angle", "30 deg", "--angle", "23.44 deg", "--head", "table-90-dial"), (2, 2)
    ),
    "one angle by a dial": Kind(("divide", "--angle", "23.44 deg", "--head", "table-90-dial"), (2, 2)),
    "flats by a dial": Kind(("shape", "7", "--from", "20 mm", "--head", "table-90-dial"), (2, 2)),
    "dial by a dial": Kind(
        ("dial", "--screw", "8 tpi", "--marks", "125", "--vernier", "10", "--head", "table-90-dial"), (7, 7)
    ),
    "divide by both cranks": Kind(("divide", "127", "--with", "cranks", "--head", "head-two-cranks"), (4, 4)),
    "divide by pin places": Kind(("divide", "24", "--with", "pins", "--head", "indexer-36"), (2, 2)),
    "divide by a wheel": Kind(("divide", "26", "--with", "wheel", "--lathe", "inch-8-banjo"), (2, 2)),
    "divide by stops": Kind(("divide", "12", "--with", "stops", "--lathe", "inch-8-fours"), (2, 2)),
    "divide by a block": Kind(("divide", "6", "--with", "block"), (1, 1)),
    "worm": Kind(("worm", "--module", "0.5", "--teeth", "73"), (8, 8)),
    "tap": Kind(("worm", "--tap", "3/8-24", "--teeth", "40"), (6, 6)),
    "shape": Kind(("shape", "hexagon", "--across-flats", "17 mm", "--screw", "2mm", "--marks", "100"), (2, 2)),
    "slot": Kind(("slot", "--in", "1in", "--width", "3mm", "--depth", "4mm", "--offset", "5mm"), (1, 1)),
    "keyway": Kind(("keyway", "2", "--shaft", "20 mm", "--width", "6 mm", "--depth", "3 mm"), (2, 2)),
    "holes": Kind(("holes", "7", "--on", "60 mm", "--screw", "4 mm", "--marks", "80"), (1, 2)),
    "dial": Kind(("dial", "--screw", "8 tpi", "--reads", "0.001 in", "--head", "head-40-two-faced"), (4, 4)),
    "dial not exact": Kind(("dial", "--screw", "10 tpi", "--reads", "0.02 mm", "--vernier", "10"), (7, 7)),
    "helix": Kind(("helix", "--angle", "20 deg", "--teeth", "30", "--module", "module 2"), (3, 3)),
    "instrument": Kind(("instrument", "--pitch", "0.5mm", "--marks", "50", "--teeth", "100"), (3, 3)),
    "counter": Kind(("counter", "--screw", "8 tpi", "--wheel", "80", "--travel", "12 in"), (1, 1)),
    "job": Kind(("job", "tellurion"), (36, 40)),
    "missing": Kind(
        ("missing", "--series", "iso_coarse", "--lathe", "inch-8-no127", "--within", "exact", "--pairs", "2"), (6, 6)
    ),
    "counts": Kind(
        ("counts", "--from", "1 day", "--to", "synodic month", "--size", "module 0.5", "--pairs", "2"), (13, 14)
    ),
    "chart of threads": Kind(("reach", "--series", "unc", "--lathe", "metric-3", "--pairs", "2"), (2, 2)),
    "chart of counts": Kind(("head", "covers", "head-40-three-plates", "--to", "55"), (2, 3)),
}
