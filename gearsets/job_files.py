"""Jobs: the parts of one sitting with the lathe and head they are made on, read with all faults at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from pathlib import Path
from typing import NamedTuple, TypeVar

from gearsets.file_faults import Fault, FileFaultsError, read_text_file
from gearsets.head_files import find_head
from gearsets.job_links import note_unknown, numbers_of_names, numbers_waited_for
from gearsets.job_parts import KINDS, Divided, Turned, WheelOf, WheelPart, WormPart, read_product
from gearsets.lathe_files import find_lathe
from gearsets.name_lookup import Shelf, UnknownNameError, unknown_name
from gearsets.toml_tables import TomlTable, parse_toml
from solver.dividing.heads import Head
from solver.dividing.moves import Method
from solver.quantities.lengths import Length
from solver.quantities.written_angles import read_angle
from solver.quantities.written_errors import read_within, says_exact
from solver.quantities.written_lengths import read_length
from solver.refusals import RefusalError, UnreadableFigureError
from solver.trains.chain import Idler
from solver.trains.lathe import Lathe
from solver.trains.wheels import Train
from solver.trains.written_trains import read_set_up

#: Where job files stand.
JOBS = Shelf("job", "jobs")
#: Most parts of one job, and of one part to be made.
MOST_PARTS = 40
MOST_ALIKE = 10_000
#: Largest file read, so that one of far too many parts is told so. [bytes]
LARGEST_JOB = 1_000_000
#: Most pairs of wheels in a train, and what is usual.
MOST_PAIRS = 3
USUAL_PAIRS = 2
USUAL_LENGTH = Length.of_inches(1)
USUAL_WITHIN = "1000 ppm"
_BARE = Lathe("", "", Length.of_mm(1), Fraction(1), has_reverse=False, wheel_classes=())

Equipment = TypeVar("Equipment")


class JobPart(NamedTuple):
    """One part of a job.

    Parameters
    ----------
    name : str
        Its own name in the job.
    product : Turned or Divided
        What it is, with every figure that follows from it.
    after : tuple of int
        Parts that come before it, by their number from 0.
    within : Fraction
        Largest error: a part of the lead, or for a divided part of a turn at closure.
    pairs : int
        Most pairs of wheels of its train.
    method : Method or None
        The only method of dividing, where the file names one.
    quantity : int
        How many are made in the same set-up.
    note : str
        What the file remarks.
    length : Length
        Engaged length over which the error is told.
    """

    name: str
    product: Turned | Divided
    after: tuple[int, ...]
    within: Fraction
    pairs: int
    method: Method | None
    quantity: int
    note: str
    length: Length


class Job(NamedTuple):
    """The parts of one sitting.

    Parameters
    ----------
    name : str
        How the owner calls it.
    lathe : Lathe or None
        ``None`` where nothing is turned.
    head : Head or None
        ``None`` where nothing is divided.
    parts : tuple of JobPart
        In the order of the file.
    mounted : (Train, tuple of Idler) or None
        What stands on the banjo to begin with.
    has_one_box : bool
        The head is geared with the lathe's wheels.
    head_word : str
        What the file names its head by, for commands that are to answer for the same one; empty without a head.
    """

    name: str
    lathe: Lathe | None
    head: Head | None
    parts: tuple[JobPart, ...]
    mounted: tuple[Train, tuple[Idler, ...]] | None
    has_one_box: bool
    head_word: str = ""


def job_names() -> tuple[str, ...]:
    """Return the names of the shipped jobs, sorted.

    Examples
    --------
    >>> job_names()
    ('tellurion',)
    """
    return JOBS.shipped_names()


def find_job(word: str, environ: Mapping[str, str] | None = None) -> Job:
    """Load the job a word means: a path, else a person's own file, else a shipped one.

    Raises
    ------
    UnknownNameError
        Nothing goes by that name.
    FileFaultsError
        With every fault of the file.

    Examples
    --------
    >>> find_job("tellurion").lathe.leadscrew_text
    '8 tpi'
    """
    try:
        path = JOBS.find(word, environ)
    except UnknownNameError:
        names = (*JOBS.own_names(environ), *JOBS.shipped_names())
        raise unknown_name("job", word, names, listing="Give the path of a file that ends in .toml.") from None
    return load_job_text(read_text_file(path, largest=LARGEST_JOB), str(path), path.parent, environ)


def load_job_text(text: str, where: str, folder: Path | None = None, environ: Mapping[str, str] | None = None) -> Job:
    r"""Load a job from the text of a file.

    Parameters
    ----------
    text : str
        The whole file.
    where : str
        How the person named it, for messages.
    folder : Path, optional
        Where paths of lathe and head begin.
    environ : mapping, optional
        The environment; the process's own when left out.

    Returns
    -------
    Job
        The job.

    Raises
    ------
    FileFaultsError
        With every fault of the file.

    Examples
    --------
    >>> load_job_text('name = "a"\nlathe = "inhc-8"\n[[parts]]\nname = "b"\nthread = "M6"\nafter = ["b"]', "mine.toml")
    Traceback (most recent call last):
    gearsets.file_faults.FileFaultsError: 2 faults in mine.toml:
      parts[1].after (line 6): goes round in a ring: b waits for itself; leave one of them out
      lathe (line 2): no lathe is called 'inhc-8'; near names: inch-8, inch-4; all of them: halfnut lathe list
    """
    root = parse_toml(text, where)
    _refuse_too_many(root, where)
    name = root.text("name", example="Tellurion")
    usual = _Usual.read(root)
    tables = root.tables("parts")
    if not tables:
        root.fault("parts", "are missing", "write [[parts]] above each, with its name and what it is")
    read = [_part(table, usual) for table in tables]
    parts = _linked(tables, read)
    is_turned = any(table.has("thread") or table.has("worm") for table in tables)
    is_divided = any(table.has(kind) for table in tables for kind in KINDS[2:])
    lathe = _found(root, "lathe", "inch-8", find_lathe, folder, environ, is_needed=is_turned)
    head = _found(root, "head", "head-40-three-plates", find_head, folder, environ, is_needed=is_divided)
    mounted = _mounted(root, lathe)
    has_one_box = root.flag("one_box")
    if has_one_box and not (root.has("lathe") and root.has("head")):
        root.fault("one_box", "is of a lathe and a head together", "name both, or leave it out")
    root.finish()
    head_word = "" if head is None else _from_folder(root.text("head", example=""), folder)
    return Job(name, lathe, head, parts, mounted, has_one_box, head_word)


def _refuse_too_many(root: TomlTable, where: str) -> None:
    count = root.count("parts")
    if count > MOST_PARTS:
        problem = f"has {count:,} parts; a job takes {MOST_PARTS} at most"
        raise FileFaultsError(where, (Fault("parts", problem, "make several jobs of it, one for each sitting"),))


class _Usual(NamedTuple):
    """What holds for the parts that say nothing else."""

    within: str
    pairs: int
    length: Length

    @classmethod
    def read(cls, root: TomlTable) -> _Usual:
        """Read what stands at the head of the file."""
        length = root.figure("length", _above_nothing, example="1 in", default=USUAL_LENGTH)
        within = root.text("within", example=USUAL_WITHIN, default=USUAL_WITHIN)
        root.figure("within", _tolerance(length), example=USUAL_WITHIN, default=None)
        return cls(within, root.whole("pairs", 1, MOST_PAIRS) or USUAL_PAIRS, length)


def _above_nothing(text: str) -> Length:
    length = read_length(text)
    if length.mm == 0:
        raise UnreadableFigureError(text, 0, "this length is above zero")
    return length


def _tolerance(length: Length) -> Callable[[str], Fraction]:
    def read(text: str) -> Fraction:
        within = read_within(text, length)
        if within >= 1:
            raise UnreadableFigureError(text, 0, "an error as large as the lead itself is no tolerance")
        return within

    return read


class _Read(NamedTuple):
    """A part with the names it waits for, before those are looked up."""

    part: JobPart | None
    name: str
    after: tuple[str, ...]
    product: Turned | Divided | WheelOf | None


def _part(table: TomlTable, usual: _Usual) -> _Read:
    name = table.text("name", example="pillar screws")
    kinds = [kind for kind in KINDS if table.has(kind)]
    product = read_product(table, kinds[0]) if kinds else None
    if len(kinds) != 1:
        problem = f"has {' and '.join(kinds)}" if kinds else "does not say what it is"
        table.fault(kinds[1] if kinds else "name", problem, f"write one of {', '.join(KINDS)}")
    after = table.texts("after", example='["name of another part"]')
    quantity, note = table.whole("quantity", 1, MOST_ALIKE) or 1, table.text("note", example="brass", default="")
    if kinds and kinds[0] in ("thread", "worm"):
        length = table.figure("length", _above_nothing, example="1 in", default=usual.length)
        read = _tolerance(length)
        within = table.figure("within", read, example=USUAL_WITHIN, default=None)
        pairs = table.whole("pairs", 1, MOST_PAIRS) or usual.pairs
        method = None
        within = within if within is not None else _usual_within(usual, length)
    else:
        within = _closing_within(table)
        length, pairs = usual.length, usual.pairs
        method = table.figure("method", _read_method, example="differential", default=None)
    known = product if product is not None and not isinstance(product, WheelOf) else None
    part = None if known is None else JobPart(name, known, (), within, pairs, method, quantity, note, length)
    return _Read(part, name, after, product)


def _closing_within(table: TomlTable) -> Fraction:
    """Read the largest error of a divided part at closure, in turns; without one it is to be exact."""

    def read(text: str) -> Fraction:
        return Fraction(0) if says_exact(text) else read_angle(text).turns

    return table.figure("within", read, example="1 min", default=Fraction(0))


def _usual_within(usual: _Usual, length: Length) -> Fraction:
    try:
        return read_within(usual.within, length)
    except UnreadableFigureError:
        # Noted already, at the head of the file.
        return Fraction(0)


def _read_method(text: str) -> Method:
    words = {method.value: method for method in Method}
    if text.strip().lower() not in words:
        raise UnreadableFigureError(text, 0, f"a method is one of {', '.join(words)}")
    return words[text.strip().lower()]


def _linked(tables: tuple[TomlTable, ...], read: list[_Read]) -> tuple[JobPart, ...]:
    """Put the numbers of parts in the place of their names."""
    numbers = numbers_of_names(tables, [each.name for each in read])
    after = numbers_waited_for(tables, [each.after for each in read], numbers)
    parts = [
        _wheel_part(table, each, read, numbers) if isinstance(each.product, WheelOf) else each.part
        for table, each in zip(tables, read, strict=True)
    ]
    return tuple(part._replace(after=known) for part, known in zip(parts, after, strict=True) if part is not None)


def _wheel_part(table: TomlTable, each: _Read, read: list[_Read], numbers: dict[str, int]) -> JobPart | None:
    """Give a wheel the figures of its worm."""
    worm = each.product.worm if isinstance(each.product, WheelOf) else ""
    if worm not in numbers:
        if worm:
            note_unknown(table, "wheel", worm, numbers)
        return None
    product = read[numbers[worm]].product
    if not isinstance(product, WormPart):
        if product is not None:
            table.fault("wheel", f"names '{worm}', which is no worm", "name a part that has worm = { ... }")
        return None
    return JobPart(
        each.name,
        WheelPart(product.wheel, product.hand),
        (),
        _closing_within(table),
        USUAL_PAIRS,
        table.figure("method", _read_method, example="differential", default=None),
        table.whole("quantity", 1, MOST_ALIKE) or 1,
        table.text("note", example="brass", default=""),
        USUAL_LENGTH,
    )


def _found(
    root: TomlTable,
    kind: str,
    example: str,
    find: Callable[[str, Mapping[str, str] | None], Equipment],
    folder: Path | None,
    environ: Mapping[str, str] | None,
    *,
    is_needed: bool,
) -> Equipment | None:
    """Load a lathe or a head by name, or by a path that begins at the folder of the job."""
    if not root.has(kind):
        if is_needed:
            root.fault(kind, "is missing", f'write {kind} = "{example}", a name or a path')
        return None
    word = root.text(kind, example=example)
    if not word:
        return None
    try:
        return find(_from_folder(word, folder), environ)
    except UnknownNameError as refusal:
        near = refusal.help_text.split(". ")[0].replace("Near", "near") if "Near" in refusal.help_text else ""
        listing = f"all of them: halfnut {kind} list"
        root.fault(kind, refusal.message, f"{near}; {listing}" if near else listing)
    except FileFaultsError as refusal:
        first = refusal.faults[0]
        root.fault(kind, f"its file is faulty, {first.place}: {first.problem}", f"see halfnut {kind} check {word}")
    return None


def _from_folder(word: str, folder: Path | None) -> str:
    """Return the path of a file beside the job where there is one; else the word as it is."""
    try:
        return str(folder / word) if folder is not None and (folder / word).is_file() else word
    except (OSError, ValueError):
        # Too long a name, or one with a NUL in it, is no file.
        return word


def _mounted(root: TomlTable, lathe: Lathe | None) -> tuple[Train, tuple[Idler, ...]] | None:
    classes = (lathe or _BARE).wheel_classes

    def read(text: str) -> tuple[Train, tuple[Idler, ...]]:
        try:
            return read_set_up(text, classes)
        except UnreadableFigureError:
            raise
        except RefusalError as refusal:
            raise UnreadableFigureError(text, 0, refusal.message) from None

    mounted = root.figure("mounted", read, example="40-80-50-127", default=None)
    if mounted is not None and lathe is not None:
        from solver.trains.train_rules import broken_rules

        broken = broken_rules(mounted[0], lathe, mounted[1])
        if broken:
            root.fault("mounted", broken[0], "write what stands on the banjo now, of this lathe's wheels")
    return mounted
