"""Tapered pipe threads as ``thread`` tells them."""

from __future__ import annotations

import pytest

from tests.cli.running import answer_of, halfnut


# A taper of 1 in 16 on the diameter is 1° 47' to the axis, in handbooks of pipe threads; from memory.
@pytest.mark.from_memory("general knowledge: a taper of 1 in 16 in handbooks of pipe threads")
@pytest.mark.parametrize("words", ["1/2 NPT", "R 1/4"])
def test_a_taper_is_told_as_the_angle_a_slide_is_set_to(words: str) -> None:
    assert "1° 47' 24" in " ".join(halfnut("thread", words, "--show", "dimensions").stdout.split())


# E1 of 1/2 NPT and its L2; the major diameter at the mouth of the nut is 0.8 of the pitch, 0.0571 in, more: 0.8356 in.
@pytest.mark.from_memory("ASME B1.20.1, Pipe threads, general purpose (inch), NPT, edition not seen, E1 and L2 of 1/2")
def test_the_nut_of_a_tapered_thread_is_told_at_its_mouth() -> None:
    screen = halfnut("thread", "1/2 NPT", "--show", "dimensions").stdout
    plain = " ".join(screen.split())
    assert "small end of the screw and at the mouth of the nut" in plain
    assert "Gauge plane L1, hand tight: 0.3200 in (8.128 mm) from the small end (length from memory)" in plain
    assert "E1 = 0.7784 in (19.772 mm)" in plain
    assert "L2 = (0.80 D + 6.8) p = 0.5337 in (13.556 mm)" in plain
    rows = {line.split()[0]: line.split()[2:] for line in screen.splitlines() if " dia " in line and "E1" not in line}
    assert "Nut mouth, mm" in screen
    assert (rows["major"][3], rows["pitch"][3]) == ("0.8356", "0.7784")
    assert "where the gauge stands" not in plain
    answer = answer_of("thread", "1/2 NPT", "--show", "dimensions")
    assert answer["basic"]["nut"] == answer["taper"]["at_gauge_plane"]
    assert (answer["taper"]["gauge_length"]["in"], answer["taper"]["gauge_length_status"]) == ("8/25", "memory")


def test_the_small_end_of_a_screw_is_not_passed_off_as_a_nut_where_its_mouth_is_not_known() -> None:
    words = ("thread", "14tpi", "--major", "0.84in", "--form", "taper-pipe-60", "--show", "dimensions")
    screen = halfnut(*words).stdout
    assert "Nut" not in screen
    assert "are known of the sizes of the standard alone" in " ".join(screen.split())
    answer = answer_of(*words)
    assert answer["basic"]["nut"] is answer["taper"] is None
    assert "Nut, mm" in halfnut("thread", "R 1/4", "--show", "dimensions").stdout
    assert answer_of("thread", "M10", "--show", "dimensions")["taper"] is None


# Of a nut the bore before threading is the minor diameter at its mouth, 0.0571 in under E1.
def test_a_tapered_nut_is_bored_for_its_mouth() -> None:
    screen = " ".join(halfnut("thread", "1/2 NPT", "--internal", "--show", "cutting").stdout.split())
    assert "Bore 0.7213 in (18.321 mm)" in screen


def test_a_taper_of_the_metric_standard_says_where_its_gauge_plane_is() -> None:
    screen = " ".join(halfnut("thread", "R 1/2", "--show", "dimensions").stdout.split())
    assert "Gauge plane 0.3228 in (8.200 mm) from the small end (length from memory)" in screen
    assert "at the small end major dia 0.8048 in (20.442 mm)" in screen
