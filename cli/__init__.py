"""The shell: reads words, asks the solver, hands the answer to a view.

Rooms, in reading order: ``main``, ``shop_options``, ``fit_option``, ``commands``, ``views``.
"""
