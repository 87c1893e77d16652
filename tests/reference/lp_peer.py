#!/usr/bin/env python3
"""A peer for timings: one car's charging as a linear program in scipy's HiGHS, in a process that stays alive.

Lines on standard input, one answer a line on standard output:
    {"make": "year"|"night"|"week", "flatPeriods": true|false, "temperatures": "one"|"hourly"}   prepares an instance
    {"load": PATH}    prepares the instance of a file: arrays by interval, bounds of stored energy after each, what each departure requires, the least at the end
    {"solve": 1}      builds and solves it once: {"build_s", "solve_s", "objective", "cost", "unserved_kwh", "missed_kwh", "intervals"}
    {"dump": PATH}    writes the instance as JSON arrays, for the benchmark of the engine

Share form: x in [0, 1] is the share of a quarter of an hour spent at full power; the battery gains r d x, the wall gives
P d x. No interval is merged. Shortfalls are priced (20 per unserved kWh, 10 per kWh under a target), as in one weighted
program; the build works on whole arrays.
"""
import json
import sys
import time

import numpy as np
from scipy import sparse
from scipy.optimize import linprog

INTERVALS = {"night": 96, "week": 7 * 96, "year": 365 * 96}
HOURS = 0.25
USABLE_KWH, START, LOWEST, HIGHEST, TARGET = 60.0, 0.35, 0.10, 0.90, 0.80
WALL_KW = 7.2
UNSERVED, MISSED = 20.0, 10.0
DEPARTS, RETURNS = 30, 70            # quarter of an hour of the day: 07:30 and 17:30, weekdays


def make(span, flat_periods, temperatures):
    """The synthetic household: three prices, out on weekdays, 8 kWh each way and more in winter, 80 % at departure."""
    random = np.random.default_rng(7)
    n = INTERVALS[span]
    day, quarter = np.divmod(np.arange(n) + (64 if span == "night" else 0), 96)      # a night begins at 16:00
    hour, season = quarter / 4.0, np.cos(2 * np.pi * day / 365)
    price = np.select([hour < 6, (hour >= 16) & (hour < 21)], [0.12, 0.46], 0.26)
    if not flat_periods:
        price = price + 0.02 * season + random.uniform(-0.01, 0.01, n).round(5)
    price = price.round(5)
    weekday = day % 7 < 5
    home = ~(weekday & (quarter >= DEPARTS) & (quarter < RETURNS))
    of_day = random.uniform(0.8, 1.3, day.max() + 1)[day]
    driven = weekday & ((quarter == DEPARTS) | (quarter == RETURNS - 1))
    drive = np.where(driven, (8.0 + 3.0 * season) * of_day, 0.0).round(4)
    if temperatures == "one":
        rate = np.full(n, 0.88 * WALL_KW)
    else:
        celsius = hourly_temperatures(int(day.max()) + 1)[day * 24 + quarter // 4]
        heating = np.minimum(2.0, 0.05 * np.maximum(0.0, 6.0 - celsius))
        rate = np.maximum(0.0, 0.93 * WALL_KW - 0.22 - heating)
    departures = np.flatnonzero(weekday & (quarter == DEPARTS - 1))                  # the interval that ends at 07:30
    return {"hours": HOURS, "wallKw": WALL_KW, "usableKwh": USABLE_KWH, "startKwh": START * USABLE_KWH,
            "lowestKwh": LOWEST * USABLE_KWH, "highestKwh": HIGHEST * USABLE_KWH, "requiredKwh": TARGET * USABLE_KWH,
            "unservedPrice": UNSERVED, "missedPrice": MISSED, "price": price, "home": home, "rateKw": rate,
            "driveKwh": drive, "departures": departures}


def load(path):
    """An instance of somebody else: what is one figure for all in ours may be an array there."""
    with open(path, encoding="utf-8") as source:
        read = json.load(source)
    instance = {key: np.asarray(value) if isinstance(value, list) else value for key, value in read.items()}
    return {"unservedPrice": UNSERVED, "missedPrice": MISSED, **instance, "departures": instance["departures"].astype(int)}


def hourly_temperatures(days):
    """A cold continental year from 1 January, with cold spells of some days. [degC]"""
    random = np.random.default_rng(2026)
    year = max(days, 365)
    spell = np.convolve(random.normal(0, 4.5, year + 4), np.ones(5) / 5 ** 0.5, mode="valid")
    mean = 8.0 - 17.0 * np.cos(2 * np.pi * (np.arange(year) - 15) / 365) + spell
    swing = 4.0 * np.sin(2 * np.pi * (np.arange(24) - 9) / 24)
    return (mean[:, None] + swing[None, :]).ravel()[:days * 24].round(1)


def build(instance):
    """Objective, equality rows, inequality rows and bounds over [x, e, u of driven intervals, v of departures]."""
    n, d = instance["price"].size, instance["hours"]
    drive, departures = instance["driveKwh"], instance["departures"]
    road = np.flatnonzero(drive > 0)
    e, u, v = n, 2 * n, 2 * n + road.size
    width = v + departures.size
    each = np.arange(n)
    objective = np.zeros(width)
    objective[:n] = instance["price"] * instance["wallKw"] * d
    objective[u:v], objective[v:] = instance["unservedPrice"], instance["missedPrice"]
    balance = sparse.csc_matrix(
        (np.concatenate([-instance["rateKw"] * d, np.ones(n), -np.ones(n - 1), -np.ones(road.size)]),
         (np.concatenate([each, each, each[1:], road]),
          np.concatenate([each, e + each, e + each[:-1], u + np.arange(road.size)]))), shape=(n, width))
    right = -drive
    right[0] += instance["startKwh"]
    row = np.arange(departures.size)
    asked = sparse.csc_matrix((np.full(2 * row.size, -1.0), (np.tile(row, 2), np.concatenate([e + departures, v + row]))),
                              shape=(row.size, width))
    low, high = np.zeros(width), np.full(width, np.inf)
    high[:n] = instance["home"] & (instance["rateKw"] > 0)
    low[e:u], high[e:u] = np.minimum(instance["lowestKwh"], instance["startKwh"]), instance["highestKwh"]
    low[u - 1] = max(low[u - 1], instance.get("finalKwh", 0.0))
    high[u:v] = drive[road]
    return {"c": objective, "A_eq": balance, "b_eq": right, "A_ub": asked, "b_ub": np.zeros(row.size) - instance["requiredKwh"],
            "bounds": np.column_stack([low, high])}


def solve(instance):
    begun = time.perf_counter()
    program = build(instance)
    built = time.perf_counter()
    result = linprog(**program, method="highs-ds")
    done = time.perf_counter()
    if result.status != 0:
        return {"error": result.message}
    n, v = instance["price"].size, result.x.size - instance["departures"].size
    return {"build_s": built - begun, "solve_s": done - built, "objective": float(result.fun),
            "cost": float(program["c"][:n] @ result.x[:n]), "unserved_kwh": float(result.x[2 * n:v].sum()),
            "missed_kwh": float(result.x[v:].sum()), "intervals": int(n)}


def reply(line, instance):
    """(answer, instance) for one line."""
    asked = json.loads(line)
    if "make" in asked:
        instance = make(asked["make"], asked.get("flatPeriods", False), asked.get("temperatures", "one"))
        return {"intervals": int(instance["price"].size), "departures": int(instance["departures"].size)}, instance
    if "load" in asked:
        instance = load(asked["load"])
        return {"intervals": int(instance["price"].size), "departures": int(instance["departures"].size)}, instance
    if instance is None:
        return {"error": "make an instance first"}, None
    if "dump" in asked:
        with open(asked["dump"], "w", encoding="utf-8") as target:
            json.dump({k: x.tolist() if isinstance(x, np.ndarray) else x for k, x in instance.items()}, target)
        return {"dumped": asked["dump"]}, instance
    return solve(instance), instance


def main():
    instance = None
    for line in sys.stdin:
        if not line.strip():
            continue
        try:
            answer, instance = reply(line, instance)
        except Exception as problem:                        # a line is always answered
            answer = {"error": f"{type(problem).__name__}: {problem}"}
        print(json.dumps(answer), flush=True)


if __name__ == "__main__":
    main()
