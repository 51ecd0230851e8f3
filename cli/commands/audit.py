"""``audit``: what a train, an index setting, or a whole threading chart really gives."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

import click

from cli.drawing_words import remark_hand_unused, remark_outside
from cli.setting_kind import means_move
from cli.shop_options import (
    chosen_lathe,
    draw_option,
    draw_set_up,
    force_option,
    json_option,
    lathe_option,
    named_head,
    read_engaged,
    refuse_drawing,
    remark_assumed,
)
from solver.dividing.plate_gearing import AGAINST, FOLLOWS
from solver.quantities.lengths import Length
from solver.quantities.written_errors import read_within
from solver.quantities.written_lengths import read_ratio
from solver.refusals import ImpossibleSettingError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from solver.dividing.heads import Head
    from solver.quantities.angles import Angle
    from solver.quantities.pitches import Pitch
    from solver.trains.chain import Idler
    from solver.trains.lathe import Lathe
    from solver.trains.wheels import Train


#: Error of a chart row that is taken as agreeing, and the largest that still tells neighbours apart.
USUAL_WITHIN = "1000 ppm"
#: Series whose pitches nobody sets a gearbox for.
SELDOM = {"Thury", "watch plate", "Loewenherz", "instrument", "BSC"}
LARGEST_WITHIN = Fraction(1, 50)


@click.command("audit", short_help="What a train, an index setting or a chart really gives.")
@click.argument("setting", nargs=-1, required=True, metavar="TRAIN|MOVE|CHART.csv")
@lathe_option
@click.option("--lever", metavar="NAME", help="Gearbox position, on a lathe that has a box.")
@click.option(
    "--against",
    "against_text",
    metavar="PITCH|N|ANGLE",
    help="What it should have been: a pitch for a train, a number of divisions or an angle for an index setting.",
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
    "--wheels",
    "wheels_text",
    metavar="TRAIN",
    help="Wheels that gear the plate, driver-driven from the work spindle, idlers left out: 56-24.",
)
@click.option(
    "--plate",
    "plate_word",
    type=click.Choice([FOLLOWS, AGAINST]),
    help="With --wheels: the plate follows the crank, or turns against it.",
)
@click.option(
    "--idlers",
    type=click.IntRange(0, 4),
    metavar="N",
    help="With --wheels, in place of --plate: idlers in the train.",
)
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
    wheels_text: str | None,
    plate_word: str | None,
    idlers: int | None,
    as_json: bool,
) -> int:
    """Work a setting forwards: the lead a train cuts, the count an index move divides, or every row of a chart.

    A train is driver-driven-driver-driven from the spindle side, idlers in brackets: 50-(100)-127. An index move
    is spaces on a circle, or on two. One stroke alone, as 20/80, could be either and is asked.

    A chart is a CSV file, named by its path (audit chart.csv), whose first line names its columns: thread,train
    or thread,stud,screw; tpi or mm may stand for thread, and lever, idler and note may follow. With a lathe
    named, each row is judged by that lathe; without, by the constant (leadscrew × fixed ratio) most rows agree
    under. The exit status of a chart is 1 when some rows do not cut what they say.

    \b
    Example:
      halfnut audit 40-80-50-127 --lathe inch-8 --against 0.6mm
      halfnut audit 9 on 21 --worm-ratio 40
      halfnut audit "1 turn + 7 on 39 + 29 on 41" --against 106
      halfnut audit "1 on 23" --against "24 min"
      halfnut audit 13 on 39 --wheels 56-24 --plate against
    """
    if len(setting) == 1 and _is_file(setting[0]):
        _refuse_foreign(
            "a chart",
            {
                "--lever": lever,
                "--against": against_text,
                "--head": head_word,
                "--worm-ratio": ratio_text,
                "--wheels": wheels_text,
                "--plate": plate_word,
                "--idlers": None if idlers is None else str(idlers),
                "--draw": draw_to,
            },
        )
        return _audit_chart(setting[0], lathe_word, within_text or USUAL_WITHIN, length_text, as_json=as_json)
    text = " ".join(setting)
    of_train = {"--lathe": lathe_word, "--lever": lever, "--length": length_text, "--draw": draw_to}
    of_move = {
        "--head": head_word,
        "--worm-ratio": ratio_text,
        "--wheels": wheels_text,
        "--plate": plate_word,
        "--idlers": None if idlers is None else str(idlers),
    }
    is_move = means_move(text, of_train, of_move, against_text)
    foreign = of_train if is_move else of_move
    _refuse_foreign("an index move" if is_move else "a train", {**foreign, "--within": within_text})
    if is_move:
        worm = _worm(head_word, ratio_text)
        gears = _gears(worm[1], wheels_text, plate_word, idlers)
        return _audit_move(text, worm, gears, against_text, as_json=as_json)
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
    length_text: str | None,
    draw_to: str | None,
    *,
    force: bool,
    as_json: bool,
) -> int:
    from cli.views import audit_screen
    from gearsets.designations import read_lead_wanted
    from solver.trains.train_audit import audit_train
    from solver.trains.written_trains import read_set_up

    lathe, assumed = chosen_lathe(lathe_word)
    train, idlers = read_set_up(text, lathe.wheel_classes)
    if draw_to:
        refuse_drawing(draw_to, force=force)
    wanted, thread = read_lead_wanted(against_text) if against_text else (None, None)
    engaged = read_engaged(length_text or "1 in")
    if lever is None and lathe.levers and not draw_to:
        if length_text is not None:
            raise click.UsageError("--length needs --lever: where no position is named, errors are told in ppm alone.")
        _audit_at_every_lever(train, idlers, lathe, wanted, as_json=as_json)
        remark_assumed("lathe", lathe.name, assumed=assumed)
        return 0
    try:
        audit = audit_train(train, lathe, lever, wanted.lead if wanted else None, idlers)
    except ImpossibleSettingError as refusal:
        # Its only refusal is a lever that is missing or not on the lathe: a slip in the request.
        raise click.UsageError(f"{refusal} Name it with --lever." if lever is None else str(refusal)) from refusal
    remark_assumed("lathe", lathe.name, assumed=assumed)
    if against_text:
        remark_hand_unused([against_text])
        remark_outside(thread)
    if draw_to:
        draw_set_up(audit.answer, lathe, draw_to)
    if as_json:
        click.echo(audit_screen.train_audit_json(audit, lathe, wanted))
    else:
        audit_screen.show_train_audit(audit, lathe, wanted, engaged)
    return 0


def _audit_at_every_lever(
    train: Train, idlers: Sequence[Idler], lathe: Lathe, wanted: Pitch | None, *, as_json: bool
) -> None:
    """Tell what a train cuts at every position of the gearbox, where none was named."""
    from cli.views import lever_screen
    from gearsets.pitch_lists import known_pitches
    from solver.trains.lever_table import lever_table
    from solver.trains.train_audit import audit_train

    threads = [
        each for each in known_pitches("thread") if isinstance(each.pitch, Length) and not {*each.found_in} <= SELDOM
    ]
    rows = lever_table(train, lathe, threads, wanted.lead if wanted else None)
    if as_json:
        click.echo(lever_screen.levers_json(lathe, train, rows, wanted))
    else:
        audit = audit_train(train, lathe, rows[0].lever, idlers=idlers)
        lever_screen.show_levers(audit, lathe, rows, wanted)


def _audit_move(
    text: str,
    worm: tuple[Fraction, Head | None],
    gears: tuple[Train, Fraction] | None,
    against_text: str | None,
    *,
    as_json: bool,
) -> int:
    from cli.views import index_audit_screen
    from solver.dividing.index_audit import audit_move
    from solver.dividing.written_moves import read_moves

    ratio, head = worm
    first, *rest = read_moves(text)
    second = rest[0] if rest else None
    if gears is not None and second is not None:
        raise click.UsageError(
            "A geared plate and a second circle do not go together: the stop pin is out, or it is in."
        )
    train, plate_turns = gears or (None, Fraction(0))
    audit = audit_move(first, ratio, second=second, plate_turns=plate_turns)
    wanted = _count_or_angle(against_text) if against_text else None
    if as_json:
        click.echo(index_audit_screen.move_audit_json(audit, train, wanted, head))
    else:
        index_audit_screen.show_move_audit(audit, (first, *rest), train, wanted, head)
    return 0


def _worm(head_word: str | None, ratio_text: str | None) -> tuple[Fraction, Head | None]:
    if head_word and ratio_text:
        raise click.UsageError("Give --head or --worm-ratio; one of the two.")
    if ratio_text:
        return read_ratio(ratio_text), None
    head = named_head(head_word)
    return (Fraction(40), None) if head is None else (head.worm_ratio, head)


def _gears(
    head: Head | None, wheels_text: str | None, plate_word: str | None, idlers: int | None
) -> tuple[Train, Fraction] | None:
    """Read how the plate is geared: the train, and turns of the plate for one of the work, signed."""
    if wheels_text is None:
        if plate_word is not None or idlers is not None:
            raise click.UsageError("--plate and --idlers say how wheels turn the plate: give --wheels too.")
        return None
    if (plate_word is None) == (idlers is None):
        raise click.UsageError("With --wheels give --plate, which way the plate turns, or --idlers; one of the two.")
    from solver.dividing.plate_gearing import plate_follows
    from solver.trains.written_trains import read_train

    train = read_train(wheels_text)
    if idlers is None:
        follows = plate_word == FOLLOWS
    else:
        rule = head.one_idler_follows if head is not None else None
        follows = plate_follows(len(train.pairs), idlers, one_idler_follows=rule is not False)
        if rule is None:
            click.echo("One idler in a simple train is taken to make the plate follow the crank.", err=True)
    if head is not None:
        _remark_missing(head, train)
    return train, train.ratio if follows else -train.ratio


def _remark_missing(head: Head, train: Train) -> None:
    held = dict(head.wheels)
    teeth = [teeth for _, teeth in train.wheels]
    missing = sorted({each for each in teeth if teeth.count(each) > held.get(each, 0)})
    if missing:
        click.echo(f"The box of {head.name} has not enough wheels of {', '.join(map(str, missing))} teeth.", err=True)


def _count_or_angle(text: str) -> int | Angle:
    """Read what an index setting should have given: a number of divisions, or an angle with its unit."""
    if text.isascii() and text.isdigit():
        if int(text[:12]) > 0 and len(text) <= 9:
            return int(text)
        raise click.UsageError(f"--against takes a number of divisions here, not {text[:40]!r}.")
    from solver.quantities.written_angles import read_angle

    angle = read_angle(text)
    if angle.turns == 0:
        raise click.UsageError("--against takes an angle above zero, such as '24 min'.")
    return angle
