"""What couples several answers: the plan of a sitting, and the train rules said a second time as a constraint model.

Rooms, in reading order: ``tasks``, ``lathe_ways``, ``head_ways``, ``handling``, ``rounds``, ``walk``, ``plan_model``,
``pieces``, ``planning``, ``train_model``; ``plan_model`` and ``train_model`` alone import ortools.
"""
