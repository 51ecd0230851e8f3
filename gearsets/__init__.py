"""Facts cast in iron or printed in standards, as TOML and CSV, and the readers of a person's own files.

Rooms, in reading order: ``name_lookup``, ``fault_lines``, ``file_faults``, ``value_checks``, ``toml_reading``,
``toml_tables``, ``toml_text``, ``wheel_boxes``, ``lathe_files``, ``head_files``, ``thread_tables``, ``class_words``,
``series_words``, ``designations``, ``thread_forms``, ``taps``, ``grade_tables``, ``drill_tables``, ``chart_files``,
``pitch_lists``, ``period_tables``, ``shape_names``, ``job_parts``, ``job_links``, ``job_files``; the facts themselves
are in the folders ``lathes``, ``heads``, ``jobs``, ``thread_series``, ``screw_grades``, ``drills``, ``pitch_lists``
and ``periods``, with their sources in ``SOURCES.md``.
"""
