"""``audit``: what a train, an index setting, or a whole threading chart really gives."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

import click

from cli.shop_options import (
    chosen_lathe,
    draw_option,
    draw_set_up,
    force_option,
    json_option,
    lathe_option,
    named_head,
    read_engaged,
    read_within,
    refuse_overwriting,
    remark_assumed,
)
from solver.quantities.written_lengths import read_ratio
from solver.refusals import ImpossibleSettingError

if TYPE_CHECKING:
    from solver.dividing.moves import CrankMove


#: Error of a chart row that is taken as agreeing, and the largest that still tells neighbours apart.
USUAL_WITHIN = "1000 ppm"
LARGEST_WITHIN = Fraction(1, 50)


@click.command("audit", short_help="What a train, an index setting or a chart really gives.")
@click.argument("setting", nargs=-1, required=True, metavar="TRAIN|MOVE|CHART.csv")
@lathe_option
@click.option("--lever", metavar="NAME", help="Gearbox position, on a lathe that has a box.")
@click.option(
    "--against",
    "against_text",
    metavar="PITCH|N",
    help="What it should have been: a pitch for a train, a number of divisions for an index setting.",
)
@click.option(
    "--length",
    "length_text",
    metavar="LENGTH",
    help="Engaged length over which the error of a train is told. [default: 1 in]",
)
@click.option(
    "--head",
    "head_word",
    metavar="NAME|FILE",
    help="Head of the index setting, for its worm ratio. [default: $HALFNUT_HEAD]",
)
@click.option("--worm-ratio", "ratio_text", metavar="R", help="Worm ratio of the index setting. [default: 40]")
@click.option(
    "--within",
    "within_text",
    metavar="ERROR",
    help=f"Largest error of a chart row that counts as agreeing: '200 ppm', '0.1 %'. [default: {USUAL_WITHIN}]",
)
@draw_option
@force_option
@json_option
def command(
    *,
    setting: tuple[str, ...],
    lathe_word: str | None,
    lever: str | None,
    against_text: str | None,
    length_text: str | None,
    head_word: str | None,
    ratio_text: str | None,
    within_text: str | None,
    draw_to: str | None,
    force: bool,
    as_json: bool,
) -> int:
    """Work a setting forwards: the lead a train cuts, the count an index move divides, or every row of a chart.

    A train is driver-driven-driver-driven from the spindle side, idlers in brackets: 50-(100)-127. An index move
    is spaces on a circle.

    A chart is a CSV file, named by its path (audit chart.csv), whose first line names its columns: thread,train
    or thread,stud,screw; tpi or mm may stand for thread, and lever, idler and note may follow. With a lathe
    named, each row is judged by that lathe; without, by the constant (leadscrew x fixed ratio) most rows agree
    under. The exit status of a chart is 1 when some rows do not cut what they say.

    \b
    Example:
      halfnut audit 40-80-50-127 --lathe inch-8 --against 0.6mm
      halfnut audit 9 on 21 --worm-ratio 40
    """
    if len(setting) == 1 and _is_file(setting[0]):
        _refuse_foreign(
            "a chart",
            {
                "--lever": lever,
                "--against": against_text,
                "--head": head_word,
                "--worm-ratio": ratio_text,
                "--draw": draw_to,
            },
        )
        return _audit_chart(setting[0], lathe_word, within_text or USUAL_WITHIN, length_text, as_json=as_json)
    text = " ".join(setting)
    words = text.lower().split()
    if not words:
        raise click.UsageError("Nothing is written: give a train such as 40-80-50-127, or a move such as '9 on 21'.")
    is_move = "on" in words or "turn" in words or "turns" in words
    _refuse_foreign(
        "an index move" if is_move else "a train",
        {
            "--lathe": lathe_word,
            "--lever": lever,
            "--length": length_text,
            "--within": within_text,
            "--draw": draw_to,
        }
        if is_move
        else {"--head": head_word, "--worm-ratio": ratio_text, "--within": within_text},
    )
    if is_move:
        return _audit_move(text, head_word, ratio_text, against_text, as_json=as_json)
    length_text = length_text or "1 in"
    return _audit_train(text, lathe_word, lever, against_text, length_text, draw_to, force=force, as_json=as_json)


def _refuse_foreign(setting: str, options: dict[str, str | None]) -> None:
    """Refuse options that belong to the other kind of setting."""
    given = [name for name, word in options.items() if word is not None]
    if given:
        does = "does" if len(given) == 1 else "do"
        raise click.UsageError(f"{' and '.join(given)} {does} not go with {setting}.")


def _is_file(word: str) -> bool:
    """Say whether a word names a chart: by its ending, or because such a file is there."""
    if word.strip().lower().endswith(".csv"):
        return True
    try:
        return Path(word).is_file()
    except (OSError, ValueError):
        return False


def _audit_chart(path: str, lathe_word: str | None, within_text: str, length_text: str | None, *, as_json: bool) -> int:
    from cli.views import chart_screen
    from gearsets.chart_files import check_levers, read_chart
    from solver.trains.chart_audit import audit_chart

    named, assumed = chosen_lathe(lathe_word)
    # A chart tells its own constant; a lathe that nobody named would only be in the way.
    lathe = None if assumed else named
    if length_text is not None and ("ppm" in within_text or "%" in within_text):
        raise click.UsageError("--length goes with a chart only where --within is a length, such as '5 um'.")
    within = read_within(within_text, read_engaged(length_text or "1 in"))
    if within > LARGEST_WITHIN:
        raise click.UsageError("--within is 2 % at most for a chart: beyond it one row would pass for its neighbour.")
    rows = read_chart(path, lathe.wheel_classes if lathe else ())
    if lathe is not None:
        check_levers(rows, lathe, path)
    sheets = audit_chart(rows, within, lathe)
    if as_json:
        click.echo(chart_screen.chart_json(path, sheets, lathe, within))
    else:
        chart_screen.show_chart(path, sheets, lathe, within)
    return 0 if all(sheet.all_true for sheet in sheets) else 1


def _audit_train(
    text: str,
    lathe_word: str | None,
    lever: str | None,
    against_text: str | None,
    length_text: str,
    draw_to: str | None,
    *,
    force: bool,
    as_json: bool,
) -> int:
    from cli.views import audit_screen
    from gearsets.designations import read_thread_or_pitch
    from solver.trains.train_audit import audit_train
    from solver.trains.written_trains import read_set_up

    lathe, assumed = chosen_lathe(lathe_word)
    train, idlers = read_set_up(text, lathe.wheel_classes)
    if draw_to:
        refuse_overwriting(draw_to, force=force)
    wanted = read_thread_or_pitch(against_text)[0] if against_text else None
    engaged = read_engaged(length_text)
    try:
        audit = audit_train(train, lathe, lever, wanted.lead if wanted else None, idlers)
    except ImpossibleSettingError as refusal:
        # Its only refusal is a lever that is missing or not on the lathe: a slip in the request.
        raise click.UsageError(f"{refusal} Name it with --lever." if lever is None else str(refusal)) from refusal
    remark_assumed("lathe", lathe.name, assumed=assumed)
    if draw_to:
        draw_set_up(audit.answer, lathe, draw_to)
    if as_json:
        click.echo(audit_screen.train_audit_json(audit, lathe, wanted))
    else:
        audit_screen.show_train_audit(audit, lathe, wanted, engaged)
    return 0


def _audit_move(
    text: str, head_word: str | None, ratio_text: str | None, against_text: str | None, *, as_json: bool
) -> int:
    from cli.views import audit_screen
    from solver.dividing.index_audit import audit_move
    from solver.dividing.written_moves import read_move

    move = read_move(text)
    audit = audit_move(move, _worm_ratio(head_word, ratio_text, move.carried()))
    wanted = _count(against_text) if against_text else None
    if as_json:
        click.echo(audit_screen.move_audit_json(audit, wanted))
    else:
        audit_screen.show_move_audit(audit, move, wanted)
    return 0


def _worm_ratio(head_word: str | None, ratio_text: str | None, move: CrankMove) -> Fraction:
    if head_word and ratio_text:
        raise click.UsageError("Give --head or --worm-ratio; one of the two.")
    if ratio_text:
        return read_ratio(ratio_text)
    head = named_head(head_word)
    if head is None:
        return Fraction(40)
    if move.spaces and move.circle not in {circle for _, circle in head.circles()}:
        click.echo(f"No plate of {head.name} has a circle of {move.circle} holes.", err=True)
    return head.worm_ratio


def _count(text: str) -> int:
    if not (text.isascii() and text.isdigit() and int(text[:12]) > 0 and len(text) <= 9):
        raise click.UsageError(f"--against takes a number of divisions here, not {text[:40]!r}.")
    return int(text)
