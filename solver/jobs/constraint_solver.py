"""The only file that imports ortools: a model to state rules in, and how sure the answer to it is.

One worker and one seed, so that the same question has the same answer; effort is counted, not timed, for the same
reason.
"""

from __future__ import annotations

from enum import Enum
from fractions import Fraction
from importlib import import_module
from typing import Any, NamedTuple, TypeAlias

#: Types of ortools, which carries no annotations that could be checked: a model, and a variable of one.
Model: TypeAlias = Any
Variable: TypeAlias = Any
_SEED = 1
_MICROSECONDS = 1_000_000


class Certainty(Enum):
    """What is known after solving."""

    BEST = "proven best"
    FOUND = "found, not proven best"
    NONE = "proven that there is none"
    UNDECIDED = "neither found nor proven"


class Outcome(NamedTuple):
    """The end of one solving.

    Parameters
    ----------
    certainty : Certainty
        How sure it is.
    bound : int
        Nothing is better than this, where an aim was stated; zero else.
    seconds : Fraction
        Wall time inside the constraint solver, to a microsecond. [s]
    solver : CpSolver
        Holds the values found.
    """

    certainty: Certainty
    bound: int
    seconds: Fraction
    solver: Any

    @property
    def has_values(self) -> bool:
        """True when something was found, best or not.

        Examples
        --------
        >>> model = new_model()
        >>> either = model.new_bool_var("either")
        >>> solve(model, effort=1).has_values
        True
        """
        return self.certainty in (Certainty.BEST, Certainty.FOUND)

    def is_true(self, variable: Variable) -> bool:
        """Say which way a yes-or-no variable was settled.

        Examples
        --------
        >>> model = new_model()
        >>> either, other = model.new_bool_var("either"), model.new_bool_var("other")
        >>> _ = model.add_bool_or(either, other)
        >>> _ = model.add(either == 0)
        >>> outcome = solve(model, effort=1)
        >>> outcome.is_true(either), outcome.is_true(other)
        (False, True)
        """
        return bool(self.solver.boolean_value(variable))

    @property
    def value(self) -> int:
        """What the aim came to.

        Examples
        --------
        >>> model = new_model()
        >>> count = model.new_int_var(2, 9, "count")
        >>> model.minimize(count)
        >>> outcome = solve(model, effort=1)
        >>> outcome.value, outcome.bound, outcome.certainty.value
        (2, 2, 'proven best')
        """
        value: int = round(self.solver.objective_value)
        return value


def load() -> None:
    """Load ortools ahead, so that a clock can leave it out.

    Examples
    --------
    >>> load()
    """
    # Imported so late because it takes most of a second, and several on a slow machine.
    import_module("ortools.sat.python.cp_model")


def new_model() -> Model:
    """Make an empty model.

    Examples
    --------
    >>> new_model().validate()
    ''
    """
    from ortools.sat.python import cp_model

    return cp_model.CpModel()


def solve(model: Model, *, effort: int | None = None, seconds: int | None = None) -> Outcome:
    """Solve a model with a bounded effort, within a time, or both.

    Parameters
    ----------
    model : CpModel
        Rules, and an aim where there is one.
    effort : int, optional
        Most deterministic time; the solver's own unit, near a second. [s]
    seconds : int, optional
        Most time by the clock. What is found when it ends depends on the machine. [s]

    Returns
    -------
    Outcome
        Without an aim anything found is best.

    Examples
    --------
    >>> model = new_model()
    >>> either = model.new_bool_var("either")
    >>> _ = model.add(either == 2)
    >>> solve(model, effort=1).certainty.value
    'proven that there is none'
    """
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = _SEED
    if effort is not None:
        solver.parameters.max_deterministic_time = effort
    if seconds is not None:
        solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(model)
    certainty = {
        cp_model.OPTIMAL: Certainty.BEST,
        cp_model.FEASIBLE: Certainty.FOUND,
        cp_model.INFEASIBLE: Certainty.NONE,
    }.get(status, Certainty.UNDECIDED)
    taken = Fraction(round(solver.wall_time * _MICROSECONDS), _MICROSECONDS)
    bound: int = round(solver.best_objective_bound)
    return Outcome(certainty, bound, taken, solver)
