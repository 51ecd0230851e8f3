"""What couples several answers: the plan of a sitting, and the train rules said a second time as a constraint model.

Rooms, in reading order: ``constraint_solver``, the only file that imports ortools; ``train_model``; for a sitting
``tasks``, ``lathe_ways``, ``head_ways``, ``handling``, ``mending``, ``rounds``, ``walk``, ``plan_model``, ``pieces``,
``planning``;
for wheels worth adding ``wheel_prices``, ``wheel_options``, ``wheel_cover``, ``wheel_report``, ``missing_wheels``,
``wheel_making``.
"""
