"""Dividing: which move of the crank turns the work through one part, and how far off it is.

Rooms, in reading order: ``heads``, ``moves``, ``divide``, ``positions``, ``written_moves``,
``index_audit``.
"""
