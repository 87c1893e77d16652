"""Marginal price per kWh at the meter over time, from a rate-plan document.

Read: flat and time-of-use energy prices by season, day type and window (across midnight, too), holidays, adjustments per kWh
and percentage taxes: price = (energy + adjustments) * (1 + taxes). Blocks, demand charges, events and whatever else could change the
marginal price are refused loudly. Tests by hand may give {"priceSteps": [[time, price], ...]} instead.
"""
from datetime import timedelta

from household_time import DAY, RequestError, changes, read_time, readings, to_local
from rate_plan_document import read_plan


def price_steps(document, zone, start, end):
    """[(instant, price)]: the first at `start`, neighbours differ, each holds to the next and the last to `end`."""
    if "priceSteps" in document:
        steps = [(read_time(text, zone), price) for text, price in document["priceSteps"]]
        if steps[0][0] > start:
            raise RequestError("the price steps begin after the plug-in")
        return merged([(max(start, t), p) for i, (t, p) in enumerate(steps)
                       if t < end and (i + 1 == len(steps) or steps[i + 1][0] > start)])
    plan = read_plan(document)
    cuts = {start, *changes(start, end, plan.zone)}
    day = to_local(start, plan.zone).replace(hour=0, minute=0, second=0, microsecond=0) - timedelta(days=1)
    last = to_local(end, plan.zone) + timedelta(days=1)
    while day <= last:
        for minutes in plan.window_minutes | {0}:
            cuts.update(readings(day + timedelta(minutes=minutes), plan.zone))
        day += timedelta(days=1)
    return merged([(t, plan.price_at(to_local(t, plan.zone))) for t in sorted(cuts) if start <= t < end])


def merged(steps):
    return [step for i, step in enumerate(steps) if i == 0 or step[1] != steps[i - 1][1]]
