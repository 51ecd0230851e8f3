"""Change-wheel trains: what one is, which cut a lead, whether they mount, how wrong they are.

Rooms, in reading order: ``wheels``, ``lathe``, ``written_trains``, ``train_rules``, ``lead_error``,
``sides``, ``matches``, ``mounting``, ``hand``, ``half_nut``, ``train_order``, ``train_search``, ``train_audit``,
``translating``, ``extra_wheels``, ``reach``, ``plate_row``, ``chart_constant``, ``chart_audit``, ``identify``.
"""
