"""Change-wheel trains: what one is, which cut a lead, whether they mount, how wrong they are.

Rooms, in reading order: ``wheels``, ``lathe``, ``written_trains``, ``train_rules``, ``lead_error``,
``sides``, ``matches``, ``chain``, ``layout``, ``stud_places``, ``banjo_gauge``, ``fault_words``, ``hand``, ``idlers``,
``mounting``, ``half_nut``, ``train_answer``, ``changes``, ``train_order``, ``train_search``, ``train_audit``,
``translating``, ``extra_wheels``, ``reach``, ``plate_row``.
"""
