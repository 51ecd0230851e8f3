"""The terminal screen and the JSON of ``audit`` for an index setting."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from cli.views import answer_json
from cli.views.cautions import dividing_cautions
from cli.views.method_tables import SIGNS, counted, divisions_text, move_text, plate_turns_text, second_text
from cli.views.screen import console, facts_table, print_list
from cli.views.shop_figures import approximate, arcsec_text
from cli.views.table_dial_screen import angle_text
from solver.dividing.heads import Head
from solver.dividing.index_audit import IndexAudit
from solver.dividing.moves import CrankMove
from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.pitches import figure_text
from solver.trains.wheels import Train

#: Moves after which a reader is told what an error has come to.
TEN = 10
#: Circles with more holes than this are not advised. [holes]
MOST_HOLES = 10_000


def setting_text(written: CrankMove, made: CrankMove) -> str:
    """Write a move as it was written and, where full circles were written as spaces, as the crank makes it.

    Examples
    --------
    >>> setting_text(CrankMove(0, 22, 21), CrankMove(1, 1, 21))
    '22 spaces on 21: that is 1 turn + 1 space on 21'
    """
    if written == made:
        return move_text(made)
    turns = f"{counted(written.turns, 'turn')} + " if written.turns else ""
    return f"{turns}{counted(written.spaces, 'space')} on {written.circle}: that is {move_text(made)}"


def show_move_audit(
    audit: IndexAudit, written: Sequence[CrankMove], train: Train | None, wanted: int | Angle | None, head: Head | None
) -> None:
    """Print what an index setting really divides, and what of it the head has not, where one was named."""
    out = console()
    ratio = figure_text(audit.worm_ratio)
    rows = [("Setting", f"{setting_text(written[0], audit.move)}, worm ratio {ratio}")]
    if audit.second is not None:
        rows.append(("then", f"{second_text(written[1])}, plate with crank"))
    if train is not None:
        way = "follows the crank" if audit.plate_turns > 0 else "turns against the crank"
        turns = plate_turns_text(audit.plate_turns)
        rows.append(("Wheels", f"{train}, driver-driven from the work spindle: the plate {way}, {turns} to one"))
    rows += [("Gives", _finding(audit)), ("Proof", _proof(audit))]
    if train is not None:
        rows.append(("Wheels off", f"divides {_count_words(audit.wheels_off)}: never read this row as a plain one"))
    if audit.move.spaces:
        enclosed = " and ".join(str(move.sector_holes) for move in audit.moves)
        rows.append(("Arms enclose", f"{enclosed} holes, the pin's own hole included"))
    lacking = [] if head is None else lacking_on(head, audit)
    rows += [("NOT ON HEAD" if at == 0 else "", line) for at, line in enumerate(lacking)]
    inexact = False
    if isinstance(wanted, Angle):
        first, *more = _beside(audit, wanted, head)
        rows += [(f"Wanted {angle_text(wanted)}", first), *(("", line) for line in more)]
    else:
        counts = [wanted] if wanted else ([] if audit.closes else [*audit.likely_counts()[:2], *_neighbours(audit)])
        for count in dict.fromkeys(counts):
            first, *more = _against(audit, count, head)
            rows += [(f"{'Wanted' if wanted else 'As'} {count}", first), *(("", line) for line in more)]
            inexact = inexact or audit.error_against(count)[0].turns != 0
    if inexact:
        rows.append(("", SIGNS))
    out.print(facts_table(rows))
    print_list(out, "Cautions", dividing_cautions())


def _finding(audit: IndexAudit) -> str:
    if audit.closes:
        return f"divides {audit.marks}, exactly"
    return (
        f"{approximate(audit.divisions, 4)} to the turn: the round does not close at once; "
        f"{audit.marks} marks come out evenly after {audit.rounds} turns of the work"
    )


def _proof(audit: IndexAudit) -> str:
    moved = " + ".join(f"({move.value})" for move in audit.moves)
    moved = f"({moved})" if audit.second else moved
    ratio = figure_text(audit.worm_ratio)
    turning = f"({ratio} - ({audit.plate_turns}))" if audit.plate_turns else ratio
    return f"{turning} / {moved} = {audit.divisions}"


def _count_words(divisions: Fraction) -> str:
    return divisions_text(divisions) + ("" if divisions.denominator == 1 else " to the turn, which does not close")


def lacking_on(head: Head, audit: IndexAudit) -> list[str]:
    """Say which circles of a setting the head has not, or has on no one face."""
    held = {circle for _, circle in head.circles()} if head.has_worm else set(head.direct_circles)
    wanted = {move.circle for move in audit.moves if move.spaces and move.circle}
    lines = [f"no plate of {head.name} has a circle of {circle} holes" for circle in sorted(wanted - held)]
    if not lines and audit.second is not None and not any(wanted <= set(face) for _, _, face in head.faces()):
        lines.append(f"no one face of {head.name} has both circles, and the plate cannot be changed between")
    return lines


def _circle_words(audit: IndexAudit, part: Fraction, head: Head | None) -> list[str]:
    """Say which circle makes a part of a turn exact, and whether the head has one; nothing of one too fine to drill."""
    circle = audit.circle_for(part)
    if circle is None or circle > MOST_HOLES:
        return []
    if circle == 1:
        return ["whole turns of the crank make it exact"]
    held = [] if head is None else sorted({each for _, each in head.circles() if each % circle == 0})
    if held:
        return [f"exact on a circle of {circle} holes or a multiple: this head has {', '.join(map(str, held))}"]
    none = "" if head is None else ": this head has none"
    return [f"exact on a circle of {circle} holes or a multiple{none}"]


def _beside(audit: IndexAudit, wanted: Angle, head: Head | None) -> list[str]:
    """Say how each move comes out beside an angle, and what ten of them add up to."""
    error = audit.error_beside(wanted)
    moved = sexagesimal_text(Angle(1 / audit.divisions), 1)
    if error.turns == 0:
        return [f"exact: each move is {moved}"]
    return [
        f"each move is {moved}: {arcsec_text(error)} each, {arcsec_text(Angle(error.turns * TEN))} after {TEN} moves",
        "+ the work goes too far, - it falls short; the error adds up with every move",
        *_circle_words(audit, wanted.turns, head),
    ]


def _against(audit: IndexAudit, count: int, head: Head | None) -> list[str]:
    """Say how a count comes out: whether several divisions are moved at a time, the error, marks left out."""
    lines = []
    several = audit.at_once(count)
    if several > 1:
        met = audit.marks_met(count)
        reach = "every mark is met" if met == count else f"ONLY {met} of the marks are met"
        lines.append(f"moves {several} divisions at a time, not one; {reach} in {counted(several, 'round')}")
    each, closure = audit.error_against(count)
    if each.turns == 0:
        lines.append("exact")
    else:
        lines.append(f"{arcsec_text(each)} each move, {arcsec_text(closure)} after {count}")
        meant = audit.move_for(count)
        if several == 1 and meant is not None:
            short = meant.turns - audit.move.turns if meant.spaces == audit.move.spaces else 0
            left_out = f": {counted(short, 'whole turn')} left out, perhaps" if short > 0 else ""
            lines.append(f"the move for {count} is {move_text(meant)}{left_out}")
        elif several == 1:
            lines += _circle_words(audit, Fraction(1, count), head)
    return lines


def _neighbours(audit: IndexAudit) -> list[int]:
    below = int(audit.divisions)
    return [count for count in (below, below + 1) if count > 0]


def move_audit_json(audit: IndexAudit, train: Train | None, wanted: int | Angle | None, head: Head | None) -> str:
    """Write the finding on an index setting as JSON."""
    answer: dict[str, object] = {
        "moves": [answer_json.crank_move(move) for move in audit.moves],
        "gears": None if train is None else [[pair.driver, pair.driven] for pair in train.pairs],
        "plate_turns_per_work_turn": f"{audit.plate_turns}",
        "worm_ratio": f"{audit.worm_ratio}",
        "divisions": f"{audit.divisions}",
        "divisions_without_gears": None if train is None else f"{audit.wheels_off}",
        "closes": audit.closes,
        "marks": audit.marks,
        "rounds": audit.rounds,
        "likely_counts": list(audit.likely_counts()),
    }
    if head is not None:
        answer["head"] = head.name
        answer["not_on_head"] = lacking_on(head, audit)
    if isinstance(wanted, Angle):
        answer["against_turns_of_work"] = f"{wanted.turns}"
        answer["error_arcsec_per_move"] = f"{audit.error_beside(wanted).arcsec}"
        answer["circle_needed"] = audit.circle_for(wanted.turns)
    elif wanted is not None:
        each, closure = audit.error_against(wanted)
        answer["against"] = wanted
        answer["divisions_per_move"] = audit.at_once(wanted)
        answer["marks_met"] = audit.marks_met(wanted)
        answer["error_arcsec_per_move"] = f"{each.arcsec}"
        answer["error_arcsec_at_closure"] = f"{closure.arcsec}"
        meant = audit.move_for(wanted)
        answer["circle_needed"] = audit.circle_for(Fraction(1, wanted))
        answer["move_for_count"] = None if meant is None else answer_json.crank_move(meant)
    return answer_json.as_text(answer)
