"""How the solver says no: one base exception and three families.

Every refusal holds what was asked, what stands in the way, and what would help.
"""

from __future__ import annotations


class RefusalError(ValueError):
    """Base of every refusal a user can cause.

    Parameters
    ----------
    message : str
        What was asked and what stands in the way.
    help_text : str, optional
        What would help.
    """

    def __init__(self, message: str, *, help_text: str = "") -> None:
        self.message = message
        self.help_text = help_text
        super().__init__(message)

    def __str__(self) -> str:
        """Give the message, then what would help on a line of its own.

        Examples
        --------
        >>> print(ImpossibleSettingError("No train.", help_text="Add a wheel."))
        No train.
        Add a wheel.
        """
        return f"{self.message}\n{self.help_text}" if self.help_text else self.message


class UnreadableFigureError(RefusalError):
    """A written figure cannot be read; carries the text and the place of the bad character.

    Parameters
    ----------
    text : str
        What the person wrote.
    at : int
        Index of the first bad character; ``len(text)`` when the text ends too soon.
    reason : str
        What stands in the way.
    help_text : str, optional
        What to type instead.
    """

    #: Longest piece of the person's text shown in a message. [characters]
    SHOWN = 60

    def __init__(self, text: str, at: int, reason: str, *, help_text: str = "") -> None:
        self.text = text
        self.at = at
        self.reason = reason
        super().__init__(self._worded(), help_text=help_text)

    def _worded(self) -> str:
        # A long text is cut round the bad character so that the marker stays under it.
        start = max(0, self.at - self.SHOWN // 2) if len(self.text) > self.SHOWN else 0
        piece = self.text[start : start + self.SHOWN]
        clean = "".join(character if character.isprintable() else "\N{REPLACEMENT CHARACTER}" for character in piece)
        head = "…" if start else ""
        tail = "…" if start + self.SHOWN < len(self.text) else ""
        marker = " " * (len(head) + self.at - start) + "^"
        return f"{self.reason}\n  {head}{clean}{tail}\n  {marker}"


class ImpossibleSettingError(RefusalError):
    """The request is clear, but no setting on the equipment described answers it."""


class AmbiguousRequestError(RefusalError):
    """The request can be read in more than one way."""
