"""Lengths, angles, pitches and leads, and the reading of written figures.

Rooms, in reading order: ``exact_numbers``, ``lengths``, ``shown_lengths``, ``angles``, ``pi_multiples``,
``pitches``, ``figure_reader``, ``pitch_words``, ``written_lengths``, ``written_errors``, ``written_pitches``,
``written_angles``, ``written_measurements``, ``written_speeds``, ``written_warmth``, ``circle_figures``, ``powers``,
``continued_fractions``.
"""
