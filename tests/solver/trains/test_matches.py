"""Bands of matches: complete, ever wider, and never more at once than the memory of a small machine."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.quantities.lengths import Length
from solver.trains import matches, train_search
from solver.trains.lathe import Lathe
from solver.trains.matches import Halves, nearest_matches
from solver.trains.train_search import TrainQuestion, search_trains
from solver.trains.wheels import WheelClass


def lathe_of(*teeth: int) -> Lathe:
    box = WheelClass("module 1", Length.of_mm(1), tuple((each, 1) for each in sorted(teeth)))
    return Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, (box,))


BOX = lathe_of(20, 25, 30, 35, 40, 45, 50, 60)
LEAD = Length.of_mm("0.7")


def every_error(lathe: Lathe, lead: Length, pairs: int) -> list[Fraction]:
    """All errors there are, from the last band, which holds everything."""
    return sorted(abs(match.error) for match in list(Halves(lathe, pairs).bands(lead, Fraction(1, 1000)))[-1].matches)


@pytest.mark.parametrize("most", [1, 3, 10, 50])
def test_cut_bands_stay_complete_and_list_the_nearest_first(monkeypatch, most: int) -> None:
    everything = every_error(BOX, LEAD, 2)
    monkeypatch.setattr(matches, "MOST_LISTED", most)
    covered = Fraction(-1)
    for band in Halves(BOX, 2).bands(LEAD, Fraction(1, 1000)):
        assert band.within > covered
        covered = band.within
        if band.is_complete:
            found = sorted(abs(match.error) for match in band.matches)
            assert found == [error for error in everything if error <= band.within]
        else:
            assert len(band.matches) <= most
    assert abs(nearest_matches(BOX, LEAD, 2)[0].error) == everything[0]


def test_the_last_band_of_a_small_box_holds_every_match_once() -> None:
    # 8 wheels, one of each: 8 x 7 ordered pairs of a driver and a driven wheel.
    assert len(every_error(BOX, LEAD, 1)) == 56


def test_ties_beyond_the_limit_end_the_bands_and_are_owned_up_to(monkeypatch) -> None:
    monkeypatch.setattr(matches, "MOST_LISTED", 2)
    ratio_half = BOX.lead_at_equal_wheels * Fraction(1, 2)
    band = next(iter(Halves(BOX, 2).bands(ratio_half, Fraction(1, 1000))))
    assert (band.within, band.is_complete) == (0, False)
    assert all(match.error == 0 for match in band.matches)


@pytest.mark.parametrize("lead", ["0.001", "25400", "0.005", "1270"])
def test_a_lead_beyond_every_train_is_answered_with_the_extreme_one(lead: str) -> None:
    twenty_two = lathe_of(*range(20, 125, 5), 127)
    report = search_trains(TrainQuestion(Length.of_mm(lead), most_pairs=3), twenty_two)
    assert report.answers == ()
    assert report.nearest is not None
    assert report.nearest.fits


def test_four_pairs_of_a_full_box_are_answered() -> None:
    twenty_two = lathe_of(*range(20, 125, 5), 127)
    report = search_trains(TrainQuestion(Length.of_mm("1.25"), most_pairs=4, wanted=1), twenty_two)
    assert {len(answer.train.pairs) for answer in report.answers if answer.error.is_exact} == {1, 2, 3, 4}


def test_a_search_that_left_ties_out_says_for_how_many_pairs(monkeypatch) -> None:
    question = TrainQuestion(BOX.lead_at_equal_wheels * Fraction(1, 2), most_pairs=2)
    assert search_trains(question, BOX).cut_short == ()
    monkeypatch.setattr(matches, "MOST_LISTED", 2)
    assert 2 in search_trains(question, BOX).cut_short


def test_a_search_that_gave_up_on_placings_says_so(monkeypatch) -> None:
    question = TrainQuestion(BOX.lead_at_equal_wheels * Fraction(1, 2), most_pairs=2, within=Fraction(1, 2), wanted=500)
    monkeypatch.setattr(train_search, "MOST_TRIED", 3)
    assert 2 in search_trains(question, BOX).cut_short
