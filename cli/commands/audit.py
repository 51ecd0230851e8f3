"""``audit``: what a train, or an index setting, really gives."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import click

from cli.shop_options import (
    chosen_lathe,
    json_option,
    lathe_option,
    named_head,
    read_engaged,
    remark_assumed,
)
from solver.quantities.written_lengths import read_ratio
from solver.refusals import ImpossibleSettingError

if TYPE_CHECKING:
    from solver.dividing.moves import CrankMove


@click.command("audit", short_help="What a train or an index setting really gives.")
@click.argument("setting", nargs=-1, required=True)
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
    as_json: bool,
) -> int:
    """Work a setting forwards: the lead a train cuts, or the count an index move divides.

    A train is driver-driven-driver-driven from the spindle side; an index move is spaces on a circle.

    \b
    Example:
      halfnut audit 40-80-50-127 --lathe inch-8 --against 0.6mm
      halfnut audit 9 on 21 --worm-ratio 40
    """
    text = " ".join(setting)
    words = text.lower().split()
    if not words:
        raise click.UsageError("Nothing is written: give a train such as 40-80-50-127, or a move such as '9 on 21'.")
    is_move = "on" in words or "turn" in words or "turns" in words
    _refuse_foreign(
        "an index move" if is_move else "a train",
        {"--lathe": lathe_word, "--lever": lever, "--length": length_text}
        if is_move
        else {"--head": head_word, "--worm-ratio": ratio_text},
    )
    if is_move:
        return _audit_move(text, head_word, ratio_text, against_text, as_json=as_json)
    return _audit_train(text, lathe_word, lever, against_text, length_text or "1 in", as_json=as_json)


def _refuse_foreign(setting: str, options: dict[str, str | None]) -> None:
    """Refuse options that belong to the other kind of setting."""
    given = [name for name, word in options.items() if word is not None]
    if given:
        does = "does" if len(given) == 1 else "do"
        raise click.UsageError(f"{' and '.join(given)} {does} not go with {setting}.")


def _audit_train(
    text: str,
    lathe_word: str | None,
    lever: str | None,
    against_text: str | None,
    length_text: str,
    *,
    as_json: bool,
) -> int:
    from cli.views import audit_screen
    from gearsets.designations import read_thread_or_pitch
    from solver.trains.train_audit import audit_train
    from solver.trains.written_trains import read_train

    lathe, assumed = chosen_lathe(lathe_word)
    train = read_train(text, lathe.wheel_classes)
    wanted = read_thread_or_pitch(against_text)[0] if against_text else None
    engaged = read_engaged(length_text)
    try:
        audit = audit_train(train, lathe, lever, wanted.lead if wanted else None)
    except ImpossibleSettingError as refusal:
        # Its only refusal is a lever that is missing or not on the lathe: a slip in the request.
        raise click.UsageError(f"{refusal} Name it with --lever." if lever is None else str(refusal)) from refusal
    remark_assumed("lathe", lathe.name, assumed=assumed)
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
    circles = {circle for _, circle in head.circles()} if head.has_worm else set(head.direct_circles)
    if move.spaces and move.circle not in circles:
        click.echo(f"No plate of {head.name} has a circle of {move.circle} holes.", err=True)
    return head.worm_ratio


def _count(text: str) -> int:
    if not (text.isascii() and text.isdigit() and int(text[:12]) > 0 and len(text) <= 9):
        raise click.UsageError(f"--against takes a number of divisions here, not {text[:40]!r}.")
    return int(text)
