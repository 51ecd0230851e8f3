"""Good texts shaken: pieces cut out, doubled, moved and replaced by what no one should type."""

from __future__ import annotations

from hypothesis import strategies as st

#: What gets pressed into a text: signs, huge and empty figures, words of the trade, control and direction characters.
FIGURES = "0 1 -1 -0 00 1e400 1/0 0/1 1/3 . , .. 0.0000000001 nan inf ½ ¼ ² ٣ １".split()  # noqa: SIM905 - read as one line.
SIGNS = "° ' \" ′ ″ µ μ × x – − + - * / \\ ( ) [ ] { } = # π".split()  # noqa: SIM905 - read as one line.
TRADE = "mm in tpi tpcm deg turn module DP CP starts over per threads pitch lead pi LH M BA UNC Tr G No.".split()  # noqa: SIM905 - read as one line.
ODD = ("", " ", "\t", "\n", "\r\n", "\x00", "\x1b[31m", "\u202e", "\ufeff", "\ud7ff", "🔩", "e\u0301", "a" * 3000)
CODE = ("true", "[[", "]]", "<script>", "%s", "{0}", "$(ls)", "__import__", "9" * 25, "9" * 5000)
PIECES = (*FIGURES, *SIGNS, *TRADE, *ODD, *CODE)


@st.composite
def shaken(draw: st.DrawFn, seeds: tuple[str, ...]) -> str:
    """Draw a seed and change it in one to six places; now and then any text at all."""
    if draw(st.integers(0, 15)) == 0:
        return draw(st.text(max_size=60))
    text = draw(st.sampled_from(seeds))
    for _ in range(draw(st.integers(1, 6))):
        at = draw(st.integers(0, len(text)))
        end = min(len(text), at + draw(st.integers(0, 6)))
        change = draw(st.integers(0, 3))
        if change == 0:
            text = text[:at] + text[end:]
        elif change == 1:
            text = text[:at] + draw(st.sampled_from(PIECES)) + text[end:]
        elif change == 2:
            text = text[:end] + text[at:]
        else:
            other = draw(st.sampled_from(seeds))
            start = draw(st.integers(0, len(other)))
            text = text[:at] + other[start : start + 12] + text[end:]
    return text
