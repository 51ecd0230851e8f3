"""Data in, text out.

Rooms, in reading order: ``shop_figures``, ``screen``, ``cautions``, ``train_screen``, ``reach_screen``,
``divide_screen``, ``audit_screen``, ``equipment_screen``, ``answer_json``.
"""
