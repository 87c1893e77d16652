"""What couples a house's charges, added to a random rate plan: demand charges, blocks, export credit, minimum bills, bands. All invented."""

PARTS = ["customerCharge", "energyCharge", "demandCharge", "adjustment", "credit", "exportCredit"]


def add_demand(rng, plan, windowed, ratchet=False):
    charge = {"name": "Demand", "averagingMinutes": rng.choice([15, 30, 60])}
    if windowed:
        begin, end = rng.choice([("16:00", "21:00"), ("17:00", "20:00"), ("15:30", "19:15"), ("06:00", "22:00"), ("22:00", "06:00"), ("00:00", "05:00")])
        add_calendar(plan, begin, end)
        charge.update({"calendar": "demand", "periods": ["measured"]})
    price = round(rng.choice([rng.uniform(0.1, 1.5), rng.uniform(1, 6), rng.uniform(5, 18)]), 2)
    if rng.random() < 0.25:
        low, high = round(rng.uniform(2, 6), 1), round(rng.uniform(7, 12), 1)
        falls = rng.random() < 0.25
        prices = [0.0, price, round(price * 1.6, 2)] if not falls else [round(price * 1.6, 2), price, round(price * 0.5, 2)]
        charge["blocks"] = [{"upToKw": low, "pricePerKw": prices[0]}, {"upToKw": high, "pricePerKw": prices[1]}, {"pricePerKw": prices[2]}]
    else:
        charge["pricePerKw"] = price
    if rng.random() < 0.3:
        charge["minimumKw"] = rng.choice([1, 3, 6])
    if ratchet:
        charge["ratchet"] = {"percent": rng.choice([50, 60, 80]), "months": 11}
    charge["per"] = rng.choice(["billingPeriod", "billingPeriod", "month", "day"])
    if charge["per"] == "day":
        for block in charge.get("blocks", [charge]):
            block["pricePerKw"] = round(block["pricePerKw"] / 30, 4)
    if "seasons" in plan and rng.random() < 0.5:
        charge["seasons"] = ["summer"]
    plan["demandCharges"] = [charge]
    if rng.random() < 0.5:
        for tax in plan.get("taxes", []):
            tax["on"]["parts"] = tax["on"]["parts"] + ["demandCharge"]


def add_calendar(plan, begin, end):
    plan["calendars"] = [{"name": "demand", "periods": ["measured", "free"], "defaultPeriod": "free",
                          "windows": [{"period": "measured", "from": begin, "to": end}]}]


def add_blocks(rng, plan, around, rising):
    """Blocks for all hours together, or for one period of the plan; limits lie around a use."""
    price, width = rng.uniform(0.06, 0.35), rng.uniform(8, 60)
    first = max(1.0, around + rng.uniform(-0.6, 1.0) * width)
    prices = [price * f for f in ((1.0, 1.4, 2.2) if rising else (1.6, 1.0, 0.55))]
    if rng.random() < 0.2:
        prices[1], prices[2] = prices[2], prices[1]         # up and down again
    blocks = [{"upToKwh": round(first, 1), "pricePerKwh": round(prices[0], 4)},
              {"upToKwh": round(first + width, 1), "pricePerKwh": round(prices[1], 4)}, {"pricePerKwh": round(prices[2], 4)}]
    if "periods" in plan and rng.random() < 0.5:
        plan["energyCharges"] = [c for c in plan["energyCharges"] if "seasons" not in c] or [
            {"name": f"Energy {p}", "periods": [p], "pricePerKwh": round(rng.uniform(0.05, 0.4), 4)} for p in plan["periods"]]
        plan.pop("seasons", None)
        charge = rng.choice([c for c in plan["energyCharges"] if c["periods"] != ["other"]])
        del charge["pricePerKwh"]
        charge.update({"limitPer": "billingPeriod", "blocks": blocks})
    else:
        for key in ("periods", "windows", "defaultPeriod", "dayTypes", "holidays", "seasons"):
            plan.pop(key, None)
        plan["energyCharges"] = [{"name": "Energy", "limitPer": rng.choice(["billingPeriod", "month"]), "blocks": blocks}]
        if rng.random() < 0.15:
            plan["energyCharges"][0]["wholeUse"] = True


def add_export(rng, plan, above):
    prices = [c["pricePerKwh"] for c in plan["energyCharges"] if "pricePerKwh" in c] or [0.1]
    low, high = min(prices), max(prices)
    worth = round(high * rng.uniform(1.05, 1.6) + 0.02, 4) if above else round(max(0.0, low) * rng.choice([0.0, 0.3, 0.6, 0.9]), 4)
    credits = [{"name": "Export", "pricePerKwh": worth}]
    if above and rng.random() < 0.5 and "periods" in plan:
        credits = [{"name": "Export at peak", "periods": ["peak"], "pricePerKwh": worth}, {"name": "Export", "pricePerKwh": 0.01}]
    plan["export"] = {"kind": "netBilling", "prices": credits}
    for tax in plan.get("taxes", []) if rng.random() < 0.3 else ():
        tax["on"]["parts"] = tax["on"]["parts"] + ["exportCredit"]


def add_minimum(rng, plan, around):
    """A minimum bill near the bill of a use."""
    plan.pop("taxes", None)
    plan["minimumBill"] = {"amount": round(max(1.0, around * rng.uniform(0.9, 1.25)), 2), "per": rng.choice(["billingPeriod", "month"]), "counts": PARTS}


def add_band(rng, plan, around):
    low = max(1.0, around + rng.uniform(-5, 40))
    if rng.random() < 0.5:
        plan["credits"] = [{"name": "Steady use", "amount": round(rng.uniform(0.5, 6), 2), "per": "billingPeriod",
                            "useBand": {"overKwh": round(low, 1), "upToKwh": round(low + rng.uniform(10, 80), 1)}}]
    else:
        plan["customerCharges"].append({"name": "Large use", "amount": round(rng.uniform(0.5, 6), 2), "per": "month", "useBand": {"overKwh": round(low, 1)}})
