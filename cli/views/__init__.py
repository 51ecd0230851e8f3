"""Data in, text out: ``shop_figures``, ``screen``, ``cautions``, ``train_screen``, ``reach_screen``,
``divide_screen``, ``audit_screen``, ``equipment_screen`` and ``answer_json``.
"""
