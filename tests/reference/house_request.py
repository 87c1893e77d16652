"""What a request says about the house around its cars: load, solar roof, circuits, import limit, carbon price.

A request is one for a house where `is_house_request` says so; the cars themselves are read by request_reading.
"""
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone

from household_time import HOUR, MINUTE, RequestError, read_time, to_local, zone_of
from request_reading import read_request

HOUSE_KEYS = {"cars", "sharedCircuit", "importLimitKw", "solar", "houseLoad", "carbon"}
COUPLED_PARTS = {"demandCharges", "minimumBill", "export", "credits"}
HOURS_OF_A_YEAR = 8760
EPOCH, UTC = datetime(1970, 1, 1, tzinfo=timezone.utc), zone_of("UTC")


def is_house_request(request):
    plan = request.get("ratePlan")
    options = request.get("options", {})
    coupled = isinstance(plan, dict) and (COUPLED_PARTS & set(plan) or any(
        "blocks" in c for c in plan.get("energyCharges", [])) or any("useBand" in c for c in plan.get("customerCharges", [])))
    return bool(HOUSE_KEYS & set(request) or coupled or "running" in options)


@dataclass
class Series:
    """A value that holds for equal intervals; 0 before the first and after the last."""
    start: int
    interval: int
    values: list

    def at(self, instant):
        i = (instant - self.start) // self.interval
        return self.values[i] if 0 <= i < len(self.values) else 0.0

    def changes(self, start, end):
        padded = [0.0, *self.values, 0.0]
        return [t for i in range(1, len(padded))
                if padded[i] != padded[i - 1] and start < (t := self.start + (i - 1) * self.interval) < end]


@dataclass
class HouseLoad:
    """Use of the house for each hour of a common year in standard time. [kW]"""
    zone: object
    hourly: list

    def standard_offset(self, instant):
        """Microseconds east of Greenwich without daylight saving."""
        aware = (EPOCH + timedelta(microseconds=instant)).astimezone(self.zone)
        return (aware.utcoffset() - (aware.dst() or timedelta(0))) // timedelta(microseconds=1)

    def at(self, instant):
        standard = to_local(instant + self.standard_offset(instant), UTC)
        day = (standard.date() - datetime(standard.year, 1, 1).date()).days
        leap = standard.year % 4 == 0 and (standard.year % 100 != 0 or standard.year % 400 == 0)
        if leap and day >= 31 + 28:                         # 29 February repeats the 28th
            day -= 1
        return self.hourly[24 * day + standard.hour]

    def first_hour(self, instant):
        """Start of the hour that an instant lies in, by standard time."""
        shift = self.standard_offset(instant)
        return (instant + shift) // HOUR * HOUR - shift

    def changes(self, start, end):
        hours = range(self.first_hour(start) + HOUR, end, HOUR)
        return [t for t in hours if self.at(t) != self.at(t - HOUR)]


@dataclass
class CarRequest:
    name: str
    household: object        # of request_reading: vehicle, trips, supply
    volts: float             # across the phases
    adjustable: bool


@dataclass
class House:
    zone: object
    start: int
    cars: list
    load: object             # HouseLoad, Series or None
    solar: object            # Series or None
    import_limit: object     # kW or None
    circuit: object          # A or None
    carbon: object           # Series or a number, currency per kWh; None
    rate_plan: object
    used_so_far: float
    demand_so_far: dict      # kW by demand charge, in the first billing period
    past_peaks: list         # demand of earlier billing months: {"charge", "month", "kw"}
    in_time_order: bool

    def imported(self, instant):
        """kW that the house takes from the network without its cars."""
        return max(0.0, self.net(instant))

    def net(self, instant):
        return (self.load.at(instant) if self.load else 0.0) - (self.solar.at(instant) if self.solar else 0.0)


def read_house(request, mutant=""):
    zone = zone_of(request["timeZone"])
    options = request.get("options", {})
    one = [{k: request[k] for k in ("vehicle", "supply", "plugIn", "calendar")}] if "cars" not in request else request["cars"]
    circuit = read_circuit(request.get("sharedCircuit"))
    cars = [read_car(request, car, i, circuit, mutant) for i, car in enumerate(one)]
    load = None if mutant == "houseLoadDropped" else read_load(request.get("houseLoad"), zone)
    solar = None if mutant == "solarDropped" else read_series(request.get("solar"), "powerKw", zone)
    used = 0.0 if mutant == "blockUseSoFarIgnored" else options.get("usedSoFarKwh", 0.0)
    demand = {} if mutant == "demandSoFarIgnored" else options.get("demandSoFarKw", {})
    plan = request["ratePlan"]
    return House(
        zone=zone, start=min(c.household.start for c in cars), cars=cars, load=load, solar=solar,
        import_limit=None if mutant == "importLimitIgnored" else request.get("importLimitKw"),
        circuit=circuit if len(cars) > 1 else None, carbon=read_carbon(request.get("carbon"), zone),
        rate_plan=plan, used_so_far=used, demand_so_far=demand, past_peaks=request.get("carriedState", {}).get("peaks", []),
        in_time_order=cars[0].household.in_time_order)


def read_car(request, car, number, circuit, mutant):
    options = dict(request.get("options", {}))
    if "targetStateOfCharge" in car:
        options["targetStateOfCharge"] = car["targetStateOfCharge"]
    alone = {**request, **{k: car[k] for k in ("vehicle", "supply", "plugIn", "calendar")}, "options": options}
    household = read_request(alone, mutant)
    if mutant == "secondCarDriveDropped" and number == 1:
        for leg in [leg for trip in household.trips for leg in trip.legs]:
            leg.kwh = 0.0
    running = {**options.get("running", {}), **car.get("running", {})}
    volts = 690.0 if car["supply"].get("phases", 1) == 3 else float(car["supply"]["voltageV"])
    if circuit is not None:                                 # what all may take together, each alone may not exceed
        most = volts * circuit / 1000
        household.wall_kw = 0.0 if circuit < household.vehicle.minimum_current else min(household.wall_kw, most)
    return CarRequest(car.get("name", f"car {number + 1}"), household, volts, running.get("adjustable", False))


def read_load(document, zone):
    if document is None:
        return None
    if set(document) != {"hourlyKwh"} or len(document["hourlyKwh"]) != HOURS_OF_A_YEAR:
        raise RequestError("this reference reads a house load of 8,760 hours")
    return HouseLoad(zone, document["hourlyKwh"])


def read_series(document, member, zone):
    if document is None:
        return None
    return Series(read_time(document["start"], zone), document["intervalMinutes"] * MINUTE, list(document[member]))


def read_circuit(document):
    if document is None:
        return None
    if "currentA" in document:
        return document["currentA"]
    rule = document.get("rule", "unknown")
    if rule == "dedicatedCircuit":
        raise RequestError("this reference reads the current of a shared circuit, or its breaker at 80 %")
    return 0.8 * document["breakerA"]


def read_carbon(document, zone):
    if document is None:
        return None
    per_gram = float(document["pricePerTonne"]) / 1_000_000
    grams = document["gramsPerKwh"]
    if isinstance(grams, dict):
        series = read_series(grams, "gramsPerKwh", zone)
        return Series(series.start, series.interval, [g * per_gram for g in series.values])
    return grams * per_gram
