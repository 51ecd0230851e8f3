"""Charts as people write them: every layout read, every fault named at once, no text that breaks the reader."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gearsets.chart_files import MOST_ROWS, check_levers, load_chart_text, read_chart
from gearsets.file_faults import FileFaultsError
from gearsets.lathe_files import find_lathe
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength
from solver.trains.chart_audit import audit_chart

PLATE = ((7, 48, 84), (19, 20, 95))


def faults_of(text):
    with pytest.raises(FileFaultsError) as refusal:
        load_chart_text(text)
    return [(fault.place, fault.problem) for fault in refusal.value.faults]


@pytest.mark.parametrize(
    "text",
    [
        "thread,train\n7 tpi,48-84\n19 tpi,20-95\n",
        "Thread;Train\r\n7 tpi;48-84\r\n19 tpi;20-95",
        "tpi\tstud\tscrew\n7\t48\t84\n19\t20\t95\n",
        "# plate\n\n  tpi , stud gear , leadscrew-gear \n 7, 48 ,84\n,,\n19,20,95\n",
        'PITCH,driver,driven,note\n"7 tpi",48,84,"on the plate, inside"\n19 tpi,20,95\n',
        "screw_gear,stud_gear,tpi\n84,48,7\n95,20,19\n",
        "\ufefftpi;stud;screw\r7;48;84\r19;20;95\r",
        "wheels,lead\n48-idler-84,7 tpi\n20-h-95,19tpi\n",
    ],
)
def test_the_same_plate_is_read_from_every_layout(text, tmp_path):
    path = tmp_path / "plate.csv"
    path.write_bytes(text.encode("utf-8"))
    rows = read_chart(path)
    assert [row.lead for row in rows] == [Length.of_inches(Fraction(1, tpi)) for tpi, _, _ in PLATE]
    assert [str(row.train) for row in rows] == [f"{stud}-{screw}" for _, stud, screw in PLATE]


def test_lines_are_those_of_the_file():
    rows = load_chart_text("# a\n\nthread,train\n# b\n20 tpi,40-100\n\n1 mm,40-127\n")
    assert [row.line for row in rows] == [5, 7]


def test_columns_of_bare_figures_take_their_unit_from_the_head():
    assert load_chart_text("mm,train\n1.25,50-127")[0].lead == Length.of_mm("1.25")
    assert load_chart_text("module,train\n0.5,47-95")[0].lead == PiLength(Fraction(1, 2))
    assert load_chart_text("tpi,train\n11 1/2,48-69")[0].thread == "11 1/2 tpi"


def test_designations_starts_levers_and_idlers_are_kept():
    text = 'thread,stud,idler,screw,lever\nM6,40,-,127,A1\n"Tr 16x4, 2 starts",40,60,30,\n'
    first, second = load_chart_text(text)
    assert (first.thread, first.lead, first.lever, first.idlers) == ("M6", Length.of_mm(1), "A1", 0)
    assert (second.lead, second.lever, second.idlers) == (Length.of_mm(8), None, 1)


def test_wheels_are_found_in_the_class_that_holds_them():
    lathe = find_lathe("inch-8-two-classes")
    first = lathe.wheel_classes[1].stock
    teeth = [each for each, _ in first]
    row = load_chart_text(f"thread,train\n1 mm,{teeth[0]}-{teeth[-1]}", classes=lathe.wheel_classes)[0]
    assert {pair.wheel_class for pair in row.train.pairs} <= {0, 1}


def test_every_row_that_cannot_be_read_is_named_at_once():
    found = faults_of(
        'thread,train\n20,40-100\n1 mm,40\nM6,40-127\n2 mm,4-5\n1,25 mm,40-50\n"3 mm,40-30\n1;25 mm,40-50\n20 tpi\n'
    )
    assert [place for place, _ in found] == [f"line {line}" for line in (2, 3, 5, 6, 7, 8, 9)]
    problems = " ".join(problem for _, problem in found)
    for words in ("bare number", "does not make pairs", "5 to 400 teeth", "3 columns", "cannot be taken apart"):
        assert words in problems


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "holds no line"),
        ("# only a remark\n\n", "holds no line"),
        ("7,48,84\n", "names no columns"),
        ("thread,train\n", "no row follows"),
        ("thread,tpi,train\n", "one column of threads"),
        ("stud,screw\n", "one column of threads"),
        ("thread,stud\n", "one column train, or in two"),
        ("thread,train,stud\n", "one column train, or in two"),
        ("thread,train,wheels\n", "two columns mean train"),
        ("thread,train,speed\n", "'speed' is not known"),
        ("thread,train,lever\n1 mm,40-127," + "x" * 30, "is no name"),
        ("thread,train\n" + "1 mm,40-127\n" * (MOST_ROWS + 1), f"more than {MOST_ROWS} rows"),
    ],
)
def test_a_chart_that_is_none_is_refused_with_what_would_be_right(text, words):
    assert any(words in problem for _, problem in faults_of(text))


def test_a_file_that_is_not_text_or_not_there_is_refused(tmp_path):
    path = tmp_path / "chart.csv"
    with pytest.raises(FileFaultsError, match="is not there"):
        read_chart(path)
    path.write_bytes(b"thread,train\n\xff\xfe,40-127\n")
    with pytest.raises(FileFaultsError, match="line 2: is not UTF-8"):
        read_chart(path)
    with pytest.raises(FileFaultsError, match="is a folder"):
        read_chart(tmp_path)


def test_levers_that_are_not_on_the_lathe_are_named_with_their_lines():
    boxed = find_lathe("inch-12-box")
    lever = boxed.levers[0][0]
    rows = load_chart_text(f"thread,train,lever\n20 tpi,40-80,{lever}\n10 tpi,40-80,Z9\n8 tpi,40-80,\n")
    with pytest.raises(FileFaultsError) as refusal:
        check_levers(rows, boxed)
    assert [fault.place for fault in refusal.value.faults] == ["line 3", "line 4"]
    check_levers(rows[:1], boxed)
    with pytest.raises(FileFaultsError, match="no gearbox"):
        check_levers(rows[:1], find_lathe("inch-8"))


CELLS = st.one_of(
    st.text(max_size=12),
    st.sampled_from(
        ["20 tpi", "1.25mm", "M6", "40-80-50-127", "48", "84", "idler", "A1", '"', '""', "=1+1", "\x00", "1e400", "-3",
         "Tr 16x4, 2 starts", "½ in", "٣ mm", "#", "module 1", "0 mm", "9" * 200]
    ),
)  # fmt: skip
HEADS = st.sampled_from(
    ["thread,train", "thread;train;lever", "tpi,stud,screw", "mm\tstud\tidler\tscrew", "thread,train,note,note", "x"]
)


@given(HEADS, st.sampled_from(",;\t"), st.lists(st.lists(CELLS, max_size=5), max_size=6), st.text(max_size=30))
def test_any_text_is_a_chart_that_can_be_audited_or_is_refused(head, joint, rows, rest):
    text = "\n".join([head, *(joint.join(cells) for cells in rows), rest])
    try:
        chart = load_chart_text(text)
    except FileFaultsError as refusal:
        assert refusal.faults
        assert all(letter.isprintable() or letter == "\n" for letter in str(refusal))
        return
    assert chart
    assert all(row.thread.isprintable() and (row.lever or "").isprintable() for row in chart)
    for sheet in audit_chart(chart, Fraction(1, 1000)):
        assert sheet.findings


@given(st.binary(max_size=200))
def test_any_bytes_are_a_chart_or_are_refused(tmp_path_factory, content):
    path = tmp_path_factory.mktemp("charts") / "chart.csv"
    path.write_bytes(b"thread,train\n" + content)
    try:
        assert read_chart(path)
    except FileFaultsError as refusal:
        assert refusal.faults
