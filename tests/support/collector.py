"""What CP-SAT calls for each answer that it finds. In a file of its own: OR-tools loads slowly."""

from ortools.sat.python import cp_model


class Collector(cp_model.CpSolverSolutionCallback):
    """Keeps the answers, up to so many; then it ends the search."""

    def __init__(self, at: list[cp_model.IntVar], most: int) -> None:
        super().__init__()
        self.at, self.most = at, most
        self.answers: list[tuple[int, ...]] = []

    def on_solution_callback(self) -> None:
        """Called by the solver."""
        self.answers.append(tuple(self.value(digit) for digit in self.at))
        if len(self.answers) >= self.most:
            self.stop_search()
