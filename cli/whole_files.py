"""Writing a file in full or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

import click


def write_whole(path: str | Path, text: str) -> None:
    """Write a file through a spare one beside it, so that nothing is ever left half written."""
    target = Path(path)
    if target.is_dir():
        raise click.UsageError(f"{target} is a folder; name a file.")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        handle, spare = tempfile.mkstemp(dir=target.parent, suffix=".part")
        try:
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                file.write(text)
            Path(spare).chmod(0o644)
            Path(spare).replace(target)
        except BaseException:
            Path(spare).unlink(missing_ok=True)
            raise
    except OSError as fault:
        raise click.UsageError(f"{target} cannot be written: {fault.strerror}.") from fault
