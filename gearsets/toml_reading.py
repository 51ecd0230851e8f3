"""The text of a TOML file taken apart, and slips often made in one, told from what its reader says."""

from __future__ import annotations

import re
import tomllib

from gearsets.file_faults import Fault, FileFaultsError
from gearsets.name_lookup import shown

#: Most dots in one key; no shop file has more than three, and the TOML reader is slow over thousands.
MOST_DOTS = 16
#: A key of more dots than that. The first part is sought only where one can begin, which keeps the search linear.
_PART = r"""(?:[\w-]+|"(?:\\.|[^"\\\n])*"|'[^'\n]*')"""
_LONG_KEY = re.compile(r"""(?<![\w\\"'-])(?:""" + _PART + rf"[ \t]*\.[ \t]*){{{MOST_DOTS + 1}}}")
#: Words meant for true or false.
_MEANT = {"true": "true", "yes": "true", "false": "false", "no": "false"}


def toml_values(text: str, where: str) -> dict[str, object]:
    """Take the text of a TOML file apart; ``where`` is how the person named it.

    Raises
    ------
    FileFaultsError
        The text is not TOML, or no shop file at all: nested too deep, or with a key of very many dots.

    Examples
    --------
    >>> toml_values("studs = 2", "mine.toml")
    {'studs': 2}
    """
    if long_key := _LONG_KEY.search(text):
        line = text.count("\n", 0, long_key.start()) + 1
        fault = Fault(f"line {line}", f"has a key of more than {MOST_DOTS} dots", "write [banjo] and its keys below")
        raise FileFaultsError(where, (fault,))
    try:
        values: dict[str, object] = tomllib.loads(text)
    except RecursionError:
        fault = Fault("the file", "is nested too deep", "write it as the shipped files are written")
        raise FileFaultsError(where, (fault,)) from None
    except ValueError as error:
        # Not only TOMLDecodeError: an integer of thousands of digits is a plain ValueError.
        reason, _, place = str(error).rpartition(" (at ")
        problem, remedy = slip_words(text, reason or place, place)
        fault = Fault(place.rstrip(")") if reason else "the file", problem, remedy)
        raise FileFaultsError(where, (fault,)) from None
    return values


def slip_words(text: str, reason: str, place: str) -> tuple[str, str]:
    """Say what keeps a text from being TOML, and what would be right.

    Parameters
    ----------
    text : str
        The whole file.
    reason, place : str
        What the TOML reader says, and where.

    Returns
    -------
    (str, str)
        The problem and the remedy.

    Examples
    --------
    >>> slip_words("reverse = True", "Invalid value", "line 1, column 11)")
    ('is not TOML (True)', 'write true, in small letters and without quotes')
    """
    found = re.match(r"line (\d+), column (\d+)", place)
    # Without a place the end of the file is meant.
    lines, column = text.split("\n"), int(found[2]) - 1 if found else len(text)
    line = lines[int(found[1]) - 1] if found else text.rstrip().rpartition("\n")[2]
    # No key worth naming is longer, and the search stays short on a line of thousands.
    before, after = line[max(0, column - 200) : column], line[column : column + 9]
    if "Duplicate inline table key" in reason or "Cannot overwrite a value" in reason:
        named = re.search(r"'(.+)'", reason) or re.search(r"([\w-]+)[ \t]*=[^=]*$", before)
        key = shown(named[1]) if named else "a key"
        remedy = f"write {key} = how many you have" if key.isdigit() else "write it once"
        return f"is not TOML ({key} is written twice)", remedy
    word = re.match(r"\w*", after)
    meant = _MEANT.get(word[0].lower() if word else "")
    if "Invalid value" in reason and meant and word:
        return f"is not TOML ({word[0]})", f"write {meant}, in small letters and without quotes"
    return f"is not TOML ({shown(reason)})", "text stands in quotes, and each key on its own line"
