"""Dividing: which move of the crank turns the work through one part, and how far off it is.

Rooms, in reading order: ``heads``, ``closing``, ``moves``, ``divide``, ``skipping``, ``compound``,
``plate_gearing``, ``differential``, ``choosing``, ``positions``, ``written_moves``, ``index_audit``; for other
equipment ``table_dial``, ``two_cranks``, ``spindle_stops``; for the part itself ``shapes``, ``slots``,
``hole_circles``.
"""
