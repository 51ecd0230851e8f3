"""The shell: reads words, asks the solver, hands the answer to a view.

Rooms, in reading order: ``main``, ``plain_signs``, ``sizes``, ``division_counts``, ``shop_options``, ``fit_option``,
``part_options``, ``price_options``, ``index_moves``, ``exact_divisions``, ``thread_sheet``, ``job_plan``,
``whole_files``, ``plate_files``, ``sheet_files``, ``commands``, ``views``.
"""
