"""The intervals of one household and everything computed on them before a solve: rates, prices, drives, W, L, U.

One entry per interval and per boundary, nothing merged. Energies in kWh, powers in kW, boundaries in microseconds.
"""
from bisect import bisect_right
from dataclasses import dataclass

from household_time import DAY, HOUR, MINUTE, hours
from rate_plan_prices import price_steps
from request_reading import read_request

HALF_HOUR = 30 * MINUTE


@dataclass
class Departure:
    boundary: int            # index of the boundary at which the trip leaves
    trip: object
    required: float          # kWh
    road: list               # indices of the trip's intervals; empty for a departure at the very end


@dataclass
class Model:
    household: object
    bounds: list             # n + 1 instants
    length: list             # n, h
    home: list               # n, plugged in at home
    wall: list               # n, kW offered (home or stop), 0 elsewhere
    rate: list               # n, kW into the battery at full power
    price: list              # n, per wall kWh
    drive: list              # n, mean kWh driven
    departures: list
    least: list              # n + 1, W
    lower: list              # n + 1, L
    upper: list              # n + 1, U
    end_value: float
    celsius: list = ()       # n

    @property
    def count(self):
        return len(self.length)


def build_model(request, mutant=""):
    """One car whose charges nothing couples."""
    household = read_request(request, mutant)
    start, end = horizon(household, mutant)
    steps = price_steps(household.rate_plan, household.zone, start, end)
    bounds = boundaries(household, start, end, [t for t, _ in steps])
    return on_grid(household, bounds, step_values(steps, bounds, mutant), mutant)


def step_values(steps, bounds, mutant=""):
    """The value of steps [(instant, value)] in each interval."""
    late = 1 if mutant == "priceOneIntervalLate" else 0
    at = [bounds[max(0, i - late)] for i in range(len(bounds) - 1)]
    return [steps[bisect_right(steps, (t, float("inf"))) - 1][1] for t in at]


def on_grid(household, bounds, home_price, mutant=""):
    """The model of one car on given intervals; a car that is plugged in after the first of them can't charge before."""
    vehicle, end = household.vehicle, bounds[-1]
    trips = trips_of(household, end)
    n = len(bounds) - 1
    index = {t: i for i, t in enumerate(bounds)}
    length = [hours(b - a) for a, b in zip(bounds, bounds[1:])]
    home, price, drive = [True] * n, list(home_price), [0.0] * n
    wall = [household.wall_kw if t >= household.start else 0.0 for t in bounds[:-1]]
    for trip in trips:
        for i in range(index[trip.departure], index[trip.back]):
            home[i], wall[i] = False, 0.0
        for leg in trip.legs:
            for i in range(index[leg.start], index[leg.end]):
                drive[i] += leg.kwh * (bounds[i + 1] - bounds[i]) / (leg.end - leg.start)
        for stop in trip.stops:
            for i in range(index[stop.start], index[stop.end]):
                wall[i], price[i] = stop.kw, stop.price
        if mutant == "departureOneIntervalEarly":
            before = index[trip.departure] - 1
            if home[before]:
                wall[before] = 0.0
    ahead = 1 if mutant == "temperatureAtIntervalEnd" else 0
    celsius = [household.weather.at(bounds[i + ahead]) for i in range(n)]
    rate = [vehicle.net_rate(wall[i], celsius[i]) for i in range(n)]

    departures = []
    for trip in [t for t in household.trips if household.start < t.departure <= end]:
        at = index[trip.departure]
        road = [] if trip.departure == end else list(range(at, index[trip.back]))
        departures.append(Departure(at, trip, required_energy(household, trip), road))
    required = {d.boundary: d.required for d in departures}

    least = least_energy(vehicle, length, rate, home, drive, wall, required)
    lower = lower_bounds(household, length, rate, home)
    upper = upper_bounds(household, bounds, length, rate, home, celsius, least, departures, mutant)
    value = 0.0 if mutant == "endValueDropped" else end_value(bounds, home, wall, rate, price)
    return Model(household, bounds, length, home, wall, rate, price, drive, departures, least, lower, upper, value, celsius)


def horizon(household, mutant=""):
    """t0, and the horizon's end: at least the second departure, never inside a trip."""
    start = household.start
    end = start + round(max(2, household.horizon_days) * DAY)
    ahead = [t.departure for t in household.trips if t.departure > start]
    if len(ahead) >= 2 and mutant != "secondDepartureIgnored":
        end = max(end, ahead[1])
    for trip in household.trips:
        if trip.departure < end < trip.back:
            return start, trip.back
    return start, end


def trips_of(household, end):
    """The trips that are not over when the car is plugged in and begin before the end."""
    return [t for t in household.trips if t.back > household.start and t.departure < end]


def boundaries(household, start, end, price_changes):
    step = household.grid_minutes * MINUTE
    cuts = {start, end, *range((start // step + 1) * step, end, step)}
    cuts.update(price_changes)
    cuts.update(household.weather.changes(start, end))
    for trip in trips_of(household, end):
        for part in trip.legs + trip.stops:
            cuts.update((part.start, part.end))
    return sorted(t for t in cuts if start <= t <= end)


def required_energy(household, trip):
    """What a departure asks for: the target, or the trip's need at the stated confidence above the minimum. [kWh]"""
    vehicle = household.vehicle
    need = vehicle.minimum
    parts = [(leg.start, leg) for leg in trip.legs] + [(stop.start, stop) for stop in trip.stops]
    for _, part in sorted(parts, key=lambda p: p[0], reverse=True):
        if hasattr(part, "kwh"):
            need += part.kwh * household.factor
            continue
        cuts = [part.start, *household.weather.changes(part.start, part.end), part.end]
        for a, b in reversed(list(zip(cuts, cuts[1:]))):
            gained = vehicle.net_rate(part.kw, household.weather.at(a)) * hours(b - a)
            if gained > 0:
                need = max(vehicle.minimum, need - gained)
    return min(vehicle.extended, max(trip.target, need))


def least_energy(vehicle, length, rate, home, drive, wall, required):
    """W, backward: what must be stored at each boundary so that full power from then on meets what follows. [kWh]"""
    n = len(length)
    least = [0.0] * (n + 1)
    least[n] = max(vehicle.minimum, required.get(n, 0.0))
    for i in range(n - 1, -1, -1):
        if home[i] or wall[i] > 0:
            before = max(vehicle.minimum, least[i + 1] - rate[i] * length[i])
        else:
            before = least[i + 1] + drive[i]
        least[i] = max(before, required.get(i, 0.0))
    return least


def lower_bounds(household, length, rate, home):
    minimum = household.vehicle.minimum
    lower = [min(minimum, household.energy)]
    for i in range(len(length)):
        lower.append(min(minimum, lower[i] + rate[i] * length[i]) if home[i] else lower[i])
    return lower


def upper_bounds(household, bounds, length, rate, home, celsius, least, departures, mutant=""):
    vehicle, n = household.vehicle, len(length)
    if mutant == "ordinaryLimitIgnored":
        return [max(vehicle.extended, household.energy)] * (n + 1)
    inside = [0 < i < n and not home[i] and not home[i - 1] for i in range(n + 1)]
    for departure in departures:
        inside[departure.boundary] = False                  # back to back: a return and a departure at once
        if departure.road:
            inside[departure.road[-1] + 1] = False

    def least_at(instant):
        i = bisect_right(bounds, instant) - 1
        if i >= n or bounds[i] == instant:
            return least[min(i, n)]
        return max(vehicle.minimum, least[i + 1] - rate[i] * (bounds[i + 1] - instant) / HOUR)

    upper = [vehicle.usable] * (n + 1)
    carry, stay = household.energy, 0
    for departure in departures + [None]:
        leaves = n if departure is None else departure.boundary
        margin = HALF_HOUR
        if mutant == "marginDropped":
            margin = 0
        elif departure is not None and mutant != "coldMarginIgnored" and celsius[leaves - 1] < -5:
            charging = sum(length[i] for i in range(stay, leaves) if home[i] and least[i + 1] > vehicle.ordinary)
            margin = max(HALF_HOUR, 0.2 * charging * HOUR)
        for i in range(stay, leaves + 1):
            if not inside[i]:
                wanted = min(vehicle.extended, least_at(min(bounds[i] + margin, bounds[leaves])))
                upper[i] = max(vehicle.ordinary, carry, wanted)
        if departure is not None and departure.road:
            carry = max(0.0, upper[leaves] - departure.trip.mean_kwh)
            if mutant == "carryDropped":
                carry = 0.0
            stay = departure.road[-1] + 1
        elif departure is not None:
            break                                           # a departure at the very end: nothing follows
    return upper


def end_value(bounds, home, wall, rate, price):
    """Worth of a stored kWh at the end: the median of price * P / r over plugged-in time, weighted by length."""
    offers = sorted((price[i] * wall[i] / rate[i], bounds[i + 1] - bounds[i])
                    for i in range(len(home)) if home[i] and rate[i] > 0)
    total, reached = sum(weight for _, weight in offers), 0
    for value, weight in offers:
        reached += weight
        if 2 * reached >= total:                            # whole microseconds: exact
            return max(0.0, value)
    return 0.0
