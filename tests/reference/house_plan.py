"""What a rate plan charges a whole house: prices per kWh in the block reached, and the terms that no price per kWh can say.

Terms are worked out for each billing period (calendar month of the plan's zone) that the horizon touches, from the document, the expected
load of the house and the use so far. All amounts include the percentages on their part of the bill.
"""
from dataclasses import dataclass
from datetime import date, timedelta, timezone
from math import gcd

from household_time import HOUR, MINUTE, RequestError, changes, hours, offset_at, readings, to_local
from rate_plan_document import CHARGE_KEYS, KNOWN, PlanCalendar, RatePlan, only

BLOCK_KEYS = CHARGE_KEYS | {"blocks", "limitPer", "wholeUse", "calendar"}
DEMAND_KEYS = {"name", "calendar", "seasons", "periods", "from", "until", "pricePerKw", "blocks", "per", "averagingMinutes", "measure",
               "minimumKw", "ratchet"}
PLAN_KEYS = KNOWN | {"calendars", "demandCharges", "export", "minimumBill", "credits"}
ENDLESS = float("inf")


@dataclass
class BillingPeriod:
    start: int
    end: int
    first_day: date
    days: int


@dataclass
class BlockTerm:
    period: BillingPeriod
    hours: list              # [(from, until)], inside the horizon
    used: float              # kWh, so far and expected
    edges: list              # (limit above, price above what the span says), in order
    whole_use: bool


@dataclass
class DemandTerm:
    period: BillingPeriod
    windows: list            # [(from, until)] of averages that touch the horizon
    measured: float          # kW, so far and expected
    floor: float             # kW
    blocks: list             # (limit above, price)


@dataclass
class MinimumTerm:
    period: BillingPeriod
    minimum: float
    counted: float


@dataclass
class BandTerm:
    period: BillingPeriod
    over: float
    up_to: float
    used: float
    amount: float


class HousePlan(RatePlan):
    charge_keys = BLOCK_KEYS

    def __init__(self, house, start, end, mutant=""):
        document = house.rate_plan
        if not isinstance(document, dict):
            raise RequestError("this reference needs the rate plan's document, not its id")
        only(document, PLAN_KEYS, "rate plan")
        super().__init__(document)
        self.document, self.house, self.mutant = document, house, mutant
        self.start, self.end = start, end
        self.calendars = {None: self}
        for c in document.get("calendars", []):
            only(c, {"name", "periods", "defaultPeriod", "windows"}, "calendar")
            self.calendars[c["name"]] = PlanCalendar({**document, "windows": [], "defaultPeriod": None, **c}, self.zone)
        self.periods = list(self.billing_periods())
        self.reached = {}                                   # (charge's index, period's start) -> index of the block of the next kWh
        self.terms = []
        for period in self.periods:
            self.add_blocks(period)
        for period in self.periods:
            self.add_demand(period)
            self.add_minimum(period)
            self.add_bands(period)

    def billing_periods(self):
        first = to_local(self.start, self.zone).date().replace(day=1)
        while (begin := self.midnight(first)) < self.end:
            after = (first + timedelta(days=32)).replace(day=1)
            yield BillingPeriod(begin, self.midnight(after), first, (after - first).days)
            first = after

    def midnight(self, day):
        return readings(to_local(0, self.zone).replace(day.year, day.month, day.day, 0, 0), self.zone)[0]

    def changes(self, start, end):
        """Instants at which whatever the clock rules may change."""
        cuts = {start, end, *changes(start, end, self.zone)}
        day = to_local(start, self.zone).replace(hour=0, minute=0, second=0, microsecond=0) - timedelta(days=1)
        last = to_local(end, self.zone) + timedelta(days=1)
        marks = {0} | set().union(*(c.window_minutes for c in self.calendars.values()))
        while day <= last:
            for minutes in marks:
                cuts.update(readings(day + timedelta(minutes=minutes), self.zone))
            day += timedelta(days=1)
        return sorted(t for t in cuts if start <= t <= end)

    def hours_of(self, charge, start, end):
        """[(from, until)] that a charge covers between two instants."""
        calendar, found = self.calendars[charge.get("calendar")], []
        cuts = self.changes(start, end) if end > start else []
        for a, b in zip(cuts, cuts[1:]):
            if calendar.covers(charge, self.clock(a)):
                if found and found[-1][1] == a:
                    found[-1] = (found[-1][0], b)
                else:
                    found.append((a, b))
        return found

    def clock(self, instant):
        return to_local(instant, self.zone)

    def covered_days(self, charge, period):
        """Dates of a billing period in a charge's seasons and dates."""
        calendar, dates = self.calendars[charge.get("calendar")], [period.first_day + timedelta(days=i) for i in range(period.days)]
        return sum(("seasons" not in charge or calendar.season_of(d) in charge["seasons"])
                   and charge.get("from", "0000") <= d.isoformat() <= charge.get("until", "9999") for d in dates)

    # --- the house's use, expected and so far

    def expected_from(self, period):
        """Where the expected load begins to count: at the hour of the plug-in."""
        first = self.house.load.first_hour(self.start) if hasattr(self.house.load, "first_hour") else self.start // HOUR * HOUR
        return max(first, period.start)

    def expected_kwh(self, a, b):
        """Import of the house without its cars between two instants."""
        house = self.house
        cuts = {a, b, *range((a // (15 * MINUTE) + 1) * 15 * MINUTE, b, 15 * MINUTE)}
        for series in (house.load, house.solar):
            cuts.update(series.changes(a, b) if series else ())
        cuts = sorted(cuts)
        return sum(house.imported(t) * hours(u - t) for t, u in zip(cuts, cuts[1:]))

    def used_kwh(self, charge, period):
        before = self.house.used_so_far if period is self.periods[0] else 0.0
        expected = sum(self.expected_kwh(a, b) for a, b in self.hours_of(charge, self.expected_from(period), period.end))
        return round(before + expected, 6)                  # energy counts in millionths: a use can lie on a limit

    # --- energy charges in blocks

    def add_blocks(self, period):
        for number, charge in enumerate(self.energy + self.adjustments):
            if "blocks" not in charge:
                continue
            used, below, limits = self.used_kwh(charge, period), 0.0, []
            for block in charge["blocks"]:
                only(block, {"upToKwh", "pricePerKwh"}, "block")
                below = max(below, round(block["upToKwh"] * self.limit_factor(charge, period), 6)) if "upToKwh" in block else ENDLESS
                limits.append(below)
            reached = next(i for i, limit in enumerate(limits) if limit > used)
            self.reached[number, period.start] = reached
            part = "energyCharge" if number < len(self.energy) else "adjustment"
            base = charge["blocks"][reached]["pricePerKwh"]
            edges = [(limit, self.with_taxes({part: block["pricePerKwh"] - base})) for limit, block in zip(limits, charge["blocks"])]
            if self.mutant == "blocksIgnored":
                edges = [(ENDLESS, 0.0)]
            inside = self.hours_of(charge, max(self.start, period.start), min(self.end, period.end))
            self.terms.append(BlockTerm(period, inside, used, edges, charge.get("wholeUse", False)))

    def limit_factor(self, charge, period):
        covered, per = self.covered_days(charge, period), charge["limitPer"]
        return {"month": covered / period.days, "day": covered, "thirtyDays": covered / 30, "billingPeriod": 1}[per]

    def import_price(self, instant):
        period = self.period_of(instant)
        numbers = {id(c): i for i, c in enumerate(self.energy + self.adjustments)}
        return self.price_at(self.clock(instant), lambda c: c["pricePerKwh"] if "blocks" not in c
                             else c["blocks"][self.reached[numbers[id(c)], period.start]]["pricePerKwh"])

    def export_price(self, instant):
        export = self.document.get("export")
        if export is None or self.mutant == "exportCreditDropped":
            return 0.0
        only(export, {"kind", "prices"}, "export")
        if export["kind"] != "netBilling":
            raise RequestError("this reference knows net billing only")
        if self.mutant == "exportAtImportPrice":
            return self.import_price(instant)
        local = self.clock(instant)
        return self.with_taxes({"exportCredit": sum(p["pricePerKwh"] for p in export["prices"]
                                                    if self.calendars[p.get("calendar")].covers(p, local))})

    def period_of(self, instant):
        return next(p for p in self.periods if p.start <= instant < p.end)

    # --- demand

    def add_demand(self, period):
        for charge in self.document.get("demandCharges", []):
            only(charge, DEMAND_KEYS, "demand charge")
            if charge.get("measure", "highest") != "highest":
                raise RequestError("this reference knows the highest average only")
            covered = self.covered_days(charge, period)
            if covered == 0:
                continue
            factor = {"billingPeriod": 1, "month": covered / period.days, "day": covered}[charge.get("per", "billingPeriod")]
            blocks = charge.get("blocks", [{"pricePerKw": charge.get("pricePerKw")}])
            priced = [(b.get("upToKw", ENDLESS), self.with_taxes({"demandCharge": b["pricePerKw"] * factor})) for b in blocks]
            measured = 0.0 if self.mutant == "expectedPeakIgnored" else self.measured_kw(charge, period)
            if period is self.periods[0]:
                measured = max(measured, self.house.demand_so_far.get(charge["name"], 0.0))
            floor = max(charge.get("minimumKw", 0.0), self.ratchet_kw(charge, period))
            self.terms.append(DemandTerm(period, self.demand_windows(charge, period), measured, floor, priced))

    def measured_kw(self, charge, period):
        """Highest average of the expected import. Intervals that are longer than the averages stand by themselves."""
        first, even = self.expected_from(period), self.even_minutes() * MINUTE
        step = max(even, charge["averagingMinutes"] * MINUTE)
        origin, highest = self.expected_from(self.periods[0]) if step == even else 0, 0.0
        for a, b in self.hours_of(charge, first, period.end):
            t = a + (origin - a) % step
            while t < b and t + step <= period.end:
                highest = max(highest, self.expected_kwh(t, t + step) / hours(step))
                t += step
        return highest

    def even_minutes(self):
        """The longest intervals in which load and sun are even."""
        solar, load = self.house.solar, self.house.load
        if solar is None or load is None:
            return 60
        return gcd(60, solar.interval // MINUTE, (solar.start - load.first_hour(self.start)) // MINUTE)

    def ratchet_kw(self, charge, period):
        ratchet = charge.get("ratchet")
        if ratchet is None or self.mutant == "ratchetIgnored":
            return 0.0
        only(ratchet, {"percent", "months"}, "ratchet")
        month = 12 * period.first_day.year + period.first_day.month
        past = [p["kw"] for p in self.house.past_peaks
                if p["charge"] == charge["name"] and 1 <= month - (12 * int(p["month"][:4]) + int(p["month"][5:])) <= ratchet["months"]]
        return ratchet["percent"] / 100 * max(past, default=0.0)

    def demand_windows(self, charge, period):
        """Averages aligned with the clock that begin in the charge's hours, lie in the billing period and touch the horizon."""
        minutes = charge["averagingMinutes"]
        if self.mutant == "averagingLengthWrong":
            minutes = 60 if minutes < 60 else 15
        step, found = minutes * MINUTE, []
        shift, zone = HOUR if self.mutant == "demandWindowShifted" else 0, self.zone
        if self.mutant == "clockChangeInDemandIgnored":
            self.zone = timezone(offset_at(self.start, zone))
        spans, self.zone = self.hours_of(charge, period.start, period.end), zone
        for a, b in spans:
            t = -(-(a + shift) // step) * step
            while t < b + shift:
                if t + step <= period.end and t + step > self.start and t < self.end:
                    found.append((t, t + step))
                t += step
        return found

    # --- what counts the whole billing period

    def units(self, per, period):
        return {"month": 1, "billingPeriod": 1, "day": period.days, "year": 1 / 12}[per]

    def add_minimum(self, period):
        minimum = self.document.get("minimumBill")
        if minimum is None or self.mutant == "minimumBillIgnored":
            return
        if self.document.get("taxes"):
            raise RequestError("this reference knows minimum bills without taxes only")
        if not {"customerCharge", "energyCharge", "demandCharge", "adjustment", "credit", "exportCredit"} <= set(minimum["counts"]):
            raise RequestError("this reference knows minimum bills that count everything only")
        counted = sum(c["amount"] * self.units(c["per"], period) for c in self.document.get("customerCharges", []) if "useBand" not in c)
        counted += self.expected_energy_cost(period)
        for term in self.terms:
            if isinstance(term, DemandTerm) and term.period is period:
                counted += integral(term.blocks, max(term.measured, term.floor))
            if isinstance(term, BandTerm) and term.period is period:
                raise RequestError("this reference knows no minimum bill beside amounts for a band of use")
        self.terms.append(MinimumTerm(period, minimum["amount"] * self.units(minimum["per"], period), counted))

    def expected_energy_cost(self, period):
        begin = self.expected_from(period)
        cuts = self.changes(begin, period.end) if begin < period.end else []
        cost = self.cost_so_far(period, begin)
        for a, b in zip(cuts, cuts[1:]):
            local = self.clock(a)
            flat = sum(c["pricePerKwh"] for c in self.energy + self.adjustments if "blocks" not in c and self.covers(c, local))
            cost += flat * self.expected_kwh(a, b)
            if self.house.solar and "export" in self.document:
                cost -= self.export_price(a) * (self.expected_kwh(a, b) - self.net_kwh(a, b))
        for charge in [c for c in self.energy + self.adjustments if "blocks" in c]:
            limits = [(b["upToKwh"] * self.limit_factor(charge, period) if "upToKwh" in b else ENDLESS, b["pricePerKwh"])
                      for b in charge["blocks"]]
            cost += integral(limits, self.used_kwh(charge, period))
        return cost

    def cost_so_far(self, period, begin):
        """What was used before the expected load begins, evenly since the billing period began, at prices without blocks."""
        so_far = self.house.used_so_far if period is self.periods[0] else 0.0
        if so_far == 0:
            return 0.0
        def flat(instant):
            local = self.clock(instant)
            return sum(c["pricePerKwh"] for c in self.energy + self.adjustments if "blocks" not in c and self.covers(c, local))
        if begin <= period.start:
            return so_far * flat(begin)
        cuts = self.changes(period.start, begin)
        return sum(so_far * (b - a) / (begin - period.start) * flat(a) for a, b in zip(cuts, cuts[1:]))

    def net_kwh(self, a, b):
        house = self.house
        cuts = {a, b}
        for series in (house.load, house.solar):
            cuts.update(series.changes(a, b) if series else ())
        cuts = sorted(cuts)
        return sum(house.net(t) * hours(u - t) for t, u in zip(cuts, cuts[1:]))

    def add_bands(self, period):
        parts = [("customerCharge", 1, self.document.get("customerCharges", [])), ("credit", -1, self.document.get("credits", []))]
        for part, sign, charges in parts:
            for charge in [c for c in charges if "useBand" in c]:
                band = charge["useBand"]
                amount = self.with_taxes({part: sign * charge["amount"] * self.units(charge["per"], period)})
                used = self.used_kwh({}, period)
                self.terms.append(BandTerm(period, band.get("overKwh", -ENDLESS), band.get("upToKwh", ENDLESS), used, amount))


def integral(blocks, quantity):
    """Cost of a quantity at the prices of the blocks that it lies in; blocks as (limit, price)."""
    cost, below = 0.0, 0.0
    for limit, price in blocks:
        cost += price * max(0.0, min(quantity, limit) - below)
        below = limit
    return cost
