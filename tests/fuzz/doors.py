"""Every door that takes a person's text: what reads it, and texts it reads well, to be shaken."""

from __future__ import annotations

import os
import re
import shlex
import tempfile
from collections.abc import Callable
from contextlib import chdir, redirect_stderr, redirect_stdout, suppress
from functools import partial
from importlib import import_module
from io import StringIO
from pathlib import Path
from typing import Any, NamedTuple

import click

from cli.division_counts import read_divisions
from cli.main import COMMANDS, bench, keep_negatives
from gearsets.chart_files import load_chart_text
from gearsets.designations import read_designation, read_thread_or_pitch
from gearsets.head_files import load_head_text
from gearsets.job_files import load_job_text
from gearsets.lathe_files import load_lathe_text
from gearsets.period_tables import find_period
from gearsets.taps import find_tap
from solver.dividing.written_moves import read_moves
from solver.quantities.written_angles import read_angle
from solver.quantities.written_errors import read_progressive_error
from solver.quantities.written_lengths import read_feed, read_length, read_micrometres, read_ratio, read_wheel_module
from solver.quantities.written_measurements import read_measurement
from solver.quantities.written_pitches import read_pitch
from solver.quantities.written_speeds import read_seconds, read_surface_speed
from solver.quantities.written_warmth import read_kelvins
from solver.refusals import RefusalError
from solver.threads.forms import read_form
from solver.trains.written_trains import read_set_up, read_train
from solver.wheelwork.written_ratios import read_turning_ratio
from tests.gearsets.shop_texts import FULL, GOOD, HEAD

SHIPPED = Path(__file__).resolve().parents[2] / "gearsets"


class Door(NamedTuple):
    """What reads a text, and texts that it reads."""

    read: Callable[[str], Any]
    seeds: tuple[str, ...]


def at_the_command_line(text: str) -> None:
    """Run a line of words as a command, in this process, and drop what it says."""
    try:
        words = shlex.split(text)
    except ValueError:
        words = text.split()
    if any(word.startswith(("--draw", "--sheet", "--force")) for word in words) or {"new", "csv"} & set(words):
        return
    os.environ["COLUMNS"] = "80"
    with (
        tempfile.TemporaryDirectory() as folder,
        chdir(folder),
        redirect_stdout(StringIO()),
        redirect_stderr(StringIO()),
    ):
        # A refusal leaves no more behind than an answer does, so the folder is looked at after either.
        with suppress(click.ClickException, click.exceptions.Exit, click.Abort, RefusalError, SystemExit):
            bench.main(keep_negatives(words), standalone_mode=False, prog_name="halfnut")
        assert not list(Path(folder).iterdir()), "a file was left behind"


def shipped(kind: str) -> tuple[str, ...]:
    """Texts of the files we ship."""
    return tuple(path.read_text(encoding="utf-8") for path in sorted((SHIPPED / kind).glob("*.toml")))


LENGTHS = ("1.25 mm", "1/20 in", "0.05in", "3 1/2 in", "12 µm", '1/4"', "1 1/4 in")
PITCHES = (
    "1.25mm",
    "20tpi",
    "11 1/2 tpi",
    "0.05in",
    "module 0.5",
    "24 DP",
    "0.2 in CP",
    "2mm, 3 starts",
    "1/7 mm",
    "20 threads per inch",
    "4 threads in 3 inches",
    "27 per cm",
    "0.8 pi mm",
    "pi/20 in",
    "circular pitch 3 mm",
    "1/2 in lead, 4 starts",
    "10 d.p.",
)
ANGLES = (
    "37.5 deg",
    "37°30'",
    "1/7 turn",
    "12 deg 3 min 4 s",
    "-20 deg",
    "0.5 turn",
    "1/8 of a turn",
    "37-30-15",
    "5 arcmin",
)
THREADS = (
    "M6",
    "M6x0.75",
    "1/4-20 UNC",
    "No.4-40",
    "2 BA",
    "G 1/4",
    "Tr 16x4",
    "3/8 BSF",
    "Tr 16x8(P4)",
    "M10-6g",
    "S0.5",
    "Tr40x7 LH",
    "M16xPh3P1.5",
    "Tr40x14P7",
    "BSF 1/4",
    "No.2 BA",
    "000-120",
    "1-8 UNC-2A-LH",
)
TRAINS = ("20:80", "40/50 20/127", "40-50-20-127", "40/50 20/127 (35)", "45-38-20-127")


def command_lines() -> tuple[str, ...]:
    """Return the examples of every help text, but for those that ask questions or need a file of the reader's own."""
    helps = (import_module(module).command for module in COMMANDS.values())
    texts = [one.help or "" for command in helps for one in (command, *getattr(command, "commands", {}).values())]
    lines = [
        line.strip().removeprefix("halfnut ") for text in texts for line in text.splitlines() if "halfnut " in line
    ]
    return tuple(line for line in lines if not re.search(r"\bnew\b|my-|--draw|--sheet|\.csv|\.toml", line))


DOORS = {
    "length": Door(read_length, LENGTHS),
    "micrometres": Door(read_micrometres, ("3 µm", "0.2 thou", "5um", "0.01 mm")),
    "wheel size": Door(read_wheel_module, ("module 1", "20 DP", "0.8 module")),
    "ratio": Door(read_ratio, ("3/4", "40", "1.5", "1:2", "40/127")),
    "progressive error": Door(
        read_progressive_error, ("0.006 in per 1 ft", "+30 ppm", "-3 µm in 25 mm", "10 um / 300 mm")
    ),
    "surface speed": Door(read_surface_speed, ("20 m/min", "60 ft/min")),
    "seconds": Door(read_seconds, ("1 s", "0.5 s")),
    "feed": Door(read_feed, ("0.1 mm", "0.004 in per turn", "4 thou/rev")),
    "kelvins": Door(read_kelvins, ("5 K", "-3 K", "+2.5 kelvins")),
    "measurement": Door(
        read_measurement, ("0.180 in over 5", "12.5 mm over 10 pitches", "3.2 mm", "10 threads in 17.5 mm")
    ),
    "pitch": Door(read_pitch, PITCHES),
    "angle": Door(read_angle, ANGLES),
    "designation": Door(read_designation, THREADS),
    "thread or pitch": Door(read_thread_or_pitch, (*THREADS, *PITCHES)),
    "thread form": Door(read_form, ("iso", "whitworth", "acme", "60 deg", "trapezoidal")),
    "tap": Door(find_tap, ("3/8-24", "M6", "1/4-20 UNC")),
    "train": Door(read_train, TRAINS),
    "set-up": Door(read_set_up, TRAINS),
    "moves": Door(read_moves, ("1 turn 9 spaces 33", "10/15 + 2/17", "1 + 7/39 + 29/41", "3/49", "8 holes in 20")),
    "divisions": Door(read_divisions, ("127", "51", "4", "360", "7/2")),
    "turning ratio": Door(
        read_turning_ratio, ("29.530589", "12/365.2422", "1:12", "64/38", "29 1/2", "1 to 29.53", "2 x pi")
    ),
    "period": Door(find_period, ("1 day", "synodic month", "365.2422 days", "tropical year", "23 h 56 min")),
    "job file": Door(partial(load_job_text, where="mine"), shipped("jobs")),
    "lathe file": Door(partial(load_lathe_text, where="mine"), (GOOD, FULL, *shipped("lathes"))),
    "head file": Door(partial(load_head_text, where="mine"), (HEAD, *shipped("heads"))),
    "chart file": Door(
        load_chart_text, ("thread,train\n20 tpi,40-80\n1 mm,50-127\n", "tpi;stud;screw\n7;48;84\n19;20;95\n")
    ),
    "command line": Door(at_the_command_line, command_lines()),
}

#: Doors at which a text may start real work; the others only read.
WORKING = frozenset({"command line"})
