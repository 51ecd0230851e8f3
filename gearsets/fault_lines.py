"""Finding the line of a TOML file on which a value stands, for messages about it."""

from __future__ import annotations

import re

#: Keys, and places in lists counted from 0, from the root of the file down.
Place = tuple[str | int, ...]

#: Comments and strings; a string before ``=`` or ``.``, the group ``key``, is a quoted key and is kept.
_HIDDEN = re.compile(
    r'"""(?:\\.|[^\\])*?"""'
    r"|'''.*?'''"
    r"""|(?:"(?:\\.|[^"\\\n])*"|'[^'\n]*')(?P<key>[ \t]*[=.])?"""
    r"|#[^\n]*",
    re.DOTALL,
)


class LineFinder:
    r"""A search for the line of a key; it gives no line rather than a doubtful one.

    Parameters
    ----------
    text : str
        The file, already known to be TOML.
    values : dict
        What the file says, as the TOML reader gives it.

    Examples
    --------
    >>> LineFinder('[banjo]\nstuds = 2', {"banjo": {"studs": 2}}).line(("banjo", "studs"))
    2
    """

    def __init__(self, text: str, values: dict[str, object]) -> None:
        self._text = text
        self._values = values
        self._bare: str | None = None

    def line(self, place: Place) -> int | None:
        r"""Return the line of a place, or of the innermost table round it that the file has.

        Examples
        --------
        >>> finder = LineFinder("# a head\nplates = [{ faces = [] }]", {"plates": [{"faces": []}]})
        >>> finder.line(("plates", 0, "name")), finder.line(("table",))
        (2, None)
        """
        if self._bare is None:
            self._bare = _HIDDEN.sub(_blanked, self._text)
        at, is_under_header, is_lost = 0, True, False
        value: object = self._values
        for depth, part in enumerate(place):
            value = _inside(value, part)
            if value is None:
                return None if is_lost or depth == 0 else self._line_at(at)
            header = self._header(place[: depth + 1], at)
            if header is not None:
                at, is_under_header, is_lost = header, True, False
                continue
            found = self._step(part, value, at, is_under_header=is_under_header)
            is_lost = is_lost or found is None
            at, is_under_header = at if found is None else found, False
        return None if is_lost or not place else self._line_at(at)

    def _line_at(self, at: int) -> int:
        return self._text.count("\n", 0, at) + 1

    def _step(self, part: str | int, value: object, at: int, *, is_under_header: bool) -> int | None:
        """Return the position of a key, or of the brace that opens an entry of a list."""
        if isinstance(part, str):
            start = r"^[ \t]*" if is_under_header else r"(?<![\w-])"
            return self._position(start + _quoted(part) + r"[ \t]*[=.]", at)
        if not isinstance(value, dict):
            return at
        return self._nth(r"\{", part, at)

    def _header(self, place: Place, at: int) -> int | None:
        """Return the position after ``[a.b]``, or after the n-th ``[[a.b]]`` for an entry of a list."""
        names = r"[ \t]*\.[ \t]*".join(_quoted(part) for part in place if isinstance(part, str))
        last = place[-1]
        if isinstance(last, str):
            has_entry = any(isinstance(part, int) for part in place)
            return self._position(r"^[ \t]*\[\[?[ \t]*" + names + r"[ \t]*\]", at if has_entry else 0)
        return self._nth(r"^[ \t]*\[\[[ \t]*" + names + r"[ \t]*\]\]", last, 0)

    def _nth(self, pattern: str, count: int, at: int) -> int | None:
        """Return the position after the match that ``count`` others come before."""
        for _ in range(count + 1):
            found = self._position(pattern, at)
            if found is None:
                return None
            at = found
        return at

    def _position(self, pattern: str, at: int) -> int | None:
        found = re.compile(pattern, re.MULTILINE).search(self._bare or "", at)
        return found.end() if found else None


def _blanked(found: re.Match[str]) -> str:
    return found[0] if found["key"] else re.sub(r"[^\n]", " ", found[0])


def _quoted(key: str) -> str:
    return f"[\"']?{re.escape(key)}[\"']?"


def _inside(value: object, part: str | int) -> object:
    if isinstance(value, dict):
        return value.get(part)
    if isinstance(value, list) and isinstance(part, int) and part < len(value):
        return value[part]
    return None
