"""One request of POST /v1/schedules as plain numbers: kWh, kW, degC, hours, instants in microseconds.

Everything here is read from the JSON alone, in our own words: nothing is shared with the C# engine.
"""
from bisect import bisect_right
from dataclasses import dataclass, field
from statistics import NormalDist

from household_time import (HOUR, RequestError, departure_instant, read_time, return_instant, zone_of)

KM_PER_MILE = 1.609344
# Relative consumption against temperature, physics-model section 5.
FACTOR_C = [-30, -20, -10, -5, 0, 5, 10, 15, 20, 25, 30, 35, 40]
FACTOR = [1.90, 1.65, 1.45, 1.35, 1.25, 1.16, 1.08, 1.02, 1.00, 1.02, 1.07, 1.13, 1.20]


def relative_consumption(celsius, sensitivity):
    """f(T) = 1 + sigma (f0(T) - 1); f0 piecewise linear and constant outside its knots."""
    if celsius <= FACTOR_C[0]:
        base = FACTOR[0]
    elif celsius >= FACTOR_C[-1]:
        base = FACTOR[-1]
    else:
        i = bisect_right(FACTOR_C, celsius) - 1
        share = (celsius - FACTOR_C[i]) / (FACTOR_C[i + 1] - FACTOR_C[i])
        base = FACTOR[i] * (1 - share) + FACTOR[i + 1] * share
    return 1 + sensitivity * (base - 1)


@dataclass
class Vehicle:
    usable: float
    charger_kw: float
    kwh_per_km: float
    sensitivity: float
    spread: float
    ordinary: float      # kWh
    extended: float      # kWh
    minimum: float       # kWh
    minimum_current: float
    eta: float
    overhead: float
    heating_slope: float
    heating_below: float
    heating_max: float

    def net_rate(self, wall_kw, celsius):
        """r(P, T) in kW, battery side."""
        if wall_kw <= 0:
            return 0.0
        heating = min(self.heating_max, self.heating_slope * max(0.0, self.heating_below - celsius))
        return max(0.0, self.eta * wall_kw - self.overhead - heating)


@dataclass
class Weather:
    start: int
    celsius: list

    def at(self, instant):
        index = (instant - self.start) // HOUR
        return self.celsius[min(max(index, 0), len(self.celsius) - 1)]

    def changes(self, start, end):
        values = self.celsius
        return [t for i in range(1, len(values))
                if values[i] != values[i - 1] and start < (t := self.start + i * HOUR) < end]


@dataclass
class Leg:
    start: int
    end: int
    kwh: float           # mean energy


@dataclass
class Stop:
    start: int
    end: int
    kw: float            # 0: no charging tonight
    price: float


@dataclass
class Trip:
    departure: int
    back: int
    target: float        # kWh
    legs: list = field(default_factory=list)
    stops: list = field(default_factory=list)

    @property
    def mean_kwh(self):
        return sum(leg.kwh for leg in self.legs)


@dataclass
class Household:
    zone: object
    start: int           # t0
    energy: float        # e0, kWh
    vehicle: Vehicle
    wall_kw: float
    trips: list          # in order of departure, every one of the calendar
    weather: Weather
    rate_plan: object
    grid_minutes: int
    horizon_days: float
    in_time_order: bool
    factor: float        # on the mean energy, for the stated confidence


def read_request(request, mutant=""):
    zone = zone_of(request["timeZone"])
    options = request.get("options", {})
    if mutant == "minimumIgnored":
        request = {**request, "vehicle": {**request["vehicle"], "minimumStateOfCharge": 0.0}}
    vehicle = read_vehicle(request["vehicle"], mutant)
    plug_in = request["plugIn"]
    start = read_time(plug_in.get("at", request["asOf"]), zone)
    if start < read_time(request["asOf"], zone):
        raise RequestError("plugIn.at lies before asOf")
    weather = read_weather(request["weather"], zone)
    asked = options.get("targetStateOfCharge", 0.0)
    calendar = request["calendar"]
    if "trips" not in calendar:
        raise RequestError("this reference reads trips, not iCalendar text")
    trips = sorted((read_trip(t, zone, vehicle, weather, asked, mutant) for t in calendar["trips"]), key=lambda t: t.departure)
    for before, after in zip(trips, trips[1:]):
        if after.departure < before.back:
            raise RequestError("two trips overlap")
    if any(t.departure <= start < t.back for t in trips):
        raise RequestError("a trip is under way when the car is said to be plugged in")
    z = 0.0 if mutant == "confidenceDropped" else NormalDist().inv_cdf(options.get("tripConfidence", 0.9))
    return Household(
        zone=zone, start=start, energy=plug_in["stateOfCharge"] * vehicle.usable, vehicle=vehicle,
        wall_kw=wall_power(request["supply"], vehicle, mutant), trips=trips, weather=weather,
        rate_plan=request["ratePlan"], grid_minutes=options.get("gridMinutes", 15),
        horizon_days=options.get("horizonDays", 7), factor=1 + z * vehicle.spread,
        in_time_order=options.get("shortfallOrder", "inTimeOrder") == "inTimeOrder" and mutant != "shortfallOrderIgnored")


def read_vehicle(v, mutant=""):
    usable = v["usableEnergyKwh"]
    per_km = v["consumptionKwhPer100Km"] / 100 if "consumptionKwhPer100Km" in v else v["consumptionKwhPer100Mi"] / 100 / KM_PER_MILE
    k = v.get("constants", {})
    ordinary, extended = v.get("ordinaryLimit", 0.8) * usable, v.get("extendedLimit", 1.0) * usable
    return Vehicle(
        usable=usable, charger_kw=v["onBoardChargerKw"], kwh_per_km=per_km,
        sensitivity=v.get("temperatureSensitivity", 1.0), spread=v.get("consumptionSpread", 0.10),
        ordinary=ordinary, extended=extended, minimum=v.get("minimumStateOfCharge", 0.1) * usable,
        minimum_current=v.get("minimumCurrentA", 6.0), eta=k.get("conversionEfficiency", 0.93),
        overhead=0.0 if mutant == "overheadDropped" else k.get("overheadKw", 0.22),
        heating_slope=0.0 if mutant == "heatingDropped" else k.get("heatingKwPerKelvin", 0.05),
        heating_below=k.get("heatingBelowC", 6.0), heating_max=k.get("heatingMaxKw", 2.0))


def wall_power(s, vehicle, mutant=""):
    """kW that the car draws at home; 0 where less than its minimum current is left."""
    breaker, stated, rule = s["breakerA"], s.get("statedCurrentA"), s.get("rule", "unknown")
    if mutant == "continuousRatingIgnored":
        rating = breaker
    elif rule == "dedicatedCircuit":
        rating = min(breaker, 0.8 * breaker if stated is None else stated)
    elif rule == "domesticSocket":
        rating = min(breaker, 10.0, 10.0 if stated is None else stated)
    else:
        rating = 0.8 * breaker
    volts = 690.0 if s.get("phases", 1) == 3 else float(s["voltageV"])
    amperes = min(rating - s.get("otherLoadA", 0.0), s.get("unitLimitA", float("inf")), vehicle.charger_kw * 1000 / volts)
    return 0.0 if amperes < vehicle.minimum_current else volts * amperes / 1000


def read_weather(w, zone):
    if "temperatureC" in w:
        return Weather(0, [w["temperatureC"]])
    if "temperatureF" in w:
        return Weather(0, [(w["temperatureF"] - 32) / 1.8])
    if "hourly" not in w:
        raise RequestError("this reference reads one temperature or an hourly series")
    series = w["hourly"]
    values = series["temperatureC"] if "temperatureC" in series else [(f - 32) / 1.8 for f in series["temperatureF"]]
    return Weather(read_time(series["start"], zone), list(values))


def kilometres(document):
    return document["distanceKm"] if "distanceKm" in document else document["distanceMi"] * KM_PER_MILE


def read_trip(t, zone, vehicle, weather, asked, mutant=""):
    if "recurrence" in t:
        raise RequestError("this reference reads single trips, not recurrences")
    departure = read_time(t["departure"], zone, lambda local, z: departure_instant(local, z, mutant))
    back = read_time(t["return"], zone, lambda local, z: return_instant(local, z, mutant))
    if back <= departure:
        raise RequestError("a trip returns before it leaves")
    target = 0.0 if mutant == "targetIgnored" else t.get("targetStateOfCharge", asked) * vehicle.usable
    trip = Trip(departure, back, target)

    def add(km, start, end, temperature_at):
        per_km = vehicle.kwh_per_km * relative_consumption(weather.at(temperature_at), vehicle.sensitivity)
        trip.legs.append(Leg(start, end, km * per_km))

    if not t.get("legs"):
        turn = departure + (back - departure) // 2
        half = kilometres(t) / 2
        add(half, departure, turn, departure)
        add(half, turn, back, departure if mutant == "returnTemperatureIgnored" else back)
        return trip
    at = departure
    for leg in t["legs"]:
        stop = leg.get("stop")
        until = back if stop is None else read_time(stop["from"], zone)
        if until <= at:
            raise RequestError("the legs and stops of a trip are not in order")
        add(kilometres(leg), at, until, at)
        if stop is not None:
            at = read_time(stop["until"], zone)
            offered = stop.get("chargingPowerKw", 0.0)
            every_day = stop.get("shareOfDays", 1.0) == 1 or mutant == "stopShareIgnored"
            charges = every_day and mutant != "stopChargingIgnored"
            trip.stops.append(Stop(until, at, offered if charges else 0.0, stop.get("pricePerKwh", 0.0)))
    if until != back:
        raise RequestError("the last leg of a trip has no stop and ends at home")
    return trip
