"""Data in, text out.

Rooms, in reading order: ``shop_figures``, ``screen``, ``cautions``, ``judgement_text``, ``tool_travel_text``,
``starts_screen``, ``train_screen``, ``reach_screen``, ``divide_screen``, ``audit_screen``, ``equipment_screen``,
``answer_json``, ``picking_up_json``; ``sheets`` to print.
"""
