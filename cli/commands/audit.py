"""``audit``: what a train, or an index setting, really gives."""

from __future__ import annotations

from fractions import Fraction

import click

from cli.shop_options import (
    chosen_lathe,
    json_option,
    lathe_option,
    length_option,
    read_engaged,
    remark_assumed,
)
from solver.quantities.written_lengths import read_ratio


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
@length_option
@click.option("--head", "head_word", metavar="NAME|FILE", help="Head of the index setting, for its worm ratio.")
@click.option("--worm-ratio", "ratio_text", metavar="R", help="Worm ratio of the index setting. [default: 40]")
@json_option
def command(
    *,
    setting: tuple[str, ...],
    lathe_word: str | None,
    lever: str | None,
    against_text: str | None,
    length_text: str,
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
    if "on" in words or "turn" in words or "turns" in words:
        return _audit_move(text, head_word, ratio_text, against_text, as_json=as_json)
    return _audit_train(text, lathe_word, lever, against_text, length_text, as_json=as_json)


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
    audit = audit_train(train, lathe, lever, wanted.lead if wanted else None)
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
    audit = audit_move(move, _worm_ratio(head_word, ratio_text))
    wanted = _count(against_text) if against_text else None
    if as_json:
        click.echo(audit_screen.move_audit_json(audit, wanted))
    else:
        audit_screen.show_move_audit(audit, wanted)
    return 0


def _worm_ratio(head_word: str | None, ratio_text: str | None) -> Fraction:
    if head_word and ratio_text:
        raise click.UsageError("Give --head or --worm-ratio; one of the two.")
    if head_word:
        from gearsets.head_files import find_head

        return find_head(head_word).worm_ratio
    return read_ratio(ratio_text) if ratio_text else Fraction(40)


def _count(text: str) -> int:
    if not (text.isascii() and text.isdigit() and int(text[:12]) > 0 and len(text) <= 9):
        raise click.UsageError(f"--against takes a number of divisions here, not {text[:40]!r}.")
    return int(text)
