"""What warmth does to a steel screw, in words and for JSON."""

from __future__ import annotations

from fractions import Fraction

from cli.views.shop_figures import micrometres_text
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.trains.warmth import STEEL_GROWS, growth

#: What the figure is, and what it rests on.
STEEL = f"{trimmed_decimal_text(STEEL_GROWS * 1_000_000, 1)} ppm/K, practice"
#: Said beside the error of a screw that is warm.
ALIKE = "steel work that is as warm grows alike"


def grows_text(length: Length) -> str:
    """Say what one kelvin adds to a steel screw over a length.

    Examples
    --------
    >>> grows_text(Length.of_mm(150))
    'a steel screw grows 1.72 µm per kelvin over 150 mm (11.5 ppm/K, practice)'
    """
    over = trimmed_decimal_text(length.mm, 2)
    return f"a steel screw grows {micrometres_text(growth(length))} per kelvin over {over} mm ({STEEL})"


def warmth_row(length: Length) -> tuple[str, str]:
    """Give the line of a train's figures."""
    return "Warmth", grows_text(length)


def warmer_text(kelvins: Fraction) -> str:
    """Say how warm a screw is used.

    Examples
    --------
    >>> warmer_text(Fraction(5)), warmer_text(Fraction(-5, 2))
    ('5 K warmer than 20 °C', '2.5 K colder than 20 °C')
    """
    return f"{trimmed_decimal_text(abs(kelvins), 2)} K {'warmer' if kelvins > 0 else 'colder'} than 20 °C"


def growth_json(length: Length) -> dict[str, str]:
    """Describe what one kelvin adds to a steel screw over a length."""
    return {"steel_ppm_per_k": f"{STEEL_GROWS * 1_000_000}", "um_per_k": f"{growth(length).mm * 1000}"}
