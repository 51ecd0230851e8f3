"""What couples several answers, and the train rules said a second time as a constraint model.

Rooms, in reading order: ``train_model``, the only file that imports ortools.
"""
