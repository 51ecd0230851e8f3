"""The sheets of a job, of missing wheels and of a wheelwork say what their JSON says, card after card."""

from __future__ import annotations

import json
import re
from collections import Counter

import pytest

from gearsets.lathe_files import find_lathe
from tests.cli.running import halfnut
from tests.sheets.test_agreement import Reader, answer_of

SERIES = ("missing", "--series", "iso_coarse", "--lathe", "inch-8-no127", "--within", "exact", "--pairs", "2")
MONTH = ("counts", "--from", "1 day", "--to", "synodic month", "--size", "module 0.5", "--pairs", "2")
#: Everything that a job may hold, the head geared from the lathe's box; names and notes as somebody hostile writes.
EVERY_KIND = """
name = 'Odd </style><script>alert(1)</script>'
lathe = "inch-8"
head = "head-40-two-faced"
one_box = true
mounted = "40-127"
[[parts]]
name = '<b onclick=alert(1)>x</b>'
thread = "Tr 16x4"
starts = 2
hand = "left"
quantity = 10000
note = '''<img src=x onerror='alert(2)'> & "quotes" {{ 7*7 }}'''
[[parts]]
name = "bare pitch"
thread = "1.25 mm"
[[parts]]
name = "angle"
angle = "37.5 deg"
within = "1 deg"
[[parts]]
name = "nearest holes"
divide = 127
method = "nearest"
within = "1 deg"
[[parts]]
name = "geared"
divide = 127
[[parts]]
name = "two circles"
divide = 69
method = "compound"
[[parts]]
name = "slots"
slot = { in = "20 mm", width = "3 mm", depth = "2 mm", count = 5, offset = "1 mm" }
[[parts]]
name = "inch dial"
dial = { screw = "8 tpi", reads = "0.001 in" }
[[parts]]
name = "no whole dial"
dial = { screw = "12 tpi", reads = "0.02 mm" }
"""


def cards_of(text):
    """The front of a page, then each card, read apart."""
    return [Reader(part) for part in text.split("<article ")]


def ticked(card, word):
    return [re.sub(f"^{word}: ", "", words) for words in card.words if words.startswith(f"{word}: ")]


@pytest.fixture(scope="module")
def tellurion(make_sheet):
    cards = cards_of(make_sheet("job", "tellurion").read_text(encoding="utf-8"))
    return cards, answer_of("job", "tellurion")


def test_the_cover_has_the_steps_in_order_and_the_proof(tellurion):
    (cover, *cards), told = tellurion
    rows = [row for row in cover.rows if row and row[0].isdigit()]
    assert [(int(row[0]), row[1], int(row[-2])) for row in rows] == [
        (step["step"], step["part"], step["wheels_handled"]) for step in told["steps"]
    ]
    assert len(cards) == len(told["steps"])
    assert any(words.startswith(f"{told['wheels_handled']} taken off or put on") for words in cover.words)
    assert any(words.startswith("proven: ") for words in cover.words)


def test_each_card_ticks_the_wheels_that_change_before_its_step(tellurion):
    (_, *cards), told = tellurion
    for card, step in zip(cards, told["steps"], strict=True):
        for word, wheels in (("OFF", step["off"]), ("ON", step["on"])):
            handled = [f"{each['place']}: {each['teeth']} T" for each in wheels]
            assert [line for line in ticked(card, word) if not line.startswith("plate ")] == handled


def test_what_is_handled_adds_up_to_the_train_that_each_card_shows(tellurion):
    (_, *cards), told = tellurion
    banjo = set()
    for card, step in zip(cards, told["steps"], strict=True):
        if step["machine"] != "lathe":
            continue
        banjo -= set(ticked(card, "OFF"))
        banjo |= set(ticked(card, "ON"))
        at = card.rows.index(next(row for row in card.rows if row[0] == "Axis"))
        mounted = []
        for row in card.rows[at + 1 :]:
            if not any(cell.endswith(" T") for cell in row):
                break
            mounted += [cell for cell in row if cell.endswith(" T")]
        assert Counter(words.rsplit(" ", 2)[1] + " T" for words in banjo) == Counter(mounted)
        stands = card.words.index("On the machines in this step")
        assert "-".join(f"{driver}-{driven}" for driver, driven in step["train"]["pairs"]) in "".join(
            card.words[stands : stands + 6]
        )


@pytest.mark.parametrize(
    ("part", "said"),
    [
        ("Pillar screws", "Pieces finished, 6 when all are:"),
        ("Year worm", "silver steel; 73 teeth of 5 days are a year of 365"),
        ("Moon wheel", "Count of 127 marks"),
        ("Feed dial", "Marks, 50 in all"),
        ("Arm square", "Count of 4 marks"),
    ],
)
def test_a_card_has_what_its_part_needs(tellurion, part, said):
    (_, *cards), told = tellurion
    number = next(step["step"] for step in told["steps"] if step["part"] == part)
    assert said in cards[number - 1].words


def test_no_caution_of_a_card_stands_there_twice(tellurion):
    for card in tellurion[0][1:]:
        at = card.words.index("Cautions")
        lines = [words for words in card.words[at + 1 :] if words.endswith(".")]
        assert lines.count("Isolate the machine before hands go near the wheels; refit the guard before power.") <= 1
        assert card.words.count("Cautions") == 1


def test_a_hostile_job_of_every_kind_arrives_as_letters(tmp_path, browser):
    job, sheet = tmp_path / "job.toml", tmp_path / "sheet.html"
    job.write_text(EVERY_KIND, encoding="utf-8")
    outcome = halfnut("job", str(job), "--sheet", str(sheet))
    assert outcome.returncode == 1, outcome.stderr
    assert "Beyond its tolerance" in outcome.stderr
    text = sheet.read_text(encoding="utf-8")
    for tag in ("<script", "<b ", "<img"):
        assert tag not in text
    cover, *cards = cards_of(text)
    assert "Job: Odd </style><script>alert(1)</script>" in cover.words
    assert "<img src=x onerror='alert(2)'> & \"quotes\" {{ 7*7 }}" in {words for card in cards for words in card.words}
    assert any(words.startswith("The nearest is planned") and "no whole dial" in words for words in cover.words)
    page = browser.new_page(viewport={"width": 390, "height": 844})
    said = []
    page.on("console", lambda message: said.append(message.text))
    page.on("dialog", lambda dialog: (said.append(dialog.message), dialog.dismiss()))
    page.goto(sheet.as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    assert said == []
    page.close()


def test_nearest_holes_are_counted_on_the_circle_that_was_planned(tmp_path):
    job, sheet = tmp_path / "job.toml", tmp_path / "sheet.html"
    job.write_text(EVERY_KIND, encoding="utf-8")
    halfnut("job", str(job), "--sheet", str(sheet))
    cover, *cards = cards_of(sheet.read_text(encoding="utf-8"))
    row = next(row for row in cover.rows if row[1:2] == ["nearest holes"])
    circle = row[2].rsplit(" on ", 1)[1]
    assert f"Each mark from zero, {circle} circle, plate A" in cards[int(row[0]) - 1].words


@pytest.mark.parametrize("sign", ["\\u202e", "\\u2066", "\\u001b"])
def test_signs_that_turn_writing_are_refused_in_a_job(tmp_path, sign):
    job, sheet = tmp_path / "job.toml", tmp_path / "sheet.html"
    job.write_text(f'name = "a"\nlathe = "inch-8"\n[[parts]]\nname = "b"\nthread = "M6"\nnote = "x{sign}y"\n', "utf-8")
    assert halfnut("job", str(job), "--sheet", str(sheet)).returncode == 3
    assert not sheet.exists()


def test_the_page_of_missing_wheels_lists_every_lead_with_its_train(make_sheet):
    front, *makings = cards_of(make_sheet(*SERIES).read_text(encoding="utf-8"))
    told = answer_of(*SERIES)
    leads = [each["pitch"] for each in told["lacking"]]
    rows = {row[0]: row[-1] for row in front.rows if row[0] in leads}
    assert list(rows) == leads
    screw = find_lathe("inch-8-no127").leadscrew_lead.mm
    for lead, train in rows.items():
        teeth = [int(each) for each in train.split(" (")[0].split("-")]
        ratio = screw
        for driver, driven in zip(teeth[::2], teeth[1::2], strict=True):
            ratio = ratio * driver / driven
        assert f"{float(ratio):g} mm" == lead
    assert "ADD 127 T" in front.words
    assert len(makings) == 1
    # 127 + 2 teeth of module 1.25, the count closed after one round.
    assert any(words.startswith("Blank 161.25 mm") for words in makings[0].words)
    last = next(row for row in reversed(makings[0].rows) if row[0] == "127")
    assert last[-2] == "360°00'00\""


def test_a_lathe_that_lacks_nothing_or_cannot_be_helped_says_so(tmp_path):
    said = {"1mm": "No wheel is missing", "0.9137mm": "No wheel helps"}
    for pitch, words in said.items():
        path = tmp_path / f"{pitch}.html"
        more = ("--within", "exact", "--pairs", "1", "--most", "1", "--sheet", str(path))
        halfnut("missing", pitch, "--lathe", "inch-8", *more)
        front, *cards = cards_of(path.read_text(encoding="utf-8"))
        assert words in front.words
        assert cards == []


def test_the_cutting_list_has_each_wheel_once_and_a_card_for_it(make_sheet):
    front, *cards = cards_of(make_sheet(*MONTH).read_text(encoding="utf-8"))
    told = answer_of(*MONTH)
    best = next(each for each in told["by_pairs"] if each["pairs"] == told["chosen"])["answers"][0]
    wheels = Counter(teeth for pair in best["pairs"] for teeth in pair)
    listed = {int(row[0]): int(row[1]) for row in front.rows if row[0].isdigit()}
    assert listed == dict(wheels)
    assert len(cards) == len(wheels)
    # Module 0.5: a blank is half of the teeth and two more, two arbors are a quarter of both counts apart.
    for driver, driven in best["pairs"]:
        assert any(f": {(driver + driven) / 4:g} mm" in words for words in front.words)
    for teeth, card in zip(sorted(wheels), cards, strict=True):
        assert f"Wheel of {teeth}" in card.words
        assert any(words.startswith(f"{(teeth + 2) / 2:g} mm") for words in card.words)
        assert f"Count of {teeth} marks" in card.words


@pytest.mark.parametrize("words", [("job", "tellurion"), ("missing", "1mm"), ("counts", "1/12")])
def test_a_sheet_that_is_there_is_kept_before_any_work_is_done(tmp_path, words):
    path = tmp_path / "sheet.html"
    path.write_text("mine", encoding="utf-8")
    outcome = halfnut(*words, "--sheet", str(path))
    assert outcome.returncode == 2
    assert "--force" in outcome.stderr
    assert outcome.stdout == ""
    assert path.read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize(
    ("head", "said"),
    [
        ("table-90-dial", "ROUNDED FROM ZERO"),
        ("indexer-36", "not exact here: this wheel is one to buy, or to have divided elsewhere"),
        ("table-72", "ONLY WITH THE WHEELS ON"),
    ],
)
def test_a_wheel_is_divided_by_what_the_head_at_hand_has(tmp_path, head, said):
    path = tmp_path / "sheet.html"
    words = ("missing", "0.9mm", "1.1mm", "--lathe", "inch-16-small", "--within", "50 ppm", "--pairs", "2")
    halfnut(*words, "--head", head, "--sheet", str(path))
    front, *makings = cards_of(path.read_text(encoding="utf-8"))
    assert "ADD 127 T" in front.words
    assert said in makings[0].words
    counted = {row[0] for row in makings[0].rows if row[0].isdigit()}
    assert counted == (set() if head == "indexer-36" else {str(mark) for mark in range(1, 128)})


def test_a_wheel_lent_to_the_head_is_ticked_off_the_lathe_and_stands_there_no_more(tmp_path):
    job, sheet = tmp_path / "job.toml", tmp_path / "sheet.html"
    head = 'name = "a"\nlathe = "{}"\nhead = "head-40-three-plates"\none_box = true\n'
    lathe = tmp_path / "lathe.toml"
    # 24-48 halves the leadscrew's lead; of these few the head wants both again, or others that need them as idlers.
    lathe.write_text(
        'name = "few wheels"\n[leadscrew]\nlead = "8 tpi"\n[drive]\nstud_turns = "1"\nreverse = true\n'
        '[wheels]\nsize = "module 1"\nteeth = { 24 = 1, 44 = 1, 48 = 1, 56 = 1 }\n',
        encoding="utf-8",
    )
    parts = '[[parts]]\nname = "screw"\nthread = "16 tpi"\n[[parts]]\nname = "wheel"\ndivide = 127\nafter = ["screw"]\n'
    job.write_text(head.format(lathe) + parts, encoding="utf-8")
    outcome = halfnut("job", str(job), "--json", "--sheet", str(sheet))
    last = json.loads(outcome.stdout)["steps"][-1]
    assert last["lent"]
    _, screw, wheel = cards_of(sheet.read_text(encoding="utf-8"))
    assert ticked(wheel, "OFF THE LATHE, for this step") == [
        f"{each['place']}: {each['teeth']} T" for each in last["lent"]
    ]
    assert "A wheel lent from one machine to the other: see that what is left there cannot be driven." in wheel.words
    left = {"stud gear: 24 T", "leadscrew: 48 T"} - set(ticked(wheel, "OFF THE LATHE, for this step"))
    stands = [
        card.words[card.words.index("Lathe", card.words.index("On the machines in this step")) + 1 :][0]
        for card in (screw, wheel)
    ]
    assert stands == ["24-48", "; ".join(sorted(left)) or "no wheels"]


def ticks_of(card):
    """The rows of a count without the boxes to tick."""
    rows = [[cell.removesuffix("*").strip() for cell in row[:-1]] for row in card.rows]
    return [row for row in rows if row[0].isdecimal()]


def test_a_step_by_the_dial_has_its_count_and_says_that_it_is_beyond(tmp_path, make_sheet):
    path = tmp_path / "job.toml"
    path.write_text(
        'name = "a"\nhead = "table-90-dial"\n[[parts]]\nname = "Zodiac"\ndivide = 12\n'
        '[[parts]]\nname = "Tilt"\nangle = "23.44 deg"\n'
        '[[parts]]\nname = "Feed"\ndial = { screw = "8 tpi", marks = 125 }\nwithin = "5 sec"\n',
        encoding="utf-8",
    )
    front, zodiac, tilt, feed = cards_of(make_sheet("job", str(path)).read_text(encoding="utf-8"))
    # 23.44 deg is 5 turns and 3 deg 26' 24", of which the dial tells 3 deg 26' 20".
    assert "BEYOND TOLERANCE" in front.words
    assert ticks_of(zodiac)[0] == ["1", "7", "2°00'00\"", "30°00'00\""]
    assert "5 turns, dial at 3° 26' 20\"" in tilt.words
    assert ticks_of(tilt) == [["0", "0", "0°00'00\"", "0°00'00\""], ["1", "5", "3°26'20\"", "23°26'24\""]]
    # Mark 1 of 125 is 2 deg 52' 48": 2 deg 52' 50" of the dial.
    assert ticks_of(feed)[1] == ["1", "short", "0", "2°52'50\"", "2°52'48\""]
    assert not any("nothing to divide" in said for card in (zodiac, tilt, feed) for said in card.words)
