"""Change-wheel trains: what one is, which cut a lead, whether they mount, how wrong they are.

Rooms, in reading order: ``wheels``, ``lathe``, ``written_trains``, ``train_rules``, ``lead_error``, ``warmth``,
``sides``, ``matches``, ``chain``, ``layout``, ``stud_places``, ``banjo_gauge``, ``fault_words``, ``hand``, ``idlers``,
``mounting``, ``half_nut``, ``tool_travel``, ``start_moves``, ``starts``, ``fit_tolerance``, ``lead_judgement``,
``train_answer``, ``changes``, ``train_order``, ``train_search``, ``feeds``, ``train_audit``,
``translating``, ``near_unity``, ``extra_wheels``, ``reach``, ``plate_row``, ``chart_constant``, ``chart_audit``,
``identify``, ``lever_table``.
"""
