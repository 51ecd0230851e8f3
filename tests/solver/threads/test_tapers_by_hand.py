"""Where a tapered thread has which diameters, worked on paper."""

from solver.quantities.lengths import Length
from solver.threads.basic_dimensions import Diameters
from solver.threads.forms import FORMS
from solver.threads.tapers import has_nut_figures, taper_of
from solver.threads.thread import Thread

MM, IN = Length.of_mm, Length.of_inches


# 20.955 mm at the gauge plane and 1.162 mm deep: 8.2 mm nearer the small end it is 8.2 / 16 = 0.5125 mm less.
def test_a_taper_told_at_its_gauge_plane_is_less_at_the_small_end():
    found = taper_of(Thread(FORMS["taper-pipe-55"], MM("20.955"), IN("1/14"), gauge_length=MM("8.2")))
    assert found.gauge_length == MM("8.2")
    assert found.gauge_plane.major == MM("20.955")
    assert found.small_end == Diameters(MM("20.4425"), MM("19.2805"), MM("18.1185"))
    assert found.effective is None


# A pipe of 2 in with 10 threads: E0 = 2 - (0.1 + 1.1) / 10 = 1.88 in; a gauge length of 0.8 in makes it 0.05 in more,
# and L2 is (1.6 + 6.8) / 10 = 0.84 in.
def test_the_gauge_plane_of_a_taper_worked_out_on_paper():
    pipe = Thread(FORMS["taper-pipe-60"], IN(2), IN("1/10"), gauge_length=IN("0.8"))
    found = taper_of(pipe)
    assert found.small_end.pitch == IN("1.88")
    assert found.gauge_plane == Diameters(IN("2.01"), IN("1.93"), IN("1.85"))
    assert found.effective == IN("0.84")
    assert pipe.basic().internal == found.gauge_plane


def test_no_gauge_plane_is_told_of_a_parallel_thread_nor_where_its_length_is_not_known():
    assert taper_of(Thread(FORMS["taper-pipe-60"], IN(2), IN("1/10"))) is None
    assert taper_of(Thread(FORMS["unified"], IN(2), IN("1/10"), gauge_length=IN("0.8"))) is None


def test_a_nut_is_told_of_every_thread_but_one_known_by_its_small_end_alone():
    assert not has_nut_figures(Thread(FORMS["taper-pipe-60"], IN(2), IN("1/10")))
    assert has_nut_figures(Thread(FORMS["taper-pipe-60"], IN(2), IN("1/10"), gauge_length=IN("0.8")))
    assert has_nut_figures(Thread(FORMS["taper-pipe-55"], IN(2), IN("1/10")))
