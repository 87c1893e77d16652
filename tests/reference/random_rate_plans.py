"""Random rate plans as documents: flat, time-of-use, seasonal and odd ones. All invented."""

HOLIDAYS = [
    {"name": "New Year's Day", "rule": "fixedDate", "date": "01-01", "sundayMovesTo": "monday"},
    {"name": "Good Friday", "rule": "easter", "offsetDays": -2},
    {"name": "Last Monday of May", "rule": "weekdayOnOrBefore", "weekday": "monday", "date": "05-31"},
    {"name": "Fourth of July", "rule": "fixedDate", "date": "07-04", "saturdayMovesTo": "friday", "sundayMovesTo": "monday"},
    {"name": "First Monday of September", "rule": "nthWeekday", "nth": 1, "weekday": "monday", "month": 9},
    {"name": "Fourth Thursday of November", "rule": "nthWeekday", "nth": 4, "weekday": "thursday", "month": 11},
    {"name": "Christmas Day", "rule": "fixedDate", "date": "12-25"},
]


def random_rate_plan(rng, zone_name, odd=False):
    plan = {"name": "Random Plan", "utility": "Example Power (invented)", "source": "Drawn at random for a test.", "currency": "USD",
            "timeZone": zone_name, "effective": {"from": "2025-01-01"}, "metering": "wholeHouse",
            "customerCharges": [{"name": "Customer charge", "amount": 12.5, "per": "month"}]}
    kind = rng.choice(["odd", "odd", "timeOfUse"] if odd else ["flat", "timeOfUse", "timeOfUse", "seasonal", "seasonal"])
    low, high = (-0.08, 0.25) if kind == "odd" else (0.03, 0.55)
    price = lambda: 0.0 if kind == "odd" and rng.random() < 0.2 else round(rng.uniform(low, high), 4)
    if kind == "flat":
        plan["energyCharges"] = [{"name": "Energy", "pricePerKwh": price()}]
    else:
        add_windows(rng, plan)
        seasons = add_seasons(rng, plan) if kind == "seasonal" else [None]
        plan["energyCharges"] = [charge(season, period, price()) for season in seasons for period in plan["periods"]]
    if rng.random() < 0.5:
        plan["adjustments"] = [{"name": "Power cost adjustment", "pricePerKwh": round(rng.uniform(-0.01, 0.02), 4)}]
        if kind == "odd":
            plan["adjustments"].append({"name": "Surplus credit", "pricePerKwh": round(rng.uniform(-0.08, 0.0), 4)})
    if rng.random() < 0.5:
        on = {"parts": ["energyCharge", "adjustment"]}
        plan["taxes"] = [{"name": "Franchise fee", "percent": rng.choice([2, 3, 5.5]), "on": on}]
        if rng.random() < 0.5:
            plan["taxes"].append({"name": "Sales tax", "percent": rng.choice([1.5, 7]), "on": {**on, "taxes": ["Franchise fee"]}})
    plan["rounding"] = {"each": "line", "mode": "halfUp"}
    plan["proration"] = {"month": "daysInMonth"}
    return plan


def charge(season, period, price):
    document = {"name": f"{season or 'all year'} {period}", "periods": [period], "pricePerKwh": price}
    return document if season is None else {**document, "seasons": [season]}


def add_windows(rng, plan):
    """Up to three windows that never overlap: one by day, one in the evening, one across midnight or small in the night."""
    day_types = rng.random() < 0.6
    if day_types:
        plan["dayTypes"] = [{"name": "working day", "days": ["monday", "tuesday", "wednesday", "thursday", "friday"]},
                            {"name": "day off", "days": ["saturday", "sunday"]}]
        plan["holidays"] = [{**h, "dayType": "day off"} for h in HOLIDAYS] if rng.random() < 0.6 else []
    night = rng.choice([("22:00", "06:00"), ("23:30", "05:30"), ("21:15", "07:00"), ("00:00", "05:00"), ("01:30", "04:00"), ("02:00", "03:00")])
    windows = [{"period": "night", "from": night[0], "to": night[1]}]
    evening = rng.choice([("16:00", "21:00"), ("17:00", "20:00"), ("15:40", "19:10"), ("14:00", "20:30")])
    windows.append({"period": "peak", "from": evening[0], "to": evening[1]})
    if rng.random() < 0.5:
        windows.append({"period": "morning", "from": "07:00", "to": rng.choice(["09:00", "12:00", "13:05"])})
    for window in windows:
        if day_types and rng.random() < 0.5:
            window["dayTypes"] = [rng.choice(["working day", "working day", "day off"])]
    plan["periods"] = [w["period"] for w in windows] + ["other"]
    plan["windows"], plan["defaultPeriod"] = windows, "other"


def add_seasons(rng, plan):
    begin = rng.choice(["05-01", "06-01", "05-16"])
    end, after = rng.choice([("09-30", "10-01"), ("10-15", "10-16")])
    before = {"05-01": "04-30", "06-01": "05-31", "05-16": "05-15"}[begin]
    plan["seasons"] = [{"name": "summer", "ranges": [{"from": begin, "to": end}]},
                       {"name": "winter", "ranges": [{"from": after, "to": before}]}]
    return ["summer", "winter"]
