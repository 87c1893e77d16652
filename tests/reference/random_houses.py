#!/usr/bin/env python3
"""Seeded random requests of POST /v1/schedules for whole houses, one JSON document a line.

    random_houses.py --seed S --count N

Request i of a seed does not depend on the count. Kinds take turns; households, places and numbers are invented.
"""
import argparse
import json
import random
from datetime import datetime, timedelta

from household_time import HOUR, MINUTE, to_instant, to_local, with_offset
from random_house_plans import add_band, add_blocks, add_demand, add_export, add_minimum
from random_rate_plans import random_rate_plan
from random_requests import RandomRequest

ZONES = ["America/Chicago", "America/New_York", "Europe/Berlin", "America/Los_Angeles", "Europe/London", "America/St_Johns", "Asia/Kolkata"]
KINDS = ["demand", "solar", "risingBlocks", "twoCars", "demandWindow", "importLimit", "sharedCircuit", "fallingBlocks", "negative",
         "demandTwoCars", "demandClockChange", "solarDemand", "minimum", "carbon", "blocksTwoCars", "demandWindow", "solarTwoCars",
         "ratchet", "exportAbove", "band", "everything"]
LIMITED = ("importLimit", "sharedCircuit", "everything")


def random_houses(seed, count):
    for i in range(count):
        yield RandomHouse(random.Random(f"house {seed}/{i}"), KINDS[i % len(KINDS)]).document()


class RandomHouse(RandomRequest):
    def __init__(self, rng, kind):
        scenario = "ordinary"
        if kind == "demandClockChange":
            scenario = rng.choice(["gapDeparture", "ambiguousReturn"])
        if kind == "sharedCircuit":
            scenario = "backToBack"                         # little time at home: both cars are short
        super().__init__(rng, scenario)
        self.kind = kind
        while self.zone_name not in ZONES:                  # an hour of standard time is none of the legal clock on Lord Howe
            super().__init__(rng, scenario)
        if self.change is None:
            day = datetime(2026, 1, 1) + timedelta(days=rng.randrange(364), hours=rng.randrange(24), minutes=rng.choice([0, 0, 0, 15, 30, 45, 7, 40]))
            self.as_of = self.start = to_instant(day.replace(tzinfo=self.zone))
        else:
            self.start = self.as_of
        self.horizon_days = rng.choice([1, 2, 2, 3])

    def has(self, *kinds):
        return any(k in self.kind for k in kinds)

    def document(self):
        rng, first = self.rng, self.start
        cars = [self._car("first car", self.start)]
        if self.has("TwoCars", "twoCars", "sharedCircuit", "everything") or self.kind == "importLimit" and rng.random() < 0.6:
            later = self.start + rng.choice([0, 0, rng.randrange(10, 600) * MINUTE])
            cars.append(self._car("second car", later))
            if self.kind in LIMITED:                        # cars on one circuit have one voltage to neutral
                cars[1]["supply"] = dict(cars[0]["supply"])
                if cars[0]["supply"]["phases"] == 3 and rng.random() < 0.4:
                    cars[1]["supply"].update({"voltageV": 230, "phases": 1})
        self.start = first
        document = {"asOf": with_offset(self.as_of, self.zone), "timeZone": self.zone_name}
        if len(cars) == 1 and rng.random() < 0.8:
            document.update({k: v for k, v in cars[0].items() if k not in ("name", "running")})
            running = cars[0]["running"]
        else:
            document["cars"], running = cars, {"adjustable": rng.random() < 0.5}
        document["options"] = {**self._options(), "running": running}
        if self.has("sharedCircuit"):                       # who is served first can show
            document["options"]["shortfallOrder"] = "inTimeOrder"
        document["weather"] = self._weather()
        self._add_house(document)
        document["ratePlan"] = self._plan(document)
        for car in cars:
            self._keep_targets_within({**car, "options": document["options"]})
        return document

    def _car(self, name, plugged_in):
        rng, self.start = self.rng, plugged_in
        vehicle = self._vehicle()
        soc = self._state_of_charge(vehicle)
        if self.kind in LIMITED:                            # below the minimum a limit of several cars leaves no order of charging
            least = vehicle.get("minimumStateOfCharge", 0.1)
            soc = least if self.kind == "sharedCircuit" and rng.random() < 0.6 else max(soc, least)
        car = {"name": name, "vehicle": vehicle, "supply": self._supply(), "calendar": {"trips": self._trips(vehicle)},
               "plugIn": {"stateOfCharge": soc}, "running": {"adjustable": rng.random() < (0.9 if self.has("negative") else 0.5)}}
        if plugged_in != self.as_of:
            car["plugIn"]["at"] = with_offset(plugged_in, self.zone)
        if rng.random() < 0.15:
            most = vehicle.get("extendedLimit", 1.0)
            for trip in car["calendar"]["trips"]:
                trip["targetStateOfCharge"] = min(most, rng.choice([0.6, 0.8, 0.9]))
        return car

    def _options(self):
        options = super()._options()
        options["gridMinutes"] = self.rng.choices([15, 30, 60], [1, 3, 6])[0]
        return options

    def _add_house(self, document):
        rng = self.rng
        if self.has("emand", "Blocks", "locks", "solar", "ratchet", "importLimit", "minimum", "band", "export", "everything") or rng.random() < 0.5:
            document["houseLoad"] = {"hourlyKwh": self._load()}
        if self.has("solar", "export", "everything") or self.has("minimum", "negative") and rng.random() < 0.35:
            document["solar"] = self._solar()
        if self.has("importLimit", "everything"):
            document["importLimitKw"] = rng.choice([2, 3, 4.5, 6, 8, 11])
        if self.has("sharedCircuit", "everything"):
            document["sharedCircuit"] = {"currentA": rng.choice([8, 10, 16, 24, 32])} if rng.random() < 0.7 else {"breakerA": rng.choice([20, 30, 40, 60])}
        if self.has("carbon", "everything"):
            grams = rng.choice([420, {"start": with_offset(self.as_of // HOUR * HOUR - HOUR, self.zone), "intervalMinutes": 60,
                                      "gramsPerKwh": [rng.randrange(50, 900) for _ in range(24 * 20)]}])
            document["carbon"] = {"pricePerTonne": rng.choice(["40.00", "80.00", "150.00"]), "gramsPerKwh": grams}

    def _load(self):
        rng = self.rng
        day = [rng.choice([0.2, 0.3, 0.4]) if h < 6 else rng.uniform(0.4, 1.5) if h < 16 else rng.uniform(0.9, 4.5) if h < 22 else 0.6 for h in range(24)]
        scale = rng.choice([0.5, 1.0, 1.0, 1.8])
        return [round(kw * scale * rng.uniform(0.8, 1.2), 1) for _ in range(365) for kw in day]

    def _solar(self):
        rng = self.rng
        minutes, peak = rng.choice([15, 30, 60, 60]), rng.choice([3, 5, 7.5, 10])
        begin = (self.as_of // HOUR - 2) * HOUR
        values = []
        for i in range((self.horizon_days + 14) * 24 * 60 // minutes):
            local = to_local(begin + i * minutes * MINUTE, self.zone)
            sun = max(0.0, 1 - ((local.hour + local.minute / 60 - 12.5) / 6) ** 2)
            values.append(round(peak * sun * rng.uniform(0.3, 1.0), 2))
        return {"start": with_offset(begin, self.zone), "intervalMinutes": minutes, "powerKw": values}

    def _plan(self, document):
        rng, options = self.rng, document["options"]
        plan = random_rate_plan(rng, self.zone_name, odd=self.has("negative"))
        use = self._expected_use(document)
        if self.has("locks", "everything"):
            if rng.random() < 0.7:
                options["usedSoFarKwh"] = rng.choice([12, 100, 250.5, 400])
            add_blocks(rng, plan, use + options.get("usedSoFarKwh", 0), rising=not self.has("falling") and rng.random() < 0.8)
        if self.has("emand", "ratchet", "everything") or self.has("minimum") and rng.random() < 0.3:
            add_demand(rng, plan, self.has("Window", "ClockChange") or rng.random() < 0.3, ratchet=self.has("ratchet"))
            # A source of its own: the rest of the house stays as it was.
            so_far = random.Random(f'{document["asOf"]} demand so far')
            if so_far.random() < 0.4:
                options["demandSoFarKw"] = {c["name"]: so_far.choice([0, 1.5, 4.2, 7, 11]) for c in plan["demandCharges"]}
            if self.has("ratchet"):
                document["carriedState"] = {"peaks": [self._past_peak()]}
            begins = [w["from"] for c in plan.get("calendars", []) for w in c["windows"]]
            if begins == ["15:30"] and "houseLoad" in document and rng.random() < 0.7:
                # The highest average begins at half past: no whole hour of the window shows it.
                document["houseLoad"]["hourlyKwh"] = [7.5 if i % 24 in (14, 15) else min(4.0, kw) for i, kw in enumerate(document["houseLoad"]["hourlyKwh"])]
        if "solar" in document and rng.random() < 0.9:
            add_export(rng, plan, above=self.has("exportAbove"))
        if self.has("minimum"):
            price = next((c["pricePerKwh"] for c in plan["energyCharges"]), 0.1)
            if "usedSoFarKwh" not in options and rng.random() < 0.5:
                options["usedSoFarKwh"] = rng.choice([12, 100, 250.5])
            add_minimum(rng, plan, 12.5 + (use + options.get("usedSoFarKwh", 0)) * price)
        if self.has("band"):
            options["usedSoFarKwh"] = rng.choice([0, 12, 100, 250.5])
            add_band(rng, plan, use + options["usedSoFarKwh"])
        return plan

    def _past_peak(self):
        local = to_local(self.as_of, self.zone)
        month = 12 * local.year + local.month - 1 - self.rng.randrange(1, 8)
        return {"charge": "Demand", "month": f"{month // 12}-{month % 12 + 1:02d}", "kw": self.rng.choice([4, 8.5, 14])}

    def _expected_use(self, document):
        """Roughly what the house takes from now to the end of the month. [kWh]"""
        if "houseLoad" not in document:
            return 0.0
        local = to_local(self.as_of, self.zone)
        after = (local.replace(day=1) + timedelta(days=32)).replace(day=1, hour=0, minute=0)
        return sum(document["houseLoad"]["hourlyKwh"][:24]) * (after - local).total_seconds() / 86400


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=21)
    options = parser.parse_args()
    for request in random_houses(options.seed, options.count):
        print(json.dumps(request))


if __name__ == "__main__":
    main()
