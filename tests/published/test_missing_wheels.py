"""The classic answers to "which wheel do I lack": 127, and 63, 21 or 37 where a little error will do.

Trains and stand-ins are those of ``change_gears.toml``, by the numbers of its cases; their sources stand there.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from gearsets.thread_tables import load_series
from solver.jobs.missing_wheels import missing_wheels
from solver.jobs.wheel_report import MissingQuestion
from solver.quantities.lengths import Length
from solver.quantities.written_pitches import read_pitch
from solver.trains.lathe import Banjo, Lathe
from solver.trains.wheels import WheelClass
from tests.published.source_cases import read_cases

CASES = read_cases("change_gears.toml")
EVERY = tuple(range(20, 128))
FIVES = range(20, 121, 5)
SMALL_NUT = Banjo(stud_nut=Length.of_mm(1))


def a_lathe(screw, teeth, banjo=SMALL_NUT):
    box = WheelClass("module 1", Length.of_mm(1), tuple((each, 1) for each in sorted(set(teeth))))
    return Lathe(
        "of the case", screw, read_pitch(screw).lead, Fraction(1), has_reverse=True, wheel_classes=(box,), banjo=banjo
    )


def iso_coarse():
    """The different pitches of ISO 261, coarse series; read as gearsets/SOURCES.md says."""
    return tuple(dict.fromkeys(thread.pitch.lead for thread in load_series("iso_coarse")))


@pytest.mark.published("F. D. Jones, Turning and Boring, 1914, fifth printing 1919, ch. IV, pp. 170-172")
def test_jones_has_a_127_wheel_for_three_millimetres_and_it_is_what_his_set_lacks():
    # Case CG-024; set of 30 to 100 by fives, p. 170.
    row = CASES["CG-024"]["rows"][0]
    lathe = a_lathe(row["screw"], range(30, 101, 5))
    report = missing_wheels(lathe, MissingQuestion((read_pitch(row["thread"]).lead,), EVERY, Fraction(0), 2, 1))
    assert report.best.wheels == (127,)
    assert report.others == ()
    assert report.proof.is_proven
    assert str(report.best.rows[0].best.train) == row["train"]


@pytest.mark.own_arithmetic("F. D. Jones, Turning and Boring, 1914, fifth printing 1919, ch. IV, p. 172")
@pytest.mark.parametrize("screw", ["8 tpi", "6 tpi", "4 tpi"])
def test_the_trains_that_127_opens_are_those_of_the_printed_rule(screw):
    # Case CG-025: the rule, stud wheel = constant x mm x 5 with 127, is printed (Jones, p. 172); the rows are worked.
    rows = [row for row in CASES["CG-025"]["rows"] if row["screw"] == screw]
    leads = tuple(read_pitch(row["thread"]).lead for row in rows)
    report = missing_wheels(a_lathe(screw, FIVES), MissingQuestion(leads, EVERY, Fraction(0), 1, 1))
    assert report.best.wheels == (127,)
    assert [str(row.best.train) for row in report.best.rows] == [row["train"] for row in rows]


@pytest.mark.own_arithmetic("Course texts on change gears, n.d., 20 to 120 by fives and 127")
def test_the_iso_coarse_series_exact_on_an_inch_lathe_asks_for_the_wheel_that_the_course_sets_have_beside_the_fives():
    # Here the set without 127 is asked.
    report = missing_wheels(
        a_lathe("8 tpi", FIVES), MissingQuestion(iso_coarse(), EVERY, Fraction(0), 2, 2), other_sets=3
    )
    assert len(report.lacking) == len(iso_coarse())
    assert report.best.wheels == (127,)
    assert report.others == ()
    assert all(row.best.error.is_exact for row in report.best.rows)
    assert report.proof.is_proven


@pytest.mark.from_memory("general knowledge: 25.4 is 127 over 5, and 127 is a prime")
def test_nothing_but_a_multiple_of_127_makes_a_millimetre_pitch_exact_on_an_inch_screw():
    # Case CG-028: 25.4 = 127/5 and 127 is a prime, so without it nothing helps, however many wheels are added.
    question = MissingQuestion(iso_coarse(), tuple(range(20, 127)), Fraction(0), 3, 2)
    report = missing_wheels(a_lathe("8 tpi", FIVES), question)
    assert report.best.wheels == ()
    assert report.hopeless == iso_coarse()
    assert report.proof.is_proven


def stand_ins():
    """The pairs of case CG-029 whose wheels are believed of a box, each with its error."""
    rows = [(Fraction(row["pair"]), Fraction(row["error"])) for row in CASES["CG-029"]["rows"]]
    return [pytest.param(*row, id=str(row[0])) for row in rows if row[0].numerator >= 20]


@pytest.mark.from_memory("general knowledge: tables of substitutes for the 127 wheel")
@pytest.mark.parametrize(("ratio", "error"), stand_ins())
def test_each_stand_in_is_found_at_its_own_tolerance_and_not_below_it(ratio, error):
    # The driven wheel is in the box; a thread of 100/127 of the screw is asked for.
    lathe = a_lathe("8 tpi", [ratio.denominator])
    lead = (lathe.lead_at_equal_wheels * Fraction(100, 127),)
    found = missing_wheels(lathe, MissingQuestion(lead, EVERY, abs(error), 1, 1))
    assert found.best.wheels == (ratio.numerator,)
    assert found.best.worst_error == error
    closer = missing_wheels(lathe, MissingQuestion(lead, EVERY, abs(error) * Fraction(99, 100), 1, 1))
    assert closer.hopeless == lead


@pytest.mark.from_memory("general knowledge: tables of substitutes for the 127 wheel")
def test_with_the_best_stand_in_allowed_63_is_named_where_80_is_in_the_box_and_37_and_47_where_neither_is():
    # Case CG-029: 63/80 is the best pair of wheels up to 120, 37/47 the next.
    lathe = a_lathe("8 tpi", [80, 40])
    lead = (lathe.lead_at_equal_wheels * Fraction(100, 127),)
    assert missing_wheels(lathe, MissingQuestion(lead, tuple(range(20, 121)), Fraction(1, 8000), 2, 1)).best.wheels == (
        63,
    )
    bare = a_lathe("8 tpi", [40])
    up_to_60 = MissingQuestion(lead, tuple(range(20, 61)), Fraction(1, 4700), 2, 1)
    assert missing_wheels(bare, up_to_60).best.wheels == (37, 47)


@pytest.mark.from_memory("general knowledge: tables of substitutes for the 127 wheel")
@pytest.mark.parametrize("teeth", [21, 42, 63])
def test_21_and_its_multiples_stand_in_for_the_127_that_is_too_large_for_a_small_banjo(teeth):
    # Notes on inch and metric: a 127 is too large for small banjos and guards, hence 63 and 21 wheels; +125 ppm.
    lathe = a_lathe("8 tpi", FIVES, Banjo(studs=1, stud_nut=Length.of_mm(13), largest_wheel_teeth=120))
    lead = (Length.of_mm("1.5"),)
    report = missing_wheels(lathe, MissingQuestion(lead, (teeth,), Fraction(1, 8000), 1, 2))
    assert report.best.wheels == (teeth,)
    assert report.best.worst_error == Fraction(1, 8000)
    smallest = missing_wheels(lathe, MissingQuestion(lead, (21, 42, 63, 127), Fraction(1, 8000), 2, 2), other_sets=5)
    assert [each.wheels for each in (smallest.best, *smallest.others)] == [(21,), (42,), (63,)]


@pytest.mark.own_arithmetic("College exam question on change gears, 4 mm leadscrew, n.d., set and threads")
def test_inch_threads_on_the_metric_screw_of_the_exam_ask_for_the_127_that_its_set_holds():
    # Case CG-033: leadscrew 4 mm, wheels 20 to 125 by fives and 127; the two inch threads of the question.
    case = CASES["CG-033"]
    leads = tuple(read_pitch(row["thread"]).lead for row in case["rows"] if "tpi" in row["thread"])
    assert len(leads) == 2
    box = [teeth for teeth in case["box"] if teeth != 127]
    report = missing_wheels(a_lathe("4 mm", box), MissingQuestion(leads, EVERY, Fraction(0), 2, 2))
    assert report.best.wheels == (127,)
    assert report.others == ()
