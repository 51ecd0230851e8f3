"""Dials: marks for a lead and a reading, verniers, distances as turns and marks, wheels that count turns.

Rooms, in reading order: ``graduations``, ``mark_pattern``, ``verniers``, ``screw_dials``, ``counting_wheels``.
"""
