"""Steps 1a, 1b and 2 as linear programs over every single interval, solved with HiGHS through scipy.

Variables: x_i share of interval i at full power, e_1..e_n energy at the boundaries, u_i energy of interval i's driving
that the battery doesn't give, v_k what is missing at departure k, y the energy at the end that has a worth.
    e_{i+1} - e_i - r_i d_i x_i - u_i = -drive_i          L <= e <= U, 0 <= x <= 1, 0 <= u <= drive
    e at departure k + v_k >= required_k,  v >= 0         y <= e_n, y <= ordinary limit
"""
import numpy as np
from scipy import sparse
from scipy.optimize import linprog

SEPARATE_ABOVE = 1e-6        # kWh: a sum below this is not looked at departure by departure
HOLD = 2e-9                  # kWh: slack with which an earlier step is held; above the solver's own tolerance
OPTIONS = {"primal_feasibility_tolerance": 1e-10, "dual_feasibility_tolerance": 1e-10}


class Infeasible(RuntimeError):
    """The solver found no solution: by the definitions this can't happen."""


class ChargingProgram:
    def __init__(self, model, mutant=""):
        self.model, self.mutant = model, mutant
        n, k = model.count, len(model.departures)
        self.n, self.k = n, k
        self.x, self.e, self.u, self.v, self.y = 0, n, 2 * n, 3 * n, 3 * n + k
        self.width = 3 * n + k + 1
        gain = np.array(model.rate) * np.array(model.length)
        rows = np.arange(n)
        self.balance = sparse.csc_matrix(
            (np.concatenate([np.ones(n), -np.ones(n - 1), -gain, -np.ones(n)]),
             (np.concatenate([rows, rows[1:], rows, rows]),
              np.concatenate([self.e + rows, self.e + rows[:-1], self.x + rows, self.u + rows]))),
            shape=(n, self.width))
        self.balance_rhs = -np.array(model.drive)
        self.balance_rhs[0] += model.household.energy
        self.bounds = self._bounds()
        self.rows, self.rhs = [], []                        # A_ub as lists of {column: coefficient}
        for j, departure in enumerate(model.departures):
            if departure.required > 0:
                self._at_most({self._energy_column(departure.boundary): -1.0, self.v + j: -1.0}, -departure.required)
        self._at_most({self.y: 1.0, self.e + n - 1: -1.0}, 0.0)

    def _energy_column(self, boundary):
        return self.e + boundary - 1                        # boundary 0 is given; no departure lies on it

    def _bounds(self):
        m, n = self.model, self.n
        bounds = np.zeros((self.width, 2))
        bounds[:n, 1] = [1.0 if r > 0 else 0.0 for r in m.rate]
        bounds[self.e:self.e + n, 0] = m.lower[1:]
        bounds[self.e:self.e + n, 1] = m.upper[1:]
        bounds[self.u:self.u + n, 1] = m.drive
        bounds[self.v:self.v + self.k, 1] = np.inf
        bounds[self.y, 1] = m.household.vehicle.ordinary
        if self.mutant == "tripShortfallUnlimited":
            bounds[self.u:self.u + n, 1] = [np.inf if d > 0 else 0.0 for d in m.drive]
        return bounds

    def _at_most(self, row, right):
        self.rows.append(row)
        self.rhs.append(right)

    def _minimise(self, objective):
        at = [(i, c, a) for i, row in enumerate(self.rows) for c, a in row.items()]
        matrix = sparse.csc_matrix(([a for _, _, a in at], ([i for i, _, _ in at], [c for _, c, _ in at])),
                                   shape=(len(self.rows), self.width))
        for presolve in (True, False):                      # once in some thousand, presolve alone sees a hold as violated
            result = linprog(objective, A_ub=matrix, b_ub=np.array(self.rhs), A_eq=self.balance, b_eq=self.balance_rhs,
                             bounds=self.bounds, method="highs-ds", options={"presolve": presolve, **OPTIONS})
            if result.x is not None and result.status == 0:
                return result
        raise Infeasible(f"linprog: {result.status} {result.message}")

    def _shortfall_step(self, groups):
        """Least total first; where it is more than nothing and time order is asked, departure by departure."""
        objective = np.zeros(self.width)
        for columns in groups:
            objective[columns] = 1.0
        total = self._minimise(objective).fun
        if total <= SEPARATE_ABOVE or not self.model.household.in_time_order:
            self._at_most({c: 1.0 for columns in groups for c in columns}, max(0.0, total) + HOLD)
            return max(0.0, total)
        total = 0.0
        for columns in groups:
            objective[:] = 0.0
            objective[columns] = 1.0
            least = max(0.0, self._minimise(objective).fun)
            self._at_most({c: 1.0 for c in columns}, least + HOLD)
            total += least
        return total

    def cost_per_share(self):
        m, eta = self.model, self.model.household.vehicle.eta
        cost = np.zeros(self.n)
        for i in range(self.n):
            if m.rate[i] > 0:
                stored_only = m.price[i] < 0 and self.mutant != "lossesEarnNegativePrice"
                cost[i] = m.price[i] * (m.rate[i] / eta if stored_only else m.wall[i]) * m.length[i]
        return cost

    def solve(self):
        trip_groups = [[self.u + i for i in d.road if self.model.drive[i] > 0] for d in self.model.departures]
        trip_groups = [g for g in trip_groups if g]
        sum_trip = 0.0
        if trip_groups and self.mutant != "tripShortfallIgnored":
            sum_trip = self._shortfall_step(trip_groups)
        target_groups = [[self.v + j] for j, d in enumerate(self.model.departures) if d.required > 0]
        sum_target = 0.0
        if target_groups and self.mutant != "targetShortfallIgnored":
            sum_target = self._shortfall_step(target_groups)
        cost = self.cost_per_share()
        objective = np.zeros(self.width)
        objective[:self.n] = cost
        objective[self.y] = -self.model.end_value
        result = self._minimise(objective)
        return Solution(self, result.x, sum_trip, sum_target, float(cost @ result.x[:self.n]), float(result.fun))


class Solution:
    def __init__(self, program, values, sum_trip, sum_target, cost, objective):
        m, n = program.model, program.n
        self.model, self.cost, self.objective = m, cost, objective
        self.sum_trip, self.sum_target = sum_trip, sum_target
        self.share = values[:n]
        self.energy = np.concatenate([[m.household.energy], values[program.e:program.e + n]])
        self.unserved = values[program.u:program.u + n]
        self.trip_shortfall = [float(sum(self.unserved[i] for i in d.road)) for d in m.departures]
        self.target_shortfall = [float(max(0.0, d.required - self.energy[d.boundary])) for d in m.departures]
