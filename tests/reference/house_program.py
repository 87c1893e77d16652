"""Steps 1a, 1b and 2 for a house with several cars and charges that couple them.

For each car and interval: y share of the interval in which it charges, p average power at the wall, e stored energy, u what the battery
doesn't give of the drive; for each departure v, what is missing of the wish. For the house: imp and exp, imp - exp = load - solar + sum p.
    least y <= p <= most y          e' = e + (eta p - loss y) d - (drive - u)          L <= e <= U
Cost is the bill with the cars less the bill without them, plus what stops and emissions cost.
"""
from house_plan import ENDLESS, BandTerm, BlockTerm, DemandTerm, MinimumTerm
from mixed_program import MixedProgram

SEPARATE_ABOVE = 1e-6        # kWh: a sum below this is not looked at departure by departure
HOLD = 2e-9                  # kWh: slack with which an earlier step is held


class HouseProgram(MixedProgram):
    def __init__(self, model, mutant=""):
        super().__init__()
        self.model, self.mutant = model, mutant
        self.cars = [CarColumns(self, car) for car in model.cars]
        self._flows()
        self._circuit()
        self.bill = {}                                      # period's start -> its extra cost (expression, constant)
        self.period_starts = sorted({t.period.start for t in model.terms})
        self.beside = {}                                    # carbon and stops: not on the bill
        self._energy()
        for kind, add in ((BlockTerm, self._block), (BandTerm, self._band), (DemandTerm, self._demand), (MinimumTerm, self._minimum)):
            for term in [t for t in model.terms if isinstance(t, kind)]:
                add(term)

    # --- power

    def _flows(self):
        m, limit = self.model, self.model.house.import_limit
        self.imp, self.exp = [], []
        for i in range(m.count):
            at_home = [c for c in self.cars if c.car.model.home[i] and c.car.most[i] > 0]
            surplus, most = max(0.0, -m.net[i]), sum(c.car.most[i] for c in at_home)
            high = max(0.0, m.net[i] + most)
            if limit is not None:
                high = min(high, max(limit, m.net[i], 0.0))
            self.imp.append(self.variable(0.0, high))
            self.exp.append(self.variable(0.0, surplus))
            balance = {self.imp[i]: 1.0, self.exp[i]: -1.0, **{c.p[i]: -1.0 for c in at_home}}
            self.add_equal(balance, m.net[i])
            if surplus > 0 and high > 0 and self._may_loop(i):
                either = self.choice()
                self.add_at_most({self.imp[i]: 1.0, either: -high}, 0.0)
                self.add_at_most({self.exp[i]: 1.0, either: surplus}, surplus)

    def _may_loop(self, i):
        """Whether importing and exporting at once could pay: then one of them must be nothing."""
        m = self.model
        least = m.import_price[i] + m.carbon[i]
        for term in m.terms:
            if isinstance(term, BandTerm) or isinstance(term, BlockTerm) and term.whole_use:
                return True
            if isinstance(term, BlockTerm):
                least += min(0.0, *(price for _, price in term.edges))
        return m.export_price[i] > least

    def _circuit(self):
        m, limit = self.model, self.model.house.circuit
        for i in range(m.count if limit is not None else 0):
            drawn = {c.p[i]: 1000 / c.car.volts for c in self.cars if c.car.model.home[i] and c.car.most[i] > 0}
            if self.mutant == "circuitLimitPerCar":
                for column, amperes in drawn.items():
                    self.add_at_most({column: amperes}, limit)
            elif drawn:
                self.add_at_most(drawn, limit)

    # --- money

    def _period_at(self, instant):
        return max((s for s in self.period_starts if s <= instant), default=None)

    def _charge(self, period, expression, constant=0.0):
        before, fixed = self.bill.get(period, ({}, 0.0))
        self.bill[period] = (self.plus((1.0, before), (1.0, expression)), fixed + constant)

    def _energy(self):
        m = self.model
        for i in range(m.count):
            d = m.length[i]
            without = m.import_price[i] * max(0.0, m.net[i]) - m.export_price[i] * max(0.0, -m.net[i])
            self._charge(self._period_at(m.bounds[i]), {self.imp[i]: m.import_price[i] * d, self.exp[i]: -m.export_price[i] * d}, -without * d)
            self.beside[self.imp[i]] = m.carbon[i] * d
            self.constant -= m.carbon[i] * d * m.imported(i)
            for c in self.cars:
                if not c.car.model.home[i] and c.car.most[i] > 0:
                    self.beside[c.p[i]] = c.car.model.price[i] * d

    def _pieces(self, start, blocks, most, convex):
        """Columns that fill the blocks above a start, `most` in all, in their order; with their prices."""
        cost, widths, below = {}, {}, start
        for limit, price in blocks:
            width = min(limit, start + most) - below
            if width > 0:
                piece = self.variable(0.0, width)
                cost[piece], widths[piece] = price, width
                below += width
        pieces = list(widths)
        for piece, after in zip(pieces, pieces[1:]) if not convex else ():
            full = self.choice()
            self.add_at_most({piece: -1.0, full: widths[piece]}, 0.0)
            self.add_at_most({after: 1.0, full: -widths[after]}, 0.0)
        return cost

    def _use(self, spans):
        """Use of the cars at the meter in some hours, and the most that it can be."""
        m, use, without, most = self.model, {}, 0.0, 0.0
        for a, b in spans:
            for i, d in m.overlap(a, b):
                use[self.imp[i]] = use.get(self.imp[i], 0.0) + d
                without += d * m.imported(i)
                most += d * (self.high[self.imp[i]] - m.imported(i))
        return use, without, most

    def _block(self, term):
        use, without, most = self._use(term.hours)
        if term.whole_use:
            self._whole_use(term, use, without, most)
            return
        ahead = [(limit, price) for limit, price in term.edges if limit > term.used]
        convex = ahead[0][0] >= term.used + most or all(a[1] <= b[1] for a, b in zip(ahead, ahead[1:]))
        cost = self._pieces(term.used, ahead, most, convex)
        self.add_equal(self.plus((1.0, use), (-1.0, dict.fromkeys(cost, 1.0))), without)
        self._charge(term.period.start, cost)

    def _regions(self, use, without, used, most, regions):
        """One of several stretches that the use of the billing period may end in. Returns [(chosen, use if it is chosen)]."""
        found, top = [], used + most + 1
        for low, high in regions:
            chosen, quantity = self.choice(), self.variable(0.0, top)
            self.add_at_most({quantity: 1.0, chosen: -min(high, top)}, 0.0)
            self.add_at_most({quantity: -1.0, chosen: max(low, 0.0)}, 0.0)
            found.append((chosen, quantity))
        self.add_equal({chosen: 1.0 for chosen, _ in found}, 1.0)
        self.add_equal(self.plus((1.0, use), (-1.0, {quantity: 1.0 for _, quantity in found})), without - used)
        return found

    def _whole_use(self, term, use, without, most):
        lows = [0.0, *(limit for limit, _ in term.edges)]
        ahead = [(low, limit, price) for low, (limit, price) in zip(lows, term.edges) if limit >= term.used]
        found = self._regions(use, without, term.used, most, [(low, high) for low, high, _ in ahead])
        self._charge(term.period.start, {quantity: price for (_, quantity), (_, _, price) in zip(found, ahead)}, -ahead[0][2] * term.used)

    def _band(self, term):
        period, m = term.period, self.model
        use, without, most = self._use([(max(period.start, m.bounds[0]), min(period.end, m.bounds[-1]))])
        regions = [(-ENDLESS, term.over, 0.0), (term.over, term.up_to, term.amount), (term.up_to, ENDLESS, 0.0)]
        regions = [r for r in regions if r[0] < r[1] and r[1] >= term.used]
        found = self._regions(use, without, term.used, most, [r[:2] for r in regions])
        holds = term.over < term.used <= term.up_to
        self._charge(period.start, {chosen: r[2] for (chosen, _), r in zip(found, regions)}, -term.amount if holds else 0.0)

    def _demand(self, term):
        m, averages, alone = self.model, [], [term.measured]
        for a, b in term.windows:
            inside = m.overlap(a, b)                        # what of an average lies outside of the horizon is taken to be like the rest
            span, average = sum(d for _, d in inside), {}
            for i, d in inside:
                if self.mutant == "demandOfCarAlone":
                    average.update({c.p[i]: d / span for c in self.cars if c.car.model.home[i]})
                else:
                    average[self.imp[i]] = d / span
            averages.append(average)
            alone.append(sum(m.imported(i) * d / span for i, d in inside))
        # Without charging nothing is added, though an average of the house alone may be more than any hour of the expected load.
        base = max(*alone, term.floor)
        if averages:
            ahead = [(limit, price) for limit, price in term.blocks if limit > base]
            convex = all(a[1] <= b[1] for a, b in zip(ahead, ahead[1:]))
            cost = self._pieces(base, ahead, max(self.high[c] for c in self.imp) + sum(max(c.car.most) for c in self.cars), convex)
            for average in averages:
                self.add_at_most({**average, **dict.fromkeys(cost, -1.0)}, base)
            self._charge(term.period.start, cost)

    def _minimum(self, term):
        extra, fixed = self.bill[term.period.start]
        room = self.variable()
        self.add_at_most({**self.plus((-1.0, extra)), room: -1.0}, term.counted + fixed - term.minimum)
        self._charge(term.period.start, {room: 1.0}, -max(0.0, term.minimum - term.counted))

    # --- steps

    def solve(self):
        sum_trip = sum_target = 0.0
        departures = [(c.car.model.bounds[d.boundary], k, j) for k, c in enumerate(self.cars) for j, d in enumerate(c.car.model.departures)]
        if self.mutant == "carsOneAfterTheOther":
            departures.sort(key=lambda d: (d[1], d[0]))
        else:
            departures.sort()
        trips = [self.cars[k].trip_columns(j) for _, k, j in departures]
        if any(trips) and self.mutant != "tripShortfallIgnored":
            sum_trip = self._shortfall_step([g for g in trips if g])
        wishes = [[self.cars[k].v[j]] for _, k, j in departures if self.cars[k].car.model.departures[j].required > 0]
        if wishes and self.mutant != "targetShortfallIgnored":
            sum_target = self._shortfall_step(wishes)
        cost, constant = self.beside, self.constant
        for expression, fixed in self.bill.values():
            cost, constant = self.plus((1.0, cost), (1.0, expression)), constant + fixed
        values, objective = self.minimise(self.plus((1.0, cost), (1.0, self._beyond_cost())))
        spent = constant + sum(a * values[c] for c, a in cost.items())
        return HouseSolution(self, values, sum_trip, sum_target, float(spent), float(objective + constant))

    def _beyond_cost(self):
        """What step 2 counts beside money: stored energy's worth at the end, and no gain from energy that is burned."""
        m, beyond = self.model, {}
        for c in self.cars:
            beyond[c.worth] = -c.car.model.end_value
            eta = c.car.model.household.vehicle.eta
            for i in range(m.count):
                if c.car.model.home[i] and m.import_price[i] < 0 and self.mutant != "lossesEarnNegativePrice":
                    beyond[c.y[i]] = -m.import_price[i] * c.car.loss[i] / eta * m.length[i]
        return beyond

    def _shortfall_step(self, groups):
        total = self._least([c for g in groups for c in g])
        if total <= SEPARATE_ABOVE or not self.model.house.in_time_order:
            self.add_at_most({c: 1.0 for g in groups for c in g}, total + HOLD)
            return total
        total = 0.0
        for group in groups:
            least = self._least(group)
            self.add_at_most({c: 1.0 for c in group}, least + HOLD)
            total += least
        return total

    def _least(self, columns):
        # Which way energy flows is no matter here: yes-or-no variables forbid no charging.
        return max(0.0, self.minimise({c: 1.0 for c in columns}, relaxed=True)[1])


class CarColumns:
    """The columns of one car, its balance and its wishes."""

    def __init__(self, program, car):
        self.car, model = car, car.model
        n, eta = model.count, model.household.vehicle.eta
        self.y = program.variables([0.0] * n, [1.0 if most > 0 else 0.0 for most in car.most])
        self.p = program.variables([0.0] * n, car.most)
        self.u = program.variables([0.0] * n, [float("inf") if program.mutant == "tripShortfallUnlimited" and d > 0 else d for d in model.drive])
        self.e = [None, *program.variables(model.lower[1:], model.upper[1:])]
        self.v = program.variables([0.0] * len(model.departures), [float("inf")] * len(model.departures))
        self.worth = program.variable(0.0, model.household.vehicle.ordinary)
        for i in range(n):
            if car.most[i] > 0:
                program.add_at_most({self.p[i]: 1.0, self.y[i]: -car.most[i]}, 0.0)
                program.add_at_most({self.p[i]: -1.0, self.y[i]: car.least[i]}, 0.0)
            d = model.length[i]
            balance = {self.e[i + 1]: 1.0, self.p[i]: -eta * d, self.y[i]: car.loss[i] * d, self.u[i]: -1.0}
            if i == 0:
                program.add_equal(balance, model.household.energy - model.drive[i])
            else:
                program.add_equal({**balance, self.e[i]: -1.0}, -model.drive[i])
        for j, departure in enumerate(model.departures):
            if departure.required > 0:
                program.add_at_most({self.e[departure.boundary]: -1.0, self.v[j]: -1.0}, -departure.required)
        program.add_at_most({self.worth: 1.0, self.e[n]: -1.0}, 0.0)

    def trip_columns(self, j):
        return [self.u[i] for i in self.car.model.departures[j].road if self.car.model.drive[i] > 0]


class HouseSolution:
    def __init__(self, program, values, sum_trip, sum_target, cost, objective):
        self.cost, self.objective, self.sum_trip, self.sum_target = cost, objective, sum_trip, sum_target
        self.cars = [CarSolution(c, values) for c in program.cars]
        self.imported = [values[c] for c in program.imp]
        self.exported = [values[c] for c in program.exp]


class CarSolution:
    def __init__(self, columns, values):
        model = columns.car.model
        self.share, self.power = [values[c] for c in columns.y], [values[c] for c in columns.p]
        self.unserved = [values[c] for c in columns.u]
        self.energy = [model.household.energy, *(values[c] for c in columns.e[1:])]
        self.trip_shortfall = [float(sum(self.unserved[i] for i in d.road)) for d in model.departures]
        self.target_shortfall = [float(max(0.0, d.required - self.energy[d.boundary])) for d in model.departures]
