"""The two ways of finding wheels to add answer the same question, and what is called proven is."""

from __future__ import annotations

from tests.benchmarks.missing_measurements import by_every_handful, by_walk, few, iso_coarse, whole_series


def test_the_walk_and_every_handful_name_the_same_wheels():
    lathe, question = few(iso_coarse()[::4])
    walked, tried = by_walk(lathe, question), by_every_handful(lathe, question)
    assert walked.wheels
    assert (walked.wheels, walked.unlocked, walked.lacking) == (tried.wheels, tried.unlocked, tried.lacking)
    assert walked.is_proven


def test_the_questions_of_the_whole_series_have_every_candidate_and_two_wheels_at_the_most():
    for _, _, question in whole_series():
        assert len(question.leads) == 23
        assert question.candidates[0] == 20
        assert question.candidates[-1] in (126, 127)
        assert question.most_wheels == 2
