"""Worms and worm wheels: sizes, blanks, gashing, hobbing with a tap, and a screw and wheel that measures.

Rooms, in reading order: ``tooth_sizes``, ``worm``, ``fine_pitch``, ``worm_wheel``, ``blanks``, ``friction``, ``taps``,
``tap_hobbing``, ``gashing``, ``setting``, ``screw_and_wheel``, ``wanted_reading``.
"""
