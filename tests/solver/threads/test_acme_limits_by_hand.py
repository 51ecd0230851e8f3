"""Limits of Acme threads of class 2G, worked on paper."""

from solver.quantities.lengths import Length
from solver.threads.forms import FORMS
from solver.threads.inch_tolerance import acme_limits, acme_nut_limits
from solver.threads.limits import Band, ThreadClass
from solver.threads.thread import Thread

IN = Length.of_inches


def test_what_limits_of_acme_threads_rest_on_is_said():
    remembered, steps = (
        "by the formulas of ASME B1.5 as remembered",
        "its tables take the allowance in steps of diameter",
    )
    one = Thread(FORMS["acme"], IN(1), IN("1/5"))
    screw, nut = acme_limits(one), acme_nut_limits(one)
    assert screw.of_class is nut.of_class is ThreadClass.ACME
    assert (screw.is_internal, nut.is_internal) == (False, True)
    assert screw.notes == nut.notes == (remembered,)
    between = Thread(FORMS["acme"], IN("5/16"), IN("1/14"), 2)
    assert acme_nut_limits(between).notes == (remembered, "for a single start")
    assert acme_limits(between).notes[:2] == (remembered, "for a single start")
    assert acme_limits(between).notes[2].startswith(steps)


# 4 in of 4 to the inch: 0.006 x 2 + 0.030 / 2 = 0.027 on the pitch diameter, 3.875 in; the screw is 0.008 x 2 = 0.016
# under it at the most. A twentieth of the pitch, 0.0125, at the crests; 0.020 at the root of the nut, 4.02 to 4.04 in.
def test_acme_limits_worked_out_on_paper():
    thread = Thread(FORMS["acme"], IN(4), IN("1/4"))
    screw, nut = acme_limits(thread), acme_nut_limits(thread)
    assert screw.pitch == Band(IN("3.832"), IN("3.859"))
    assert screw.major == Band(IN("3.9875"), IN(4))
    assert screw.minor == Band(IN("3.6895"), IN("3.73"))
    assert nut.pitch == Band(IN("3.875"), IN("3.902"))
    assert nut.minor == Band(IN("3.75"), IN("3.7625"))
    assert nut.major == Band(IN("4.02"), IN("4.04"))
