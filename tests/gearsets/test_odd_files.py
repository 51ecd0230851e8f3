"""Files that are no shop files at all: wrong bytes, nasty contents, pipes, folders, nothing."""

import os

import pytest

from gearsets.file_faults import LARGEST_FILE, FileFaultsError
from gearsets.head_files import load_head_text
from gearsets.lathe_files import find_lathe, load_lathe, load_lathe_text
from gearsets.toml_reading import MOST_DOTS
from tests.gearsets.shop_texts import GOOD, faults_of, only_fault


@pytest.mark.parametrize(
    ("content", "problem"),
    [
        (b"", "is missing"),
        (b"\xff\xfe\x00", "not UTF-8"),
        (b"name = bench", "not TOML"),
        (b"name = 'a'\nname = 'b'", "not TOML"),
        (b"a = " + b"[" * 60_000, "nested too deep"),
        (b"a = " + b"9" * 5000, "not TOML"),
        (b"# long\n" * 200_000, "larger than 64 kB"),
        (b"#" * (LARGEST_FILE + 1), "larger than 64 kB"),
        (b"name = 1\na" + b".a" * 20_000 + b" = 1", "line 2: has a key of more than 16 dots"),
        (b"[a" + b" . 'a'" * 20 + b"]", "line 1: has a key of more than 16 dots"),
        (b'x = { "\\"a"' + b'."\\""' * 20 + b" = 1 }", "line 1: has a key of more than 16 dots"),
    ],
)
def test_a_file_that_is_no_shop_file_is_refused_with_the_reason(tmp_path, content, problem):
    path = tmp_path / "mine.toml"
    path.write_bytes(content)
    with pytest.raises(FileFaultsError, match=problem) as caught:
        load_lathe(path)
    assert caught.value.path == str(path)


def test_a_key_of_as_many_dots_as_are_taken_is_an_unknown_key():
    assert only_fault(GOOD + "[a" + ".a" * MOST_DOTS + "]").problem == "is not a key known here"


def test_dots_in_a_comment_or_a_name_are_no_key():
    text = GOOD.replace("Bench lathe", "Bench lathe" + "." * 60) + "# " + ". " * 60
    assert load_lathe_text(text, "mine.toml").leadscrew_text == "8 tpi"


#: Contents that a slow reader would be long over, each as long as a file may be.
NASTY = {
    "dotted key": "a" + ".a" * 31_990 + " = 1",
    "dotted keys": "".join(f"k{number}{'.a' * 15} = 1\n" for number in range(1500)),
    "long key": "a" * 63_000 + " = 1",
    "lists in lists": "a = " + "[" * 31_000 + "]" * 31_000,
    "tables in tables": "a = " + "{ a = " * 10_000,
    "many lists in lists": "".join(f"a{number} = {'[' * 200}{']' * 200}\n" for number in range(150)),
    "many tables": "".join(f"[a{number}]\n" for number in range(7000)),
    "many classes": "wheels.other = [" + "{}," * 21_000 + "]",
    "many plates": "".join(f"[[plates]]\nname = '{number}'\nfaces = [[2]]\n" for number in range(1500)),
    "many keys": "".join(f"k{number} = 1\n" for number in range(6500)),
    "many counts": "spindle_stops.counts = [" + ", ".join(str(number % 2000) for number in range(10_000)) + "]",
    "many digits": "a = 0x" + "f" * 63_000,
    "quotes": "x = 1\n#" + '"\\' * 31_000,
    "blanks": "name" + " " * 63_000 + "x",
    "blank lines": "\n" * 63_000 + "x = 1",
}


@pytest.mark.parametrize("load", [load_lathe_text, load_head_text])
@pytest.mark.parametrize("text", NASTY.values(), ids=NASTY)
def test_no_file_of_the_largest_size_keeps_anybody_waiting(text, load):
    assert len(text) <= LARGEST_FILE
    faults_of(text, load)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="pipes with a name are not made on this system")
def test_a_pipe_is_refused_and_not_waited_for(tmp_path):
    path = tmp_path / "mine.toml"
    os.mkfifo(path)
    with pytest.raises(FileFaultsError, match="is not an ordinary file"):
        load_lathe(path)


@pytest.mark.skipif(os.name != "posix", reason="no device to name")
def test_a_device_is_refused():
    with pytest.raises(FileFaultsError, match="is not an ordinary file"):
        load_lathe(os.devnull)


def test_a_folder_is_refused(tmp_path):
    with pytest.raises(FileFaultsError, match="is a folder"):
        load_lathe(tmp_path)


def test_a_path_that_leads_nowhere_is_refused(tmp_path):
    with pytest.raises(FileFaultsError, match="is not there"):
        find_lathe(str(tmp_path / "none.toml"))


def test_a_path_with_a_nul_in_it_is_refused():
    with pytest.raises(FileFaultsError, match="cannot be read"):
        find_lathe("mine\0.toml")


def test_a_byte_order_mark_is_passed_over(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.encode())
    assert load_lathe(path).name == "Bench lathe"
