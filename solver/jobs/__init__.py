"""What couples several answers, and the train rules said a second time as a constraint model.

Rooms, in reading order: ``constraint_solver``, the only file that imports ortools; ``train_model``; ``wheel_prices``,
``wheel_options``, ``wheel_cover``, ``wheel_report``, ``missing_wheels``, ``wheel_making``.
"""
