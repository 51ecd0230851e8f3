"""Telling pitches from a measurement, held against the obvious slow way."""

from fractions import Fraction

from hypothesis import assume, given
from hypothesis import strategies as st

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength, lead_bounds_mm
from solver.quantities.written_measurements import Measurement
from solver.trains.identify import KnownPitch, identify, major_may_be, miscounted, pitches_to_tell
from tests.strategies import leads

UNCERTAINTIES = st.integers(1, 100).map(lambda each: Length(Fraction(each, 100)))
KNOWN = st.lists(leads(), min_size=2, max_size=12, unique=True).map(
    lambda found: [KnownPitch(lead, (f"pitch {number}",)) for number, lead in enumerate(found)]
)


def middle(lead):
    return sum(lead_bounds_mm(lead)) / 2


@given(KNOWN, st.data(), st.integers(1, 60), UNCERTAINTIES, st.fractions(-1, 1, max_denominator=50))
def test_the_true_pitch_is_never_ruled_out(known, data, pitches, doubt, part):
    true = data.draw(st.sampled_from(known))
    length = middle(true.pitch) * pitches + part * doubt.mm
    assume(length > 0)
    found = identify(Measurement(Length(length), pitches, doubt), known)
    assert true in [match.known for match in found.fitting]


@given(KNOWN, st.integers(1, 5000), st.integers(1, 60), UNCERTAINTIES)
def test_misfits_rise_and_what_fits_lies_within_the_doubt(known, hundredths, pitches, doubt):
    measured = Measurement(Length(Fraction(hundredths, 100)), pitches, doubt)
    found = identify(measured, known)
    assert {match.known for match in found.matches} == set(known)
    sizes = [abs(match.misfit.mm) for match in found.matches]
    assert sizes == sorted(sizes)
    for match in found.matches:
        off = measured.length.mm - pitches * middle(match.known.pitch)
        assert match.misfit.mm == off
        assert match.fits is (abs(off) <= doubt.mm)
        # Plus is a measured pitch larger than the standard one, over the length as in the pitch.
        assert (match.relative.relative > 0) is (off > 0) or off == 0
    assert found.fitting == found.matches[: len(found.fitting)]


@given(leads(), leads(), UNCERTAINTIES)
def test_so_many_pitches_tell_two_apart_and_one_fewer_does_not(first, second, doubt):
    count = pitches_to_tell(first, second, doubt)
    if first == second:
        assert count is None
        return
    if count is None:
        assert middle(first) == middle(second)
        return

    def some_length_is_either(pitches):
        lengths = middle(first) * pitches, middle(second) * pitches
        between = sum(lengths) / 2
        return all(abs(length - between) <= doubt.mm for length in lengths)

    assert not some_length_is_either(count)
    assert count == 1 or some_length_is_either(count - 1)


def test_a_plain_and_a_pi_pitch_of_nearly_one_length_are_told_apart_only_over_very_many():
    # 355/113 is 0.085 ppm from pi: common knowledge, CG-042 of the shared cases.
    plain, pi = Length(Fraction(355, 113)), PiLength(Fraction(1))
    assert pitches_to_tell(plain, pi, Length.of_mm("0.05")) > 300_000


def test_only_the_first_match_has_nothing_to_be_told_from():
    known = [KnownPitch(Length.of_mm(each), (each,)) for each in ("1", "1.25", "1.5")]
    found = identify(Measurement(Length.of_mm("12.5"), 10, Length.of_mm("0.05")), known)
    assert [match.tell_over is None for match in found.matches] == [True, False, False]


def test_crests_counted_for_gaps_are_offered_as_one_pitch_fewer():
    known = [KnownPitch(Length.of_mm("1.25"), ("1.25 mm",))]
    again = miscounted(Measurement(Length.of_mm("12.5"), 11, Length.of_mm("0.05")), known)
    assert [each.measured.pitches for each in again] == [10]
    assert miscounted(Measurement(Length.of_mm("2.5"), 1, Length.of_mm("0.05")), known) == ()


@given(st.integers(1, 100), st.integers(1, 100), st.integers(0, 100))
def test_no_thread_is_larger_than_its_nominal_diameter(tenths, pitch, above):
    nominal = Length.of_mm(10)
    doubt = Length(Fraction(tenths, 1000))
    measured = nominal + doubt + Length(Fraction(above, 1000))
    assert major_may_be(nominal, Length(Fraction(pitch, 10)), measured, doubt) is (above == 0)
