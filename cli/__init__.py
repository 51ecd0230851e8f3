"""The shell: reads words, asks the solver, hands the answer to a view.

Rooms, in reading order: ``main``, ``plain_signs``, ``sizes``, ``shop_options``, ``fit_option``, ``part_options``,
``index_moves``, ``plate_files``, ``thread_sheet``, ``whole_files``, ``commands``, ``views``.
"""
