"""Facts cast in iron or printed in standards, as TOML and CSV, and the readers of a person's own files.

Rooms, in reading order: ``name_lookup``, ``fault_lines``, ``file_faults``, ``value_checks``, ``toml_tables``,
``toml_text``, ``wheel_boxes``, ``lathe_files``, ``head_files``, ``thread_tables``, ``designations``, ``taps``,
``grade_tables``, ``chart_files``, ``pitch_lists``, ``shape_names``, ``job_parts``, ``job_links``, ``job_files``; the
facts themselves are in the folders ``lathes``, ``heads``, ``jobs``, ``thread_series``, ``screw_grades`` and
``pitch_lists``, with their sources in ``SOURCES.md``.
"""
