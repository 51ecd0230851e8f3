"""Lathe and head files as text, and the faults that the loaders find in them."""

import pytest

from gearsets.file_faults import FileFaultsError
from gearsets.lathe_files import load_lathe_text

GOOD = """\
name = "Bench lathe"
[leadscrew]
lead = "8 tpi"
[wheels]
size = "module 1"
teeth = { 20 = 2, 127 = 1 }
"""
FULL = """\
name = "Bench lathe"
[leadscrew]
lead = "3 mm"
[drive]
stud_turns = "1/2"
reverse = true
[wheels]
size = "module 1"
teeth = { 30 = 1, 20 = 2 }
keyed_pairs = [[60, 63]]
[[wheels.other]]
size = "60 DP"
teeth = { 100 = 2, 127 = 1 }
only_in_pair = 1
[banjo]
studs = 2
centre_distance = "150 mm"
slot = ["30 mm", "135 mm"]
swing = ["-20 deg", "60 deg"]
stud_nut = "20 mm"
mesh_limits = [["40 mm", "75 mm"], ["43 mm", "90 mm"]]
largest_wheel_teeth = 127
[gearbox]
levers = { A1 = "1", A2 = "3/4" }
[chasing_dial]
wheel_teeth = 32
lines = 8
[spindle_stops]
counts = [60]
"""
HEAD = 'name = "head"\nworm_ratio = "40"\n'


def faults_of(text, load=load_lathe_text):
    with pytest.raises(FileFaultsError) as caught:
        load(text, "mine.toml")
    return caught.value.faults


def only_fault(text, load=load_lathe_text):
    (fault,) = faults_of(text, load)
    return fault
