"""Exact arithmetic of the shop: no files, no printing, no clock.

Rooms, in reading order: ``refusals``, ``quantities``, ``trains``, ``dividing``, ``threads``, ``dials``, ``worms``,
``helices``, ``wheelwork``, ``jobs``.
"""
