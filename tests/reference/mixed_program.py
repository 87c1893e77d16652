"""A linear program put together row by row, with yes-or-no variables where something is not convex; solved with HiGHS through scipy."""
import numpy as np
from scipy import sparse
from scipy.optimize import Bounds, LinearConstraint, linprog, milp

OPTIONS = {"primal_feasibility_tolerance": 1e-10, "dual_feasibility_tolerance": 1e-10}


class Infeasible(RuntimeError):
    """The solver found no solution."""


class MixedProgram:
    """Variables are numbers of columns; expressions are {column: coefficient}."""

    def __init__(self):
        self.low, self.high, self.whole = [], [], []
        self.at_most, self.equal = [], []                   # (expression, right-hand side)
        self.constant = 0.0

    def variable(self, low=0.0, high=np.inf):
        self.low.append(low)
        self.high.append(high)
        return len(self.low) - 1

    def variables(self, lows, highs):
        return [self.variable(a, b) for a, b in zip(lows, highs)]

    def choice(self):
        """A variable that is 0 or 1."""
        self.whole.append(self.variable(0.0, 1.0))
        return self.whole[-1]

    def add_at_most(self, expression, right):
        self.at_most.append((expression, right))

    def add_equal(self, expression, right):
        self.equal.append((expression, right))

    @staticmethod
    def plus(*terms):
        """The sum of (factor, expression) pairs."""
        total = {}
        for factor, expression in terms:
            for column, value in expression.items():
                total[column] = total.get(column, 0.0) + factor * value
        return total

    def minimise(self, objective, relaxed=False):
        """Values of all variables and the least objective; yes-or-no variables may take any share where relaxed."""
        cost = np.zeros(len(self.low))
        for column, value in objective.items():
            cost[column] += value
        low, high = np.array(self.low), np.array(self.high)
        if self.whole and not relaxed:
            best = self._choices(cost, low, high)
            for column in self.whole:                       # the choices fixed, the rest solved to the tighter tolerance
                low[column] = high[column] = round(best[column])
        return self._linear(cost, low, high)

    def _choices(self, cost, low, high):
        whole = np.zeros(len(low))
        whole[self.whole] = 1
        constraints = []
        for rows, least in ((self.at_most, -np.inf), (self.equal, None)):
            matrix, right = self._matrix(rows)
            if matrix is not None:
                constraints.append(LinearConstraint(matrix, right if least is None else least, right))
        for presolve in (True, False):
            result = milp(cost, integrality=whole, bounds=Bounds(low, high), constraints=constraints,
                          options={"mip_rel_gap": 0.0, "presolve": presolve, "time_limit": 300})
            if result.x is not None and result.status == 0:
                return result.x
        raise Infeasible(f"milp: {result.status} {result.message}")

    def _linear(self, cost, low, high):
        matrix, right = self._matrix(self.at_most)
        equal, exactly = self._matrix(self.equal)
        for presolve in (True, False):
            result = linprog(cost, A_ub=matrix, b_ub=right, A_eq=equal, b_eq=exactly, bounds=np.column_stack([low, high]),
                             method="highs-ds", options={"presolve": presolve, **OPTIONS})
            if result.x is not None and result.status == 0:
                return result.x, float(result.fun)
        raise Infeasible(f"linprog: {result.status} {result.message}")

    def _matrix(self, rows):
        if not rows:
            return None, None
        at = [(i, c, a) for i, (row, _) in enumerate(rows) for c, a in row.items()]
        matrix = sparse.csc_matrix(([a for _, _, a in at], ([i for i, _, _ in at], [c for _, c, _ in at])), shape=(len(rows), len(self.low)))
        return matrix, np.array([right for _, right in rows])
