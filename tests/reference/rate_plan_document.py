"""A rate-plan document as a marginal price at a wall-clock time.

The first window that holds wins. A window belongs to the day on which it begins, with its season and day type: 22:00 on Friday to
06:00 on Saturday is Friday's, and so is the season in which it is priced. Dates of a charge are those of the use itself. Everything that could make the price depend on how much is used is refused.
"""
from datetime import date, timedelta

from household_time import RequestError, zone_of

WEEKDAYS = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]
KNOWN = {"name", "utility", "description", "source", "currency", "timeZone", "effective", "metering", "seasons", "dayTypes",
         "holidays", "periods", "windows", "defaultPeriod", "customerCharges", "energyCharges", "adjustments", "taxes",
         "rounding", "proration"}
CHARGE_KEYS = {"name", "seasons", "periods", "from", "until", "pricePerKwh"}
HOLIDAY_KEYS = {"name", "rule", "date", "nth", "weekday", "month", "offsetDays", "dates", "dayType", "saturdayMovesTo", "sundayMovesTo"}


def read_plan(document):
    if not isinstance(document, dict):
        raise RequestError("this reference needs the rate plan's document, not its id")
    only(document, KNOWN, "rate plan")
    if not document.get("energyCharges"):
        raise RequestError("a rate plan without energy charges")
    return RatePlan(document)


def only(document, keys, what):
    extra = set(document) - keys
    if extra:
        raise RequestError(f"{what}: this reference does not know {', '.join(sorted(extra))}")


class PlanCalendar:
    """Seasons, day types, holidays and windows: which period and season hold at a wall-clock time."""

    def __init__(self, document, zone):
        self.zone = zone
        self.seasons = [(s["name"], [(month_day(r["from"]), month_day(r["to"])) for r in s["ranges"]])
                        for s in document.get("seasons", [])]
        self.day_types = {day: t["name"] for t in document.get("dayTypes", []) for day in t["days"]}
        self.holiday_rules = document.get("holidays", [])
        self.windows = []
        for w in document.get("windows", []):
            only(w, {"period", "seasons", "dayTypes", "from", "to"}, "window")
            self.windows.append((w["period"], w.get("seasons"), w.get("dayTypes"), clock(w["from"]), clock(w["to"])))
        self.default_period = document.get("defaultPeriod")
        self.holidays = {}                                  # year -> {date: day type}

    @property
    def window_minutes(self):
        return {m % 1440 for w in self.windows for m in w[3:5]}

    def covers(self, charge, local):
        """Whether a charge covers the use at a wall-clock time."""
        period, owner = self.period_at(local)
        day = local.date().isoformat()
        return ("seasons" not in charge or self.season_of(owner) in charge["seasons"]) \
            and ("periods" not in charge or period in charge["periods"]) \
            and charge.get("from", "0000-00-00") <= day <= charge.get("until", "9999-12-31")

    def season_of(self, day):
        at = (day.month, day.day)
        for name, ranges in self.seasons:
            for first, last in ranges:
                if (first <= at <= last) if first <= last else (at >= first or at <= last):
                    return name
        if self.seasons:
            raise RequestError(f"no season covers {day}")
        return None

    def period_at(self, local):
        """The period, and the day whose season and day type hold."""
        minute = local.hour * 60 + local.minute + local.second / 60
        today = local.date()
        for period, seasons, day_types, begin, end in self.windows:
            if begin < end:
                owner = today if begin <= minute < end else None
            else:
                owner = today if minute >= begin else today - timedelta(days=1) if minute < end else None
            if owner is not None and (seasons is None or self.season_of(owner) in seasons) \
                    and (day_types is None or self.day_type_of(owner) in day_types):
                return period, owner
        return self.default_period, today

    def day_type_of(self, day):
        if day.year not in self.holidays:
            self.holidays[day.year] = {d: rule["dayType"] for year in (day.year - 1, day.year, day.year + 1)
                                       for rule in self.holiday_rules for d in observed(rule, year)}
        return self.holidays[day.year].get(day) or self.day_types.get(WEEKDAYS[day.weekday()])


class RatePlan(PlanCalendar):
    charge_keys = CHARGE_KEYS

    def __init__(self, document):
        super().__init__(document, zone_of(document["timeZone"]))
        self.effective = document["effective"]
        self.energy, self.adjustments = document["energyCharges"], document.get("adjustments", [])
        for charge in self.energy + self.adjustments:
            only(charge, self.charge_keys, "charge")        # blocks and the like end here
        self.taxes = document.get("taxes", [])
        for tax in self.taxes:
            only(tax, {"name", "percent", "on"}, "tax")

    def price_at(self, local, price_of=lambda charge: charge["pricePerKwh"]):
        """What one more kWh costs, adjustments and percentage taxes included."""
        day = local.date().isoformat()
        if not self.effective["from"] <= day <= self.effective.get("until", "9999-12-31"):
            raise RequestError(f"the rate plan does not hold on {day}")

        def total(charges, needed):
            fitting = [price_of(c) for c in charges if self.covers(c, local)]
            if needed and not fitting:
                raise RequestError(f"no energy charge fits {local}")
            return sum(fitting)

        return self.with_taxes({"energyCharge": total(self.energy, True), "adjustment": total(self.adjustments, False)})

    def with_taxes(self, parts):
        """Amounts by part of the bill, and every percentage on them."""
        price, levied = sum(parts.values()), {}
        for tax in self.taxes:
            base = sum(parts.get(p, 0.0) for p in tax["on"].get("parts", []))
            base += sum(levied[t] for t in tax["on"].get("taxes", []))
            levied[tax["name"]] = base * tax["percent"] / 100
            price += levied[tax["name"]]
        return price


def month_day(text):
    month, day = text.split("-")
    return int(month), int(day)


def clock(text):
    hour, minute = text.split(":")
    return int(hour) * 60 + int(minute)


def observed(rule, year):
    """The dates of a year on which a holiday is kept: one, or several where they are listed."""
    only(rule, HOLIDAY_KEYS, "holiday")
    kind = rule["rule"]
    if kind == "dates":
        return [kept(rule, date.fromisoformat(d)) for d in rule["dates"] if d.startswith(f"{year:04d}-")]
    if kind == "fixedDate":
        day = date(year, *month_day(rule["date"]))
    elif kind == "nthWeekday":
        first = date(year, rule["month"], 1)
        ahead = (WEEKDAYS.index(rule["weekday"]) - first.weekday()) % 7
        day = first + timedelta(days=ahead + 7 * (rule["nth"] - 1))
    elif kind == "weekdayOnOrBefore":
        last = date(year, *month_day(rule["date"]))
        day = last - timedelta(days=(last.weekday() - WEEKDAYS.index(rule["weekday"])) % 7)
    elif kind == "easter":
        day = easter(year)
    else:
        raise RequestError(f"holiday: this reference does not know the rule {kind}")
    return [kept(rule, day + timedelta(days=rule.get("offsetDays", 0)))]


def kept(rule, day):
    """Where a holiday goes that falls on a Saturday or a Sunday."""
    move = rule.get({5: "saturdayMovesTo", 6: "sundayMovesTo"}.get(day.weekday(), ""), "none")
    if move == "none":
        return day
    if move == "friday":
        return day - timedelta(days=1)
    if move == "monday":
        return day + timedelta(days=7 - day.weekday())
    raise RequestError(f"holiday: this reference does not know the move to {move}")


def easter(year):
    """Western Easter Sunday (the anonymous Gregorian computus)."""
    a, b, c = year % 19, year // 100, year % 100
    d, e = b // 4, b % 4
    g = (8 * b + 13) // 25
    h = (19 * a + b - d - g + 15) % 30
    m = (a + 11 * h) // 319
    j, k = c // 4, c % 4
    weekday = (2 * e + 2 * j - k - h + m + 32) % 7
    month = (h - m + weekday + 90) // 25
    return date(year, month, (h - m + weekday + month + 19) % 32)
