"""Prices of rate plans, read off the document by hand."""
import unittest
from datetime import datetime, timedelta

from household_time import RequestError, to_instant, zone_of
from rate_plan_document import easter, observed, read_plan
from rate_plan_prices import price_steps

DAYS = [{"name": "weekday", "days": ["monday", "tuesday", "wednesday", "thursday", "friday"]},
        {"name": "weekend", "days": ["saturday", "sunday"]}]


def plan(**parts):
    return {"name": "Test", "currency": "USD", "timeZone": "America/Chicago", "effective": {"from": "2025-01-01"}, **parts}


def two_periods(**window):
    return plan(dayTypes=DAYS, periods=["low", "high"], defaultPeriod="high", windows=[{"period": "low", **window}],
                energyCharges=[{"name": "Low", "periods": ["low"], "pricePerKwh": 0.1}, {"name": "High", "periods": ["high"], "pricePerKwh": 0.3}])


def at(document, *when):
    return read_plan(document).price_at(datetime(2026, *when))


class Prices(unittest.TestCase):
    def test_taxes_on_energy_and_adjustment_and_a_tax_on_a_tax(self):
        # 0.20 - 0.01 = 0.19; fee 3 % = 0.0057; tax 1.5 % of 0.1957 = 0.0029355; together 0.1986355.
        on = {"parts": ["energyCharge", "adjustment"]}
        document = plan(energyCharges=[{"name": "Energy", "pricePerKwh": 0.20}], adjustments=[{"name": "Credit", "pricePerKwh": -0.01}],
                        taxes=[{"name": "Fee", "percent": 3, "on": on}, {"name": "Tax", "percent": 1.5, "on": {**on, "taxes": ["Fee"]}}])
        self.assertAlmostEqual(0.1986355, at(document, 1, 14, 12, 0), 12)

    def test_window_across_midnight_belongs_to_the_day_it_begins(self):
        document = two_periods(**{"from": "22:00", "to": "06:00", "dayTypes": ["weekday"]})
        self.assertEqual(0.1, at(document, 1, 17, 3, 0))     # Saturday, Friday's night
        self.assertEqual(0.3, at(document, 1, 17, 23, 0))    # Saturday night
        self.assertEqual(0.3, at(document, 1, 19, 3, 0))     # Monday, Sunday's night
        self.assertEqual(0.1, at(document, 1, 19, 22, 0))
        self.assertEqual(0.3, at(document, 1, 20, 6, 0))

    def test_window_across_midnight_keeps_its_season(self):
        document = two_periods(**{"from": "22:00", "to": "06:00"})
        document["seasons"] = [{"name": "summer", "ranges": [{"from": "06-01", "to": "09-30"}]}, {"name": "winter", "ranges": [{"from": "10-01", "to": "05-31"}]}]
        document["energyCharges"].append({"name": "Winter low", "seasons": ["winter"], "periods": ["low"], "pricePerKwh": 0.2})
        document["energyCharges"][0]["seasons"] = ["summer"]
        self.assertEqual([0.1, 0.3, 0.2], [at(document, 10, 1, 5, 59), at(document, 10, 1, 6, 0), at(document, 10, 1, 22, 0)])

    def test_seasons_wrap_the_year(self):
        document = plan(seasons=[{"name": "winter", "ranges": [{"from": "10-16", "to": "04-15"}]}, {"name": "summer", "ranges": [{"from": "04-16", "to": "10-15"}]}],
                        energyCharges=[{"name": "W", "seasons": ["winter"], "pricePerKwh": 0.1}, {"name": "S", "seasons": ["summer"], "pricePerKwh": 0.2}])
        self.assertEqual([0.1, 0.2, 0.2, 0.1], [at(document, m, d, 12) for m, d in ((4, 15), (4, 16), (10, 15), (10, 16))])

    def test_holiday_is_a_weekend(self):
        document = two_periods(**{"from": "08:00", "to": "20:00", "dayTypes": ["weekend"]})
        document["holidays"] = [{"name": "Fourth of July", "rule": "fixedDate", "date": "07-04", "dayType": "weekend", "saturdayMovesTo": "friday"}]
        self.assertEqual(0.1, at(document, 7, 3, 12))        # 4 July 2026 is a Saturday: kept on Friday
        self.assertEqual(0.3, at(document, 7, 2, 12))

    def test_holidays_of_2026(self):
        dates = {r["name"]: observed(r, 2026)[0].isoformat() for r in (
            {"name": "memorial", "rule": "weekdayOnOrBefore", "weekday": "monday", "date": "05-31", "dayType": "x"},
            {"name": "labor", "rule": "nthWeekday", "nth": 1, "weekday": "monday", "month": 9, "dayType": "x"},
            {"name": "thanks", "rule": "nthWeekday", "nth": 4, "weekday": "thursday", "month": 11, "offsetDays": 1, "dayType": "x"},
            {"name": "friday", "rule": "easter", "offsetDays": -2, "dayType": "x"})}
        self.assertEqual({"memorial": "2026-05-25", "labor": "2026-09-07", "thanks": "2026-11-27", "friday": "2026-04-03"}, dates)
        self.assertEqual(["2024-03-31", "2025-04-20", "2026-04-05", "2038-04-25"], [easter(y).isoformat() for y in (2024, 2025, 2026, 2038)])

    def test_charge_with_dates_holds_on_both_of_them(self):
        document = plan(energyCharges=[{"name": "Energy", "pricePerKwh": 0.1}],
                        adjustments=[{"name": "Extra", "from": "2026-02-01", "until": "2026-02-28", "pricePerKwh": 0.05}])
        self.assertEqual([0.1, 0.15, 0.15, 0.1], [round(at(document, m, d, 12), 9) for m, d in ((1, 31), (2, 1), (2, 28), (3, 1))])

    def test_listed_dates_and_a_window_to_midnight(self):
        document = two_periods(**{"from": "20:00", "to": "24:00", "dayTypes": ["weekend"]})
        document["holidays"] = [{"name": "Local day", "rule": "dates", "dates": ["2025-05-05", "2026-05-05"], "dayType": "weekend"}]
        self.assertEqual([0.1, 0.3, 0.3], [at(document, 5, 5, 23, 59), at(document, 5, 6, 0, 0), at(document, 5, 6, 23, 0)])

    def test_plan_that_does_not_hold_yet_is_refused(self):
        with self.assertRaises(RequestError):
            at({**plan(energyCharges=[{"name": "Energy", "pricePerKwh": 0.1}]), "effective": {"from": "2026-06-01"}}, 5, 31)

    def test_blocks_and_demand_are_refused(self):
        blocks = plan(energyCharges=[{"name": "Energy", "limitPer": "month", "blocks": [{"upToKwh": 500, "pricePerKwh": 0.1}, {"pricePerKwh": 0.2}]}])
        demand = plan(energyCharges=[{"name": "Energy", "pricePerKwh": 0.1}], demandCharges=[{}])
        for document in (blocks, demand, "example-power-standard"):
            with self.assertRaises(RequestError):
                read_plan(document)


class Steps(unittest.TestCase):
    def steps(self, document, start, hours):
        """(hours after the start, price) over a span that starts at a wall-clock time."""
        zone = zone_of("America/Chicago")
        begin = to_instant(datetime(*start, tzinfo=zone))
        return [((t - begin) / 3.6e9, p) for t, p in price_steps(document, zone, begin, begin + int(hours * 3.6e9))]

    def test_night_of_a_spring_change_has_an_hour_less(self):
        document = two_periods(**{"from": "00:00", "to": "06:00"})
        self.assertEqual([(0, 0.1), (5, 0.3)], self.steps(document, (2026, 3, 8), 20))

    def test_window_inside_the_gap_does_not_occur(self):
        self.assertEqual([(0, 0.3)], self.steps(two_periods(**{"from": "02:00", "to": "03:00"}), (2026, 3, 8), 20))

    def test_window_in_the_repeated_hour_occurs_twice(self):
        # Wall clock 01:30 to 02:00 comes at 1.5 h and at 2.5 h; in between the clock shows 01:00 again.
        document = two_periods(**{"from": "01:30", "to": "02:30"})
        self.assertEqual([(0, 0.3), (1.5, 0.1), (2, 0.3), (2.5, 0.1), (3.5, 0.3)], self.steps(document, (2026, 11, 1), 20))

    def test_steps_agree_with_the_wall_clock_every_five_minutes(self):
        document = two_periods(**{"from": "21:15", "to": "07:05", "dayTypes": ["weekday"]})
        zone, read = zone_of("America/Chicago"), read_plan(document)
        steps = dict(self.steps(document, (2026, 10, 29), 24 * 6))
        now, start = None, datetime(2026, 10, 29, tzinfo=zone).astimezone(zone_of("UTC"))
        for five in range(24 * 6 * 12):
            now = steps.get(five / 12, now)
            local = (start + timedelta(minutes=5 * five)).astimezone(zone).replace(tzinfo=None)
            self.assertEqual(read.price_at(local), now, local)


if __name__ == "__main__":
    unittest.main()
