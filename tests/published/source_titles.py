"""Titles of all sources that checks are held against, and which of them a written source begins with."""

from __future__ import annotations

import tomllib
from pathlib import Path

FILE = Path(__file__).with_name("sources.toml")
#: Key of a source, and its title with its edition or year.
TITLES: dict[str, str] = {
    key: ", ".join(part for part in parts if part)
    for key, parts in tomllib.loads(FILE.read_text(encoding="utf-8"))["titles"].items()
}
#: What a check by a rule of thumb has in place of a source.
NO_SOURCE = TITLES["practice"]


def written_source(key: str, place: str) -> str:
    """Return a source as a mark takes it: title, edition, place."""
    return f"{TITLES[key]}, {place}" if place else TITLES[key]


def title_of(source: str) -> str | None:
    """Return the listed title with which a written source begins, the longest if several do."""
    begun = (title for title in TITLES.values() if source == title or source.startswith((f"{title}, ", f"{title}: ")))
    return max(begun, key=len, default=None)


def fault_of(kind: str, words: tuple[object, ...]) -> str | None:
    """Say what is wrong with what a mark names as its source; ``None`` if it names one listed source."""
    source = words[0] if len(words) == 1 else None
    if not isinstance(source, str) or not source.strip():
        return f'has no source: write @pytest.mark.{kind}("title, edition, table or page")'
    title = title_of(source)
    if title is None:
        return f'names "{source}", which begins with no title of tests/published/{FILE.name}'
    if (title == NO_SOURCE) != (kind == "practice"):
        return f'names "{source}"; "{NO_SOURCE}" belongs to the mark practice, and to it alone'
    return None
