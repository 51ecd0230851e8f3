"""Wheelwork of sky models and clocks: tooth counts for a wanted ratio, out of the counts a person can divide and cut.

Rooms, in reading order: ``written_ratios``, ``periods``, ``tooth_cutting``, ``wheel_limits``, ``count_products``,
``farey_walk``, ``nearest_ratios``, ``one_distance``, ``arbors``, ``drift``, ``counts_search``.
"""
