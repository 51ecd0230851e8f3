"""Dividing: which move of the crank turns the work through one part, and how far off it is.

Rooms, in reading order: ``heads``, ``moves``, ``direct``, ``plain``, ``nearest``, ``positions``,
``divide``, ``written_moves``, ``index_audit``.
"""
