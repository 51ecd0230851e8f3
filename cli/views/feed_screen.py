"""The terminal screen and the JSON of ``feed``."""

from __future__ import annotations

from cli.views import answer_json
from cli.views.banjo_sketch import set_up_text, stack_rows
from cli.views.cautions import DEFER, coarse_cautions
from cli.views.screen import answers_table, console, facts_table, print_answers, print_list
from cli.views.shop_figures import approximate, length_text, signed
from cli.views.tool_travel_text import feed_travel_text
from cli.views.train_screen import back_lines, changes_text, proof_text, verdict_text
from solver.quantities.lengths import Length
from solver.trains.lathe import Lathe
from solver.trains.train_answer import TrainAnswer
from solver.trains.train_search import TrainReport

#: Facts of a train that concern threads alone.
OF_THREADS = ("exact", "half_nut")
#: Fewest spindle turns of the early check.
LEAST_TURNS = 10
#: A feed picks up no groove.
NUT_OF_A_FEED = "may be opened anywhere: a feed picks up no groove"


def show_feed(feed: Length | None, lathe: Lathe, report: TrainReport) -> None:
    """Print the train of a feed and the others as near, or the nearest there is."""
    out = console()
    out.print(facts_table(feed_rows(feed, lathe)))
    first = next(iter(report.answers), report.nearest)
    if first is None:
        out.print("\nNo train can be made of these wheels.")
        return
    out.print()
    out.print("MOUNT" if report.answers else "NEAREST, not an answer", style="bold")
    out.print(facts_table([*_train_rows(first, lathe), *gives_rows(feed, first, lathe)]))
    if lines := put_back(first, report):
        print_list(out, f"From {report.question.mounted}, which is mounted now", lines)
    if report.answers:
        heads = [("Train", "left"), ("mm a turn", "right"), ("in a turn", "right"), ("Goes on", "left")]
        if feed is not None:
            heads.insert(3, ("Off, %", "right"))
        table = answers_table(heads)
        for each in report.answers:
            lever = f", lever {each.lever}" if each.lever else ""
            lead = each.cut_lead
            name = f"{set_up_text(each.train, each.idlers)}{lever}"
            off = [] if feed is None else [_percent(lead, feed)]
            table.add_row(name, approximate(lead.mm, 4), approximate(lead.inches, 5), *off, each.mounting.verdict.value)
        out.print()
        out.print(_order_text(feed, report), style="bold")
        print_answers(out, table)
    print_list(out, "Early check, before metal is cut", feed_checks(first))
    print_list(out, "Cautions", feed_cautions(first, lathe))


def _order_text(feed: Length | None, report: TrainReport) -> str:
    if feed is None:
        return "The finest, then the next"
    first = "Fewest wheels handled first" if report.question.mounted is not None else "Fewest pairs first"
    return f"{first}, then the nearest"


def _percent(lead: Length, feed: Length) -> str:
    return signed((lead.mm / feed.mm - 1) * 100) if lead != feed else "0"


def no_feed_text(feed: Length | None, report: TrainReport, within: str) -> str:
    """Say why there is no answer, and what would help."""
    within += " for" if within == "exact" else " of"
    pairs = f"up to {report.question.most_pairs} pairs" if report.question.most_pairs > 1 else "one pair"
    if feed is None:
        return f"No train of {pairs} is known to go on: look at the wheels and the [banjo] of the lathe file."
    nearest = "" if report.nearest is None else "; the nearest that does is shown"
    if report.nearest is not None and report.nearest.cut_lead > feed:
        return (
            f"No train of {pairs} that goes on is {within} so fine a feed{nearest}. 'halfnut feed' without FEED "
            "tells the finest."
        )
    help_text = "A larger --within or more --pairs may help."
    return f"No train of {pairs} that goes on is {within} this feed{nearest}. {help_text}"


def feed_rows(feed: Length | None, lathe: Lathe) -> list[tuple[str, str]]:
    """Echo what was asked."""
    asked = "the finest that goes on" if feed is None else f"{length_text(feed)} for each turn of the work"
    return [("Feed", asked), ("Lathe", lathe.name)]


def _train_rows(first: TrainAnswer, lathe: Lathe) -> list[tuple[str, str]]:
    lever = [("Lever", first.lever)] if first.lever else []
    token = f"{set_up_text(first.train, first.idlers)}   (driver-driven, spindle side first)"
    return [("Train", token), *stack_rows(first, lathe), *lever]


def gives_rows(feed: Length | None, first: TrainAnswer, lathe: Lathe) -> list[tuple[str, str]]:
    """Say what the train feeds, how far that is from what was wanted, and whether and how it goes on."""
    rows = [("Gives", f"{length_text(first.cut_lead)} for each turn"), ("Proof", proof_text(first, lathe))]
    if feed is not None:
        off = first.cut_lead.mm / feed.mm - 1
        side = "coarser" if off > 0 else "finer"
        rows.append(("Off", "as wanted" if off == 0 else f"{signed(off * 100)} %, {side} than wanted"))
    return [
        *rows,
        ("Goes on", verdict_text(first)),
        ("Tool goes", feed_travel_text(first.hand.hand, lathe)),
        ("Half-nut", NUT_OF_A_FEED),
    ]


def put_back(first: TrainAnswer, report: TrainReport) -> list[str]:
    """Say which wheels change for the feed and go back after it."""
    mounted = report.question.mounted
    return [] if mounted is None else [changes_text(mounted, first.train), *back_lines(mounted, first.train)]


def feed_checks(first: TrainAnswer) -> list[str]:
    """Say what some spindle turns must do: so many that a rule shows it."""
    turns = LEAST_TURNS
    while first.cut_lead.mm * turns < 1:
        turns *= 10
    return [
        f"{turns} spindle turns move the carriage {length_text(first.cut_lead * turns)}: watch a mark on the bed.",
        "Turn the spindle by hand first: if the carriage runs off, drivers and driven are exchanged.",
    ]


def feed_cautions(first: TrainAnswer, lathe: Lathe) -> tuple[str, ...]:
    """List the cautions of a train that feeds."""
    return (
        "Isolate the machine before hands go near the wheels; refit the guard before power.",
        "Turn the whole train one round by hand first; check nuts, keys and play in each mesh.",
        *coarse_cautions(first, lathe),
        "Half-nut and any power feed of its own never together; open the nut well before shoulder, chuck or stop.",
        "For a thread the wheels are changed back first: a feed train left on cuts no pitch of the chart. " + DEFER,
    )


def feed_json(feed: Length | None, lathe: Lathe, report: TrainReport) -> str:
    """Write the answer of ``feed`` as JSON."""
    mounted = report.question.mounted
    return answer_json.as_text(
        {
            "asked": {"feed_mm": None if feed is None else f"{feed.mm}", "mounted": str(mounted) if mounted else None},
            "lathe": lathe.name,
            "answers": [_answer(each, feed, report) for each in report.answers],
            "nearest": _answer(report.nearest, feed, report) if report.nearest else None,
        }
    )


def _answer(answer: TrainAnswer, feed: Length | None, report: TrainReport) -> dict[str, object]:
    """Describe one train; its error of lead is told as a part of the feed alone."""
    told = answer_json.train_answer(answer, report.question.mounted)
    told = {name: value for name, value in told.items() if "error" not in name and name not in OF_THREADS}
    off = None if feed is None else f"{answer.cut_lead.mm / feed.mm - 1}"
    return {**told, "feed_mm": f"{answer.cut_lead.mm}", "off": off}
