"""Threads: forms and dimensions, limits, cutting, and measuring over wires.

Rooms, in reading order: ``forms``, ``basic_dimensions``, ``thread``, ``tapers``, ``limits``, ``metric_grades``,
``metric_tolerance``, ``inch_tolerance``, ``infeed``, ``passes``, ``tool_nose``, ``lead_angles``, ``blanks``,
``spindle_speed``, ``run_out``, ``to_shoulder``, ``holes_and_blanks``,
``wire_seat``, ``over_wires``, ``wire_choice``, ``reading_verdict``, ``cutting``, ``measuring``.
"""
