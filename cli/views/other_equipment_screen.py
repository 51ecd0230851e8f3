"""The terminal screens and the JSON of ``divide --with`` cranks, pins, stops, wheel and block; data in, text out."""

from __future__ import annotations

from collections.abc import Sequence

from cli.views import answer_json
from cli.views.cautions import DEFER, cranks_cautions, dividing_cautions
from cli.views.method_tables import SIGNS, counted, move_text
from cli.views.screen import answers_table, console, facts_table, print_answers, print_list
from cli.views.shape_screen import every_face
from cli.views.shop_figures import approximate, arcsec_text
from solver.dividing.heads import Head
from solver.dividing.moves import CrankMove
from solver.dividing.spindle_stops import BlockSetting, PinPlace, StopSetting
from solver.dividing.two_cranks import TwoCrankSetting
from solver.quantities.angles import Angle, sexagesimal_text
from solver.trains.lathe import Lathe

SPINDLE_CAUTIONS = (
    "Isolate the lathe before the spindle is locked; pin or detent out again before power.",
    "A detent or pin is no brake: light cuts only, turned the same way against the play each time.",
    "Walk or scribe the whole round before cutting: the last mark must fall on the first. " + DEFER,
)
#: How blocks are tried, and used without harm.
BLOCK_CHECKS = (
    "Number the faces in the order you will use them, and tick each cut on the block.",
    "Try the block itself over opposite faces: what it is out, every part will be out.",
)
BLOCK_CAUTIONS = (f"Seat the block down in the vice each time, free of swarf. {DEFER}",)
PINS_NOTE = "Hole 0 and pin place 0 are where you begin; each pin place goes on by a part of one hole's space."


def show_cranks(count: int | None, head: Head, settings: Sequence[TwoCrankSetting]) -> None:
    """Print the settings of both cranks of a two-crank head."""
    out = console()
    out.print(facts_table(cranks_rows(count, head, settings[0])))
    out.print()
    out.print(_cranks_title(settings), style="bold")
    table = answers_table(
        [("Large crank", "left"), ("Plate", "left"), ("Small crank", "left"), ("Error each", "right"),
         ("At closure", "right")]
    )  # fmt: skip
    for each in settings:
        off = (
            ("exact", "exact")
            if each.is_exact
            else (arcsec_text(each.error_per_move), arcsec_text(each.error_at_closure))
        )
        table.add_row(crank_text(each.large), each.plate, crank_text(each.small), *off)
    print_answers(out, table)
    if not all(each.is_exact for each in settings):
        out.print(SIGNS)
    out.print(cranks_note(settings))
    print_list(out, "Early check, before metal is cut", cranks_checks(head))
    print_list(out, "Cautions", cranks_cautions(settings))


def cranks_rows(count: int | None, head: Head, first: TwoCrankSetting) -> list[tuple[str, str]]:
    """Echo what was asked of both cranks, with its proof."""
    angle = Angle(first.wanted)
    asked = counted(count, "equal division") if count else "one angle"
    rows = [
        ("Asked", f"{asked}: {approximate(angle.degrees, 6)}° = {sexagesimal_text(angle, 1)} each"),
        ("Head", head.name),
        ("Proof", f"{head.worm_ratio} × {first.wanted} = {counted(first.wanted * head.worm_ratio, 'large turn')} each"),
    ]
    if head.small_crank is not None:
        rows.append(("Small crank", f"{head.small_crank.ratio} turns for one of the large"))
    return rows


def cranks_note(settings: Sequence[TwoCrankSetting]) -> str:
    """Say which way the cranks go, and what the arms enclose."""
    forward = not any(each.runs_both_ways for each in settings)
    ways = "Both cranks go forward" if forward else "BACK: that crank goes against its usual way"
    return f"{ways} at every move. The arms of each enclose one hole more than its spaces."


def cranks_checks(head: Head) -> list[str]:
    """Say what to see before cutting with two cranks: both ratios, counted."""
    check = f"Count the ratios: {head.worm_ratio} large turns bring the work round once"
    if head.small_crank is not None:
        check += f", {head.small_crank.ratio} small turns bring the large crank round once"
    return [f"{check}."]


def _cranks_title(settings: Sequence[TwoCrankSetting]) -> str:
    if not settings[0].is_exact:
        return "NEAREST SETTINGS, none is exact"
    if settings[-1].is_exact:
        return "EXACT SETTINGS"
    return "EXACT SETTINGS with one crank going BACK, then the nearest with both forward"


def crank_text(move: CrankMove) -> str:
    """Write the move of one crank, with BACK before one that goes against its usual way.

    Examples
    --------
    >>> crank_text(CrankMove(0, 0, None)), crank_text(CrankMove(0, 1, 54, -1))
    ('not moved', 'BACK 0 turns + 1 space on 54')
    """
    if not move.value:
        return "not moved"
    return f"BACK {move_text(move)}" if move.sign < 0 else move_text(move)


def cranks_json(count: int | None, head: Head, settings: Sequence[TwoCrankSetting]) -> str:
    """Write the settings of both cranks as JSON."""
    answers = [
        {
            "method": "two cranks",
            "moves": [
                {"crank": "large"} | answer_json.crank_move(each.large),
                {"crank": "small"} | answer_json.crank_move(each.small),
            ],
            "plate": each.plate,
            "moves_to_closure": each.moves_to_close,
            "error_arcsec_per_move": f"{each.error_per_move.arcsec}",
            "error_arcsec_at_closure": f"{each.error_at_closure.arcsec}",
            "exact": each.is_exact,
            "runs_both_ways": each.runs_both_ways,
        }
        for each in settings
    ]
    asked = {"divisions": count, "turns_of_work": f"{settings[0].wanted}"}
    return answer_json.as_text({"asked": asked, "head": head.name, "answers": answers})


def show_stops(lathe: Lathe, settings: Sequence[StopSetting]) -> None:
    """Print the stops of a spindle, or the change wheels that a detent enters."""
    out = console()
    out.print(facts_table(stop_rows(lathe, settings[0])))
    out.print()
    out.print("EXACT SETTINGS", style="bold")
    table = answers_table([("Set up", "left"), ("Each move", "left")])
    for each in settings:
        table.add_row(setup_text(each), step_text(each))
    print_answers(out, table)
    print_list(out, "Early check", stop_checks(settings[0], "For the first line above the marks"))
    print_list(out, "Cautions", SPINDLE_CAUTIONS)


def stop_rows(lathe: Lathe, first: StopSetting) -> list[tuple[str, str]]:
    """Echo what was asked of a spindle that is locked, with its proof."""
    return [("Asked", counted(first.divisions, "equal division")), ("Lathe", lathe.name), ("Proof", _stop_proof(first))]


def step_text(setting: StopSetting) -> str:
    """Write the step from one mark to the next.

    Examples
    --------
    >>> step_text(StopSetting(60, 5, 12)), step_text(StopSetting(65, 1, 65, 65))
    ('5 places', '1 tooth of the 65')
    """
    if setting.counted_wheel is None:
        return counted(setting.step, "place")
    return f"{setting.step} {'tooth' if setting.step == 1 else 'teeth'} of the {setting.counted_wheel}"


def stop_checks(setting: StopSetting, whose: str) -> list[str]:
    """Say what to see before the spindle's places are trusted."""
    places = setting.places()
    walk = ", ".join(map(str, places[:24])) + (" …" if len(places) > 24 else "")
    around = setting.counted_wheel or setting.stops
    return [
        f"Chalk the place you begin as 0. {whose} fall on: {walk}.",
        f"Count {around} places round {'the wheel' if setting.counted_wheel else 'the spindle'} before you trust it.",
    ]


def setup_text(setting: StopSetting) -> str:
    """Say what is mounted where.

    Examples
    --------
    >>> setup_text(StopSetting(60, 5, 12)), setup_text(StopSetting(26, 1, 26, 20, (50, 65)))
    ("spindle's own 60 stops", '20 T on the spindle drives 50 T; detent in 65 T beside it')
    """
    if setting.on_spindle is None:
        return f"spindle's own {setting.stops} stops"
    if setting.on_stud is None:
        return f"{setting.on_spindle} T on the spindle, detent in its teeth"
    stud, wheel = setting.on_stud
    return f"{setting.on_spindle} T on the spindle drives {stud} T; detent in {wheel} T beside it"


def _stop_proof(setting: StopSetting) -> str:
    if setting.on_stud is None:
        return f"{setting.stops} / {setting.divisions} = {setting.step}"
    stud, wheel = setting.on_stud
    round_of_teeth = f"{setting.on_spindle} × {wheel} / {stud} = {setting.stops} teeth a round"
    return f"{round_of_teeth}; {setting.stops} / {setting.divisions} = {setting.step}"


def stops_json(lathe: Lathe, settings: Sequence[StopSetting]) -> str:
    """Write stops or wheels as JSON."""
    answers = [
        {
            "method": "stops" if each.on_spindle is None else "wheel",
            "stops": each.stops,
            "step": each.step,
            "on_spindle": each.on_spindle,
            "on_stud": list(each.on_stud) if each.on_stud else None,
            "places": list(each.places()),
            "exact": True,
        }
        for each in settings
    ]
    divisions = settings[0].divisions
    return answer_json.as_text({"asked": {"divisions": divisions}, "lathe": lathe.name, "answers": answers})


def show_blocks(divisions: int, blocks: Sequence[BlockSetting]) -> None:
    """Print the collet blocks that divide a count."""
    out = console()
    out.print(facts_table(block_rows(divisions, blocks)))
    print_list(out, "Early check", BLOCK_CHECKS)
    print_list(out, "Cautions", BLOCK_CAUTIONS)


def block_rows(divisions: int, blocks: Sequence[BlockSetting]) -> list[tuple[str, str]]:
    """Echo what was asked, and say which faces of each block are used."""
    rows = [("Asked", counted(divisions, "equal division"))]
    return rows + [(f"{each.shape.capitalize()} block", f"{every_face(each.step)}, of {each.faces}") for each in blocks]


def blocks_json(divisions: int, blocks: Sequence[BlockSetting]) -> str:
    """Write the collet blocks as JSON."""
    answers = [
        {"method": "block", "shape": each.shape, "faces": each.faces, "step": each.step, "exact": True}
        for each in blocks
    ]
    return answer_json.as_text({"asked": {"divisions": divisions}, "answers": answers})


def show_pins(head: Head, places: Sequence[PinPlace]) -> None:
    """Print hole and pin place of every mark on an indexer."""
    out = console()
    out.print(facts_table(pin_rows(head, places)))
    out.print()
    out.print("EXACT: HOLE AND PIN PLACE OF EACH MARK", style="bold")
    table = answers_table([("Mark", "right"), ("Hole", "right"), ("Pin place", "right"), ("Done", "left")])
    for each in places:
        table.add_row(str(each.number), str(each.hole), str(each.place), "[ ]")
    print_answers(out, table)
    out.print(PINS_NOTE)
    print_list(out, "Early check", pin_checks(places))
    print_list(out, "Cautions", dividing_cautions(by_crank=False))


def pin_rows(head: Head, places: Sequence[PinPlace]) -> list[tuple[str, str]]:
    """Echo what was asked of an indexer's pin places, with its proof."""
    divisions, each_hole = len(places) - 1, head.pin_places or 1
    holes = max(head.direct_circles, key=lambda holes: ((holes * each_hole) % divisions == 0, holes))
    proof = f"{holes} holes × {head.pin_places} places / {divisions} = {holes * each_hole // divisions} each"
    return [("Asked", counted(divisions, "equal division")), ("Head", head.name), ("Proof", proof)]


def pin_checks(places: Sequence[PinPlace]) -> list[str]:
    """Say what to see before an indexer's count is trusted."""
    return [f"The last line, mark {len(places) - 1}, is the first one again."]


def pins_json(head: Head, places: Sequence[PinPlace]) -> str:
    """Write hole and pin place of every mark as JSON."""
    rows = [{"mark": each.number, "hole": each.hole, "place": each.place} for each in places]
    asked = {"divisions": len(places) - 1}
    return answer_json.as_text({"asked": asked, "head": head.name, "method": "pins", "exact": True, "rows": rows})
