"""Finding a lathe, a head or a thread series by the name a person typed."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from solver.refusals import RefusalError

#: Longest piece of a person's text repeated in a message. [characters]
LONGEST_SHOWN = 60
#: Most near names offered.
MOST_NEAR = 3


class UnknownNameError(RefusalError):
    """No lathe, head or series goes by this name; the help names the near ones and how to list them all."""


def shown(text: str) -> str:
    r"""Make a person's text fit to print: short, and without control characters.

    Examples
    --------
    >>> shown("inch\x07-8")
    'inch�-8'
    """
    clean = "".join(letter if letter.isprintable() else "\N{REPLACEMENT CHARACTER}" for letter in text)
    return clean if len(clean) <= LONGEST_SHOWN else clean[:LONGEST_SHOWN] + "…"


def near_names(word: str, names: Iterable[str]) -> tuple[str, ...]:
    """Return the known names that look most like a word, nearest first.

    Examples
    --------
    >>> near_names("inhc-8", ["metric-3", "inch-8"])
    ('inch-8',)
    """
    # Imported here because it is wanted only when something is already wrong.
    from difflib import get_close_matches

    by_folded = {name.casefold(): name for name in sorted(names, reverse=True)}
    close = get_close_matches(word[:LONGEST_SHOWN].casefold(), sorted(by_folded), n=MOST_NEAR)
    return tuple(by_folded[name] for name in close)


def unknown_name(kind: str, word: str, names: Iterable[str], *, listing: str) -> UnknownNameError:
    """Build the refusal of a name that nothing goes by.

    Parameters
    ----------
    kind : str
        What was looked for: ``lathe``.
    word : str
        What the person typed.
    names : iterable of str
        Every name that would have been found.
    listing : str
        How to see them all.

    Returns
    -------
    UnknownNameError
        For the caller to raise.

    Examples
    --------
    >>> print(unknown_name("lathe", "inch8", ["inch-8"], listing="List them with: halfnut lathe list"))
    no lathe is called 'inch8'
    Near names: inch-8. List them with: halfnut lathe list
    """
    near = near_names(word, names)
    hint = f"Near names: {', '.join(near)}. " if near else ""
    return UnknownNameError(f"no {kind} is called '{shown(word)}'", help_text=hint + listing)


@dataclass(frozen=True, slots=True)
class Shelf:
    """Where files of one kind stand: the shipped folder, and the same folder in the person's data folder.

    Parameters
    ----------
    kind : str
        What one file describes: ``lathe``.
    folder : str
        Folder name, both here and in the person's data folder: ``lathes``.
    """

    kind: str
    folder: str

    @property
    def shipped_folder(self) -> Path:
        """The folder that comes with the program.

        Examples
        --------
        >>> Shelf("lathe", "lathes").shipped_folder.name
        'lathes'
        """
        return Path(__file__).parent / self.folder

    def user_folder(self, environ: Mapping[str, str] | None = None) -> Path:
        """Return where a person's own files are looked for; it need not exist.

        Parameters
        ----------
        environ : mapping, optional
            The environment; the process's own when left out.

        Returns
        -------
        Path
            ``$XDG_DATA_HOME/halfnut/lathes``, by default under ``~/.local/share``.

        Examples
        --------
        >>> Shelf("lathe", "lathes").user_folder({"XDG_DATA_HOME": "/data"}).as_posix()
        '/data/halfnut/lathes'
        """
        known = os.environ if environ is None else environ
        data = known.get("XDG_DATA_HOME", "")
        if not Path(data).is_absolute():
            # The XDG convention has relative values ignored.
            home = known.get("HOME") or str(Path.home())
            data = str(Path(home) / ".local" / "share")
        return Path(data) / "halfnut" / self.folder

    def shipped_names(self) -> tuple[str, ...]:
        """Return the names of the shipped files, sorted.

        Examples
        --------
        >>> "head-60" in Shelf("head", "heads").shipped_names()
        True
        """
        return _stems(self.shipped_folder)

    def own_names(self, environ: Mapping[str, str] | None = None) -> tuple[str, ...]:
        """Return the names of the person's own files, sorted; empty without such a folder.

        Examples
        --------
        >>> Shelf("head", "heads").own_names({"XDG_DATA_HOME": "/nowhere"})
        ()
        """
        return _stems(self.user_folder(environ))

    def find(self, word: str, environ: Mapping[str, str] | None = None) -> Path:
        """Return the file a word means: a path as it stands, else a person's own file, else a shipped one.

        Parameters
        ----------
        word : str
            A path (it has a separator, ends in ``.toml`` or exists as a file), or a name.
        environ : mapping, optional
            The environment; the process's own when left out.

        Returns
        -------
        Path
            A path is returned as it was given, whether or not it exists.

        Raises
        ------
        UnknownNameError
            Nothing goes by that name.

        Examples
        --------
        >>> Shelf("head", "heads").find("head-60", {"XDG_DATA_HOME": "/nowhere"}).name
        'head-60.toml'
        """
        if _is_path(word):
            return Path(word)
        for folder, names in (
            (self.user_folder(environ), self.own_names(environ)),
            (self.shipped_folder, self.shipped_names()),
        ):
            if word in names:
                return folder / f"{word}.toml"
        every = {*self.own_names(environ), *self.shipped_names()}
        listing = f"List them with: halfnut {self.kind} list; or give the path of a file that ends in .toml."
        raise unknown_name(self.kind, word, every, listing=listing)


def _stems(folder: Path) -> tuple[str, ...]:
    try:
        return tuple(sorted(path.stem for path in folder.iterdir() if path.suffix == ".toml"))
    except OSError:
        return ()


def _is_path(word: str) -> bool:
    if "/" in word or os.sep in word or word.lower().endswith(".toml"):
        return True
    try:
        return Path(word).is_file()
    except (OSError, ValueError):
        # Too long a name, or one with a NUL in it, is no file.
        return False
