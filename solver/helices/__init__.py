"""Helices on the mill: lead and angle, the wheels from the table screw to the head, and the cutter for the teeth.

Rooms, in reading order: ``helix``, ``table_swing``, ``cutter_ranges``, ``mill``, ``helix_trains``.
"""
