#!/usr/bin/env python3
"""Seeded random requests of POST /v1/schedules, one JSON document a line.

    random_requests.py --seed S --count N

Request i of a seed does not depend on the count. Scenarios take turns, so that every twenty requests cover all of them;
households, places and numbers are invented.
"""
import argparse
import json
import random
from datetime import datetime, timedelta

from household_time import (DAY, HOUR, MINUTE, changes, departure_instant, is_ambiguous, is_skipped, offset_at, return_instant,
                            to_instant, to_local, with_offset, zone_of)
from random_rate_plans import random_rate_plan

ZONES = ["America/Chicago", "America/New_York", "Europe/Berlin", "Australia/Lord_Howe", "America/Los_Angeles",
         "Europe/London", "America/St_Johns", "Asia/Kolkata"]
CHANGING = ["America/Chicago", "America/New_York", "Europe/Berlin", "Australia/Lord_Howe", "America/St_Johns", "Europe/London"]
SCENARIOS = ["ordinary", "coldOutlet", "gapDeparture", "stops", "tooLong", "backToBack", "ambiguousDeparture", "oddPrices",
             "sparse", "coldLongTrip", "ambiguousReturn", "stops", "ordinary", "full", "gapReturn", "target", "multiDay",
             "departureAtEnd", "coldOutlet", "vehicle"]


def random_requests(seed, count):
    for i in range(count):
        rng = random.Random(f"{seed}/{i}")
        yield RandomRequest(rng, SCENARIOS[i % len(SCENARIOS)]).document()


class RandomRequest:
    def __init__(self, rng, scenario):
        self.rng, self.scenario = rng, scenario
        self.change = None
        if scenario in ("gapDeparture", "gapReturn", "ambiguousDeparture", "ambiguousReturn"):
            self.zone_name = rng.choice(CHANGING)
            self.zone = zone_of(self.zone_name)
            self.change = self._clock_change(forward=scenario.startswith("gap"))
            lead = rng.randrange(4 * 60, 60 * 60, 5) * MINUTE
            self.as_of = self.change - lead
        else:
            self.zone_name = rng.choice(ZONES)
            self.zone = zone_of(self.zone_name)
            day = datetime(2026, 1, 1) + timedelta(days=rng.randrange(365), minutes=rng.randrange(24 * 60))
            self.as_of = to_instant(day.replace(tzinfo=self.zone))
        self.start = self.as_of
        if rng.random() < 0.3:
            self.start += rng.randrange(5, 300) * MINUTE
            if self.change and self.start > self.change - 2 * HOUR:
                self.start = self.as_of
        self.horizon_days = rng.choice([2, 2, 2, 3, 3, 4, 5, 7, 9])
        self.mild = rng.random() < 0.35
        self.miles = rng.random() < 0.4

    def _clock_change(self, forward):
        begin = to_instant(datetime(2026, 1, 5, tzinfo=self.zone))
        found = [c for c in changes(begin, begin + 360 * DAY, self.zone)
                 if (offset_at(c, self.zone) > offset_at(c - 1, self.zone)) == forward]
        return found[0]

    def document(self):
        rng = self.rng
        vehicle, supply = self._vehicle(), self._supply()
        document = {
            "asOf": with_offset(self.as_of, self.zone), "timeZone": self.zone_name,
            "vehicle": vehicle, "supply": supply,
            "plugIn": {"stateOfCharge": self._state_of_charge(vehicle)},
            "calendar": {"trips": self._trips(vehicle)},
            "ratePlan": random_rate_plan(rng, self.zone_name, odd=self.scenario == "oddPrices"),
            "weather": self._weather(),
            "options": self._options(),
        }
        self._keep_targets_within(document)
        if self.start != self.as_of:
            document["plugIn"]["at"] = with_offset(self.start, self.zone)
        return document

    @staticmethod
    def _keep_targets_within(document):
        """A target above the extended limit contradicts the vehicle: the API refuses it."""
        most = document["vehicle"].get("extendedLimit", 1.0)
        for asked in [*document["calendar"]["trips"], document["options"]]:
            if "targetStateOfCharge" in asked:
                asked["targetStateOfCharge"] = min(most, asked["targetStateOfCharge"])

    def _vehicle(self):
        rng = self.rng
        usable = rng.choice([28, 40, 52.5, 60, 60, 75, 82.3, 100, 131])
        per_100_km = round(rng.uniform(12, 24), 2)
        vehicle = {"usableEnergyKwh": usable, "onBoardChargerKw": rng.choice([3.6, 6.6, 7.2, 7.4, 11, 11, 11.5, 19.2, 22])}
        if rng.random() < 0.5:
            vehicle["consumptionKwhPer100Km"] = per_100_km
        else:
            vehicle["consumptionKwhPer100Mi"] = round(per_100_km * 1.609344, 2)
        if rng.random() < 0.5 or self.scenario in ("vehicle", "full"):
            ordinary = rng.choice([0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 1.0])
            vehicle.update({"ordinaryLimit": ordinary, "extendedLimit": max(ordinary, rng.choice([0.9, 0.95, 1.0, 1.0])),
                            "minimumStateOfCharge": rng.choice([0.0, 0.05, 0.1, 0.15, 0.2, 0.3]),
                            "temperatureSensitivity": rng.choice([0.0, 0.6, 1.0, 1.6]),
                            "consumptionSpread": rng.choice([0.0, 0.05, 0.1, 0.2]), "minimumCurrentA": rng.choice([6, 6, 8, 10])})
        if rng.random() < 0.2 or self.scenario == "vehicle":
            vehicle["constants"] = {
                "conversionEfficiency": rng.choice([0.85, 0.9, 0.93, 0.955, 1.0]), "overheadKw": round(rng.uniform(0, 0.42), 3),
                "heatingKwPerKelvin": rng.choice([0.0, 0.015, 0.05, 0.07]), "heatingBelowC": rng.choice([0, 6, 10]),
                "heatingMaxKw": rng.choice([0, 1, 2, 6]), "taperFloorKw": 0.5, "taperPerHour": 4}
        return vehicle

    def _supply(self):
        rng = self.rng
        slow = self.scenario in ("coldOutlet", "backToBack") or (self.change is not None and rng.random() < 0.5)
        volts, phases = (120, 1) if slow and rng.random() < 0.7 else rng.choice([(120, 1), (208, 1), (230, 1), (240, 1), (240, 1), (400, 3)])
        breakers = [15, 20] if volts == 120 else [15, 20, 30, 40, 50, 60] if phases == 1 else [16, 20, 32, 40]
        supply = {"voltageV": volts, "phases": phases, "breakerA": rng.choice(breakers),
                  "connection": rng.choice(["receptacle", "hardwired"]),
                  "rule": rng.choice(["unknown", "necContinuousLoad", "necContinuousLoad", "dedicatedCircuit"])}
        if volts == 230 and rng.random() < 0.4:
            supply["rule"] = "domesticSocket"
        if supply["rule"] in ("dedicatedCircuit", "domesticSocket") and rng.random() < 0.6:
            supply["statedCurrentA"] = rng.choice([8, 9, 10] if supply["rule"] == "domesticSocket" else [8, 9, 10, 12, 14, 15])
        if rng.random() < 0.15:
            supply["unitLimitA"] = rng.choice([6, 8, 10, 12, 16, 24, 32])
        if rng.random() < 0.1:
            supply["otherLoadA"] = rng.choice([1, 2, 3.5])
        return supply

    def _state_of_charge(self, vehicle):
        rng = self.rng
        if self.scenario == "full":
            return rng.choice([1.0, 0.97, 0.93])
        if self.change is not None:
            return round(rng.uniform(0.05, 0.3), 3)
        return rng.choice([0.0, 0.02, 0.07, 1.0, 0.9] + [round(rng.uniform(0.05, 0.95), 3) for _ in range(10)])

    def _options(self):
        rng = self.rng
        options = {"gridMinutes": rng.choices([5, 15, 30, 60], [1, 4, 3, 3])[0], "horizonDays": self.horizon_days,
                   "tripConfidence": rng.choice([0.5, 0.8, 0.9, 0.9, 0.95, 0.99]),
                   "shortfallOrder": rng.choice(["inTimeOrder", "inTimeOrder", "leastTotal"])}
        if rng.random() < 0.15:
            options["targetStateOfCharge"] = rng.choice([0.5, 0.7, 0.9])
        return options

    def _weather(self):
        rng = self.rng
        if self.mild and rng.random() < 0.5:
            return rng.choice([{"temperatureC": rng.randrange(-12, 33)}, {"temperatureF": rng.randrange(5, 95)}])
        low, high = (-28, 2) if self.scenario in ("coldOutlet", "coldLongTrip") else (5, 26) if self.mild else (-16, 30)
        mean, swing = rng.uniform(low, high), rng.uniform(0, 9)
        snap_at, snap = rng.randrange(0, 24 * self.horizon_days), rng.choice([0, 0, -8, -15])
        begin = (self.as_of // HOUR - rng.randrange(0, 8)) * HOUR
        span = rng.choice([24, 24 * self.horizon_days, 24 * (self.horizon_days + 5), 24 * (self.horizon_days + 5)])
        values = []
        for i in range(span):
            hour = to_local(begin + i * HOUR, self.zone).hour
            wave = swing * (1 - abs(hour - 15) / 6 if abs(hour - 15) <= 12 else abs(hour - 15) / 6 - 3)
            cold = snap if snap_at <= i < snap_at + 30 else 0
            values.append(round(max(-35, min(35, mean + wave + cold + rng.uniform(-1, 1))), 1))
        if rng.random() < 0.25:
            return {"hourly": {"start": with_offset(begin, self.zone), "temperatureF": [round(v * 1.8 + 32, 1) for v in values]}}
        return {"hourly": {"start": with_offset(begin, self.zone), "temperatureC": values}}

    def _trips(self, vehicle):
        rng, trips = self.rng, []
        range_km = vehicle["usableEnergyKwh"] / vehicle.get("consumptionKwhPer100Km", vehicle.get("consumptionKwhPer100Mi", 0) / 1.609344) * 100
        at = self.start + rng.randrange(1, 20 * 60, 1) * MINUTE
        if self.change is not None:
            forced = self._trip_at_change(range_km)
            before = forced["_span"][0] - rng.randrange(60, 600, 5) * MINUTE
            if at + 2 * HOUR < before and rng.random() < 0.4:
                trips.append(self._trip(at, before, range_km * rng.uniform(0.05, 0.2)))
            trips.append(forced)
            at = forced["_span"][1] + rng.randrange(120, 1200, 5) * MINUTE
        if self.scenario == "departureAtEnd":
            at = self.start + self.horizon_days * DAY
            for day in range(rng.randrange(0, self.horizon_days)):
                out = self.start + day * DAY + rng.randrange(30, 600) * MINUTE
                trips.append(self._trip(out, out + rng.randrange(60, 600) * MINUTE, range_km * rng.uniform(0.05, 0.5)))
        until = self.start + (self.horizon_days + 1) * DAY
        while at < until or (self.scenario == "sparse" and len(trips) < 3):
            departure, back, share = self._next_span(at, len(trips))
            trip = self._trip(departure, back, range_km * share)
            trips.append(trip)
            at = self._gap_after(trip["_span"][1])
        if rng.random() < 0.15:                              # over before the car was plugged in: left out
            gone = self.start - rng.randrange(10, 300) * MINUTE
            trips.insert(0, self._trip(gone - 3 * HOUR, gone, 20))
        for trip in trips:
            del trip["_span"]
        return trips

    def _next_span(self, at, number):
        rng = self.rng
        length = rng.randrange(40, 11 * 60) * MINUTE
        share = rng.choice([rng.uniform(0.02, 0.12), rng.uniform(0.02, 0.12), rng.uniform(0.05, 0.3), rng.uniform(0.2, 0.7)])
        if self.scenario == "tooLong" and number % 2 == 0:
            share, length = rng.uniform(0.9, 2.2), rng.randrange(8 * 60, 20 * 60) * MINUTE
        elif self.scenario == "coldLongTrip":
            share = rng.uniform(0.5, 0.75)
        elif self.scenario == "multiDay":
            share, length = rng.uniform(0.3, 1.2), rng.randrange(20 * 60, 60 * 60) * MINUTE
        elif self.scenario == "backToBack":
            share = rng.uniform(0.2, 0.6)
        elif self.scenario == "stops":
            share, length = rng.uniform(0.4, 1.4), rng.randrange(5 * 60, 30 * 60) * MINUTE
        elif self.scenario == "coldOutlet":
            share = rng.uniform(0.03, 0.15)
        return at, at + length, share

    def _gap_after(self, back):
        rng = self.rng
        if self.scenario == "backToBack":
            return back + rng.choice([0, 0, 7, 20, 45, 90, 600]) * MINUTE
        if self.scenario == "sparse":
            return back + rng.randrange(30 * 60, 80 * 60) * MINUTE
        if self.scenario == "coldLongTrip":
            return back + rng.randrange(14 * 60, 40 * 60) * MINUTE
        return back + rng.choice([rng.randrange(30, 300), rng.randrange(8 * 60, 18 * 60), rng.randrange(8 * 60, 18 * 60), rng.randrange(12 * 60, 40 * 60)]) * MINUTE

    def _trip(self, departure, back, km):
        """A trip between two instants; its times are written as the household would, or with an offset."""
        rng = self.rng
        trip = {"departure": self._written(departure, departure_instant), "return": self._written(back, return_instant)}
        trip["_span"] = (departure, back)
        self._add_distance(trip, departure, back, km)
        if rng.random() < (0.9 if self.scenario == "target" else 0.12):
            trip["targetStateOfCharge"] = rng.choice([0.6, 0.8, 0.9, 0.95, 1.0])
        return trip

    def _add_distance(self, trip, departure, back, km):
        rng = self.rng
        key, unit = ("distanceMi", 1.609344) if self.miles else ("distanceKm", 1.0)
        half_units = max(1, round(km / unit * 2))
        minutes = (back - departure) // MINUTE
        if self.scenario != "stops" or minutes < 180 or rng.random() < 0.2:
            trip[key] = half_units / 2
            return
        count = rng.choice([1, 1, 2])
        cuts = sorted(rng.sample(range(20, minutes - 20, 5), 2 * count))
        legs, left = [], half_units
        for j in range(count):
            part = max(1, round(left * rng.uniform(0.3, 0.6)))
            left = max(1, left - part)
            stop = {"from": self._written(departure + cuts[2 * j] * MINUTE, None), "until": self._written(departure + cuts[2 * j + 1] * MINUTE, None)}
            if rng.random() < 0.8:
                stop.update({"chargingPowerKw": rng.choice([1.4, 3.7, 11, 50, 150]), "pricePerKwh": rng.choice([0.15, 0.3, 0.48, 0.79]),
                             "shareOfDays": rng.choice([1, 1, 0.5])})
            legs.append({key: part / 2, "stop": stop})
        legs.append({key: left / 2})
        trip["legs"] = legs
        trip[key] = sum(leg[key] for leg in legs)

    def _written(self, instant, reading):
        local = to_local(instant, self.zone)
        plain = not is_ambiguous(local, self.zone) or (reading is not None and reading(local, self.zone) == instant)
        if plain and self.rng.random() < 0.6:
            return local.isoformat(timespec="minutes")
        return with_offset(instant, self.zone)

    def _trip_at_change(self, range_km):
        """A trip whose departure or return is a local time that the clock change skips or repeats."""
        rng, zone, at = self.rng, self.zone, self.change
        length = abs(offset_at(at, zone) - offset_at(at - 1, zone))
        inside = timedelta(minutes=rng.randrange(0, int(length.total_seconds() // 60), 5))
        wall_before = to_local(at - MINUTE, zone) + timedelta(minutes=1)      # what the clock would have shown
        local = wall_before + inside if self.scenario.startswith("gap") else wall_before - length + inside
        text, km = local.isoformat(timespec="minutes"), range_km * rng.uniform(0.1, 0.6)
        if self.scenario.endswith("Departure"):
            departure = departure_instant(local, zone)
            trip = self._trip(departure, departure + rng.randrange(120, 900, 5) * MINUTE, km)
            trip["departure"] = text
        else:
            back = return_instant(local, zone)
            earliest = self.start + 30 * MINUTE
            trip = self._trip(max(earliest, back - rng.randrange(180, 1200, 5) * MINUTE), back, km)
            trip["return"] = text
        assert is_skipped(local, zone) or is_ambiguous(local, zone)
        return trip


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=20)
    options = parser.parse_args()
    for request in random_requests(options.seed, options.count):
        print(json.dumps(request))


if __name__ == "__main__":
    main()
