"""``thread`` with a tolerance class written behind the thread: its limits, or a refusal with what there is."""

from __future__ import annotations

import pytest

from tests.cli.running import answer_of, halfnut


@pytest.mark.parametrize(
    ("designation", "classes"),
    [
        ("M10-6h", ["6h", "6H"]),
        ("M10 - 6G/6h", ["6h", "6G"]),
        ("M10", ["6g", "6H"]),
        ("1/4-20 2a", ["2A", "2B"]),
        ("M10 4H6H/4h6h", ["4h6h", "4H6H"]),
        ("M1", ["6h", "5H"]),
        ("1/4-20 UNC-3b", ["2A", "3B"]),
    ],
)
def test_the_limits_are_those_of_the_class_written(designation, classes):
    assert [each["class"] for each in answer_of("thread", designation)["limits"]] == classes


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("M10-6g", "--internal"), "6g is a class of screws; the nut is taken as 6H"),
        (("M10-6G",), "6G is a class of nuts; the screw is taken as 6g"),
        (("1/4-20 UNC-3b",), "3B is a class of nuts; the screw is taken as 2A"),
        (("M10-6g",), None),
        (("M10-6H", "--internal"), None),
        (("M10-6H/6g", "--internal"), None),
        (("M10-6H/6g",), None),
        (("M10", "--internal"), None),
    ],
)
def test_a_class_of_the_mate_alone_is_said_to_be_of_it(words, told):
    assert answer_of("thread", *words)["asked"]["class_remark"] == told
    screen = " ".join(halfnut("thread", *words, "--show", "cutting").stdout.split())
    assert (told in screen) if told else ("is taken as" not in screen)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("M10-6H/6H", "6H/6H names two classes of one side; a drawing names the nut's and the screw's."),
        ("M10-6g/4h6h", "Write one of them, or both as 6H/6g."),
        ("1/4-20 UNC-2B/3B", "2B/3B names two classes of one side"),
    ],
)
def test_two_classes_of_one_side_are_refused(words, said):
    outcome = halfnut("thread", words)
    assert outcome.returncode == 1
    assert said in " ".join(outcome.stderr.split())


@pytest.mark.parametrize(("words", "returncode"), [("No.4-40 UNC 1A", 1), ("No.12-24 UNC 1B", 1), ("1/4-20 UNC 1A", 0)])
def test_the_loosest_unified_classes_begin_at_a_quarter(words, returncode):
    outcome = halfnut("thread", words)
    assert outcome.returncode == returncode
    assert ("from 1/4 in up (from memory); this thread is smaller." in " ".join(outcome.stderr.split())) == returncode


# Grades as in tests/published/thread_metric_grades.csv.
@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("M10-5h", "ISO 965-1 has no grade 5 for the major diameter of a screw: only 4, 6, 8. Write another, as 5h6h:"),
        (
            "M10-3H",
            "ISO 965-1 has no grade 3 for the pitch diameter of a nut: only 4, 5, 6, 7, 8. Write another, as 6H:",
        ),
        ("M4-8g", "no grade 8 for the pitch diameter of a screw below a pitch of 0.8 mm; this one is 0.7 mm."),
        ("M2-6e", "ISO 965-1 has no position e below a pitch of 0.5 mm; this one is 0.4 mm."),
        ("M1x0.2-6H/6g", "no grade 6 for the pitch diameter of a nut below a pitch of 0.3 mm; this one is 0.2 mm."),
    ],
)
def test_a_class_that_the_standard_does_not_have_is_refused_with_what_it_has(words, said):
    outcome = halfnut("thread", words)
    assert outcome.returncode == 1
    assert said in " ".join(outcome.stderr.split())


def test_a_class_without_figures_here_is_refused_not_taken_for_another():
    outcome = halfnut("thread", "M10-6c")
    assert outcome.returncode == 1
    assert "Limits of class 6c are not worked out here, only those of ISO 965-1" in " ".join(outcome.stderr.split())


@pytest.mark.parametrize(("words", "title"), [("M10-4h6h", "class 4h6h, screw"), ("1/4-20 UNC-3A", "class 3A, screw")])
def test_a_class_known_from_memory_alone_says_so(words, title):
    screen = " ".join(halfnut("thread", words, "--show", "dimensions").stdout.split())
    after = screen.split(title)[1]
    assert "from memory)" in after.split("Least")[0]


@pytest.mark.parametrize(
    ("words", "of_class"),
    [
        (("Tr 16x4-7e",), "7e"),
        (("Tr 16x4-8c",), "8c"),
        (("Tr 16x4-7H/7e",), "7H and 7e"),
        (("G 1/2 A",), "A"),
        (("1/4 BSW medium",), "medium"),
        (("Acme 1-5 3G",), "3G"),
        (("M10-6g", "--form", "55"), "6g"),
    ],
)
def test_a_class_of_a_form_without_limits_here_is_not_dropped_in_silence(words: tuple[str, ...], of_class: str) -> None:
    outcome = halfnut("thread", *words, "--show", "dimensions")
    assert outcome.returncode == 0
    assert f"Limits of class {of_class} are not worked out here for the form" in " ".join(outcome.stderr.split())
    assert "LIMITS of class " not in outcome.stdout or "class 2G" in outcome.stdout


@pytest.mark.parametrize("words", ["M10-6H", "1/4-20 UNC-2A", "Acme 1-5 2G", "Tr 16x4", "M10"])
def test_a_class_with_limits_here_calls_for_no_remark(words: str) -> None:
    assert halfnut("thread", words, "--show", "dimensions").stderr == ""


@pytest.mark.parametrize(
    ("words", "known"),
    [
        ("1/4-20 UNC-6g", "those of 1A, 2A, 3A, 1B, 2B, 3B."),
        ("M10-2A", "as 6g, 8g, 4h6h or 5g6g for screws (e, f, g, h), as 6H, 7H or 4H5H for nuts (G, H)"),
        ("M10-5g6h", "with the same position for both diameters."),
    ],
)
def test_a_class_beside_those_worked_out_is_refused_with_them(words: str, known: str) -> None:
    outcome = halfnut("thread", words)
    assert outcome.returncode == 1
    assert known in " ".join(outcome.stderr.split())
