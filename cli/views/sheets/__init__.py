"""Printable sheets: cards made of pieces, pieces made of plain texts, and one page that holds them.

Rooms, in reading order: ``pieces``, ``page``, ``running_count``, ``train_cards``, ``thread_cards``, ``index_cards``,
``table_cards``, ``angle_cards``, ``part_cards``, ``dial_cards``, ``worm_cards``, ``helix_cards``,
``instrument_cards``, ``wall_charts``,
``job_part_cards``, ``job_cards``, ``missing_cards``, ``counts_cards``.
"""
