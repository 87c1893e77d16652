"""A linear program put together row by row, with yes-or-no variables where something is not convex; solved with HiGHS through scipy."""
import heapq
from itertools import count

import numpy as np
from scipy import sparse
from scipy.optimize import linprog

OPTIONS = {"primal_feasibility_tolerance": 1e-10, "dual_feasibility_tolerance": 1e-10}
WHOLE = 1e-9                 # a share this near to 0 or 1 is it
ENOUGH = 1e-9                # money: a branch that could gain less is not looked at
MOST_NODES = 20_000


class Infeasible(RuntimeError):
    """The solver found no solution."""


class MixedProgram:
    """Variables are numbers of columns; expressions are {column: coefficient}."""

    def __init__(self):
        self.low, self.high, self.whole = [], [], []
        self.at_most, self.equal = [], []                   # (expression, right-hand side)
        self.constant = 0.0
        self._ticket = count(1)                             # nodes of one bound in the order in which they were made

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
        problem = (cost, *self._matrix(self.at_most), *self._matrix(self.equal))
        low, high = np.array(self.low, dtype=float), np.array(self.high, dtype=float)
        if relaxed or not self.whole:
            return self._linear(problem, low, high)
        return self._branch_and_bound(problem, low, high)

    def _branch_and_bound(self, problem, low, high):
        """Best bound first. Our own, as an optimum that the solver's search of 2022 proves is not always one."""
        best, least = None, np.inf
        nodes = [(-np.inf, 0, low, high)]
        tried = 0
        while nodes:
            bound, _, low, high = heapq.heappop(nodes)
            if bound > least - ENOUGH:
                break
            try:
                values, bound = self._linear(problem, low, high)
            except Infeasible:
                continue
            tried += 1
            if tried > MOST_NODES:
                raise Infeasible(f"more than {MOST_NODES} nodes")
            if bound > least - ENOUGH:
                continue
            open_ = [c for c in self.whole if WHOLE < values[c] < 1 - WHOLE]
            if not open_:
                low, high = low.copy(), high.copy()
                for c in self.whole:                        # a share that is all but whole can still buy something
                    low[c] = high[c] = round(values[c])
                try:
                    values, bound = self._linear(problem, low, high)
                except Infeasible:
                    continue
                if bound < least:
                    best, least = values, bound
                continue
            column = min(open_, key=lambda c: abs(values[c] - 0.5))
            for side in (0.0, 1.0):
                below, above = low.copy(), high.copy()
                below[column] = above[column] = side
                heapq.heappush(nodes, (bound, next(self._ticket), below, above))
        if best is None:
            raise Infeasible("no choice of the yes-or-no variables has a solution")
        return best, least

    @staticmethod
    def _linear(problem, low, high):
        cost, matrix, right, equal, exactly = problem
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
