"""A house and its cars on one grid of intervals: everything that the program of house_program may know."""
from bisect import bisect_right
from dataclasses import dataclass

from house_plan import ENDLESS, HousePlan
from house_request import Series, read_house
from household_time import hours
from interval_model import boundaries, horizon, on_grid, step_values
from rate_plan_prices import price_steps

TINY = 1e-9


@dataclass
class Car:
    name: str
    model: object            # of interval_model
    volts: float
    most: list               # n, kW of the wall; 0 where it can't charge
    least: list              # n, kW of the wall while it charges
    loss: list               # n, kW that overhead and heating take while it charges
    adjustable: bool


@dataclass
class HouseModel:
    house: object
    bounds: list
    length: list
    net: list                # n, kW: load less solar
    cars: list
    import_price: list
    export_price: list
    carbon: list             # n, per kWh imported
    terms: list

    @property
    def count(self):
        return len(self.length)

    def imported(self, i):
        return max(0.0, self.net[i])

    def overlap(self, a, b):
        """[(interval, hours of it between two instants)]"""
        first = max(0, bisect_right(self.bounds, a) - 1)
        found = []
        for i in range(first, self.count):
            if self.bounds[i] >= b:
                break
            inside = min(b, self.bounds[i + 1]) - max(a, self.bounds[i])
            if inside > 0:
                found.append((i, hours(inside)))
        return found


def build_house_model(request, mutant=""):
    house = read_house(request, mutant)
    end = common_end(house, mutant)
    start = house.start
    stated = "priceSteps" in house.rate_plan
    plan = None if stated else HousePlan(house, start, end, mutant)
    cuts = {start, end}
    for series in (house.load, house.solar, house.carbon):
        cuts.update(series.changes(start, end) if hasattr(series, "changes") else ())
    steps = price_steps(house.rate_plan, house.zone, start, end) if stated else \
        [(t, plan.import_price(t)) for t in plan.changes(start, end) if t < end]
    price_cuts = [b[0] for a, b in zip(steps, steps[1:]) if a[1] != b[1]]
    if plan:
        cuts.update(changed(plan.export_price, plan.changes(start, end)))
        for term in plan.terms:
            for a, b in getattr(term, "hours", []) + getattr(term, "windows", []):
                cuts.update((a, b))
        cuts.update(p.start for p in plan.periods)
    for car in house.cars:
        cuts.update(boundaries(car.household, start, end, price_cuts))
        cuts.add(car.household.start)
    bounds = sorted(t for t in cuts if start <= t <= end)
    import_price = step_values(steps, bounds, mutant)
    export_price = [plan.export_price(t) if plan and house.solar else 0.0 for t in bounds[:-1]]
    carbon = [house.carbon.at(t) if isinstance(house.carbon, Series) else house.carbon or 0.0 for t in bounds[:-1]]
    if mutant == "carbonDropped":
        carbon = [0.0] * len(carbon)

    length, net = [hours(b - a) for a, b in zip(bounds, bounds[1:])], [house.net(t) for t in bounds[:-1]]
    room = [ENDLESS if house.import_limit is None else max(0.0, house.import_limit - kw) for kw in net]
    cars = [car_on_grid(car, bounds, import_price, room, mutant) for car in house.cars]
    return HouseModel(house, bounds, length, net, cars, import_price, export_price, carbon,
                      plan.terms if plan else [])


def changed(value, instants):
    return [b for a, b in zip(instants, instants[1:-1]) if value(a) != value(b)]


def common_end(house, mutant=""):
    """The end of the longest horizon of any car, counted from the first plug-in; never inside a trip of any."""
    ends = []
    for car in house.cars:
        household = car.household
        own, household.start = household.start, house.start
        ahead = household.trips
        household.trips = [t for t in ahead if t.departure > own]
        ends.append(horizon(household, mutant)[1])
        household.start, household.trips = own, ahead
    end = max(ends)
    while away := [t for car in house.cars for t in car.household.trips if t.departure < end < t.back]:
        end = max(t.back for t in away)
    return end


def car_on_grid(car, bounds, import_price, room, mutant=""):
    """A car's powers: none where what the import limit leaves it alone is less than it can be set to."""
    model = on_grid(car.household, bounds, import_price, mutant)
    vehicle = car.household.vehicle
    most, least, losses = [], [], []
    for i in range(model.count):
        heating = min(vehicle.heating_max, vehicle.heating_slope * max(0.0, vehicle.heating_below - model.celsius[i]))
        loss = vehicle.overhead + heating
        high = low = model.wall[i] if model.rate[i] > 0 else 0.0
        if model.home[i] and high > 0:
            if car.adjustable:
                low, high = max(car.volts * vehicle.minimum_current / 1000, loss / vehicle.eta), min(high, room[i])
            if high > room[i] + TINY or high < low - TINY or vehicle.eta * high <= loss:
                low = high = 0.0
            loss = 0.0 if car.adjustable and mutant == "overheadDroppedWhenAdjustable" else loss
        most.append(high)
        least.append(min(low, high))
        losses.append(loss)
    return Car(car.name, model, car.volts, most, least, losses, car.adjustable)
