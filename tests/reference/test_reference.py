"""Programs of two to four intervals, solved by hand in the comments."""
import unittest
from types import SimpleNamespace

from interval_model import Departure, Model
from linear_program import ChargingProgram

# A car whose constants make a pencil enough: 6 kW at the wall are 6 kW in the battery.
PLAIN = {"usable": 60.0, "ordinary": 48.0, "extended": 60.0, "minimum": 6.0, "eta": 1.0}


def program(energy, price, rate=6.0, wall=6.0, home=None, drive=None, departures=(), upper=60.0, lower=0.0, end_value=0.0,
            in_time_order=True, mutant="", **vehicle):
    """Intervals of one hour; departures as (boundary, required, road)."""
    n = len(price)
    home = home or [True] * n
    each = lambda value: list(value) if isinstance(value, (list, tuple)) else [value] * n
    walls, rates = each(wall), each(rate)
    model = Model(
        household=SimpleNamespace(energy=energy, vehicle=SimpleNamespace(**{**PLAIN, **vehicle}), in_time_order=in_time_order),
        bounds=[i * 3_600_000_000 for i in range(n + 1)], length=[1.0] * n, home=home,
        wall=[w if h else 0.0 for w, h in zip(walls, home)], rate=[r if h else 0.0 for r, h in zip(rates, home)],
        price=list(price), drive=drive or [0.0] * n, departures=[Departure(b, None, q, list(road)) for b, q, road in departures],
        least=[], lower=[lower] * (n + 1), upper=[upper] * (n + 1), end_value=end_value)
    return ChargingProgram(model, mutant).solve()


class HandSolved(unittest.TestCase):
    def test_three_prices_the_cheapest_hours_fill_first(self):
        # 9 kWh are missing: 6 at 0.10 and 3 at 0.20 = 1.20.
        s = program(6.0, [0.30, 0.10, 0.20], departures=[(3, 15.0, [])])
        self.assertAlmostEqual(1.20, s.cost, 9)
        self.assertEqual([0.0, 0.0], [s.sum_trip, s.sum_target])

    def test_target_out_of_reach_the_rest_is_reported(self):
        # Two hours give 12 kWh; 6 + 12 = 18 of 25: 7 are missing, and everything is bought: 6 * 0.30 + 6 * 0.10 = 2.40.
        s = program(6.0, [0.30, 0.10], departures=[(2, 25.0, [])])
        self.assertAlmostEqual(7.0, s.sum_target, 7)
        self.assertAlmostEqual(2.40, s.cost, 7)

    def test_published_case_120_volts_warm_dear_hour_beats_cold_cheap_hour(self):
        # Check 46 of the physics list: 1.44 kW at the wall; 70 degF: r = 1.1192; 20 degF: r = 0.93 * 1.44 - 0.22 - 0.05 * 12.667.
        # Per stored kWh: 0.20 * 1.44 / 1.1192 = 0.257 against 0.10 * 1.44 / 0.4859 = 0.296.
        cold = 0.93 * 1.44 - 0.22 - 0.05 * (6 - (20 - 32) / 1.8)
        s = program(6.0, [0.20, 0.10], rate=[1.1192, cold], wall=1.44, departures=[(2, 6.4, [])])
        self.assertAlmostEqual(0.257, s.cost / 0.4, 3)
        self.assertAlmostEqual(0.2573, 0.20 * 1.44 / 1.1192, 4)
        self.assertAlmostEqual(0.2964, 0.10 * 1.44 / cold, 4)
        self.assertAlmostEqual(0.0, s.share[1], 9)

    def test_negative_price_only_what_is_stored_counts(self):
        # r = 5.4 at eta 0.9 and an overhead of 0: 6 kWh at the wall. At -0.10: -0.10 * 5.4 / 0.9 = -0.60.
        # With an overhead (r = 4.5) only 5 kWh count: -0.50, though 6 kWh earn 0.60 on the bill.
        self.assertAlmostEqual(-0.60, program(6.0, [-0.10], rate=5.4, eta=0.9).objective, 9)
        self.assertAlmostEqual(-0.50, program(6.0, [-0.10], rate=4.5, eta=0.9).objective, 9)
        self.assertAlmostEqual(-0.60, program(6.0, [-0.10], rate=4.5, eta=0.9, mutant="lossesEarnNegativePrice").objective, 9)

    def test_trip_too_long_the_battery_gives_what_lies_above_the_minimum(self):
        # 8 + 6 = 14 kWh at departure, minimum 6: 8 of 10 kWh are driven, 2 bought elsewhere.
        s = program(8.0, [0.10, 0.0, 0.0], home=[True, False, False], drive=[0.0, 5.0, 5.0], lower=6.0,
                    departures=[(1, 14.0, [1, 2])])
        self.assertAlmostEqual(2.0, s.sum_trip, 7)
        self.assertAlmostEqual(0.0, s.sum_target, 7)
        self.assertAlmostEqual(6.0, s.energy[3], 7)

    def test_two_trips_in_time_order_the_first_is_served_first(self):
        # 16 kWh, none to be had: the first trip of 8 is served (16 -> 8), of the second 2, 6 are short.
        # Both departures ask for 14: the first has 16, the second 8, so 6 are missed.
        s = program(16.0, [0.1] * 3, rate=0.0, home=[False, True, False], drive=[8.0, 0.0, 8.0], lower=6.0,
                    departures=[(1, 0.0, [0]), (2, 14.0, [2])])
        self.assertAlmostEqual(6.0, s.trip_shortfall[1], 7)
        self.assertAlmostEqual(6.0, s.target_shortfall[1], 7)

    def test_two_trips_least_total_a_shortfall_moves_to_where_the_target_gains(self):
        # The same total of 6 kWh short, but taken from the first trip: the second departure then has 14 and misses nothing.
        s = program(16.0, [0.1] * 3, rate=0.0, home=[False, True, False], drive=[8.0, 0.0, 8.0], lower=6.0, in_time_order=False,
                    departures=[(1, 0.0, [0]), (2, 14.0, [2])])
        self.assertAlmostEqual(6.0, s.sum_trip, 7)
        self.assertAlmostEqual(0.0, s.sum_target, 7)
        self.assertAlmostEqual(6.0, s.trip_shortfall[0], 7)

    def test_end_value_is_paid_up_to_the_ordinary_limit(self):
        # At 0.10 a kWh that is worth 0.25 at the end is bought: 6 kWh, to 48; the next hour's would be above the limit.
        # Objective 0.60 - 0.25 * 48 = -11.40.
        s = program(42.0, [0.10, 0.20], end_value=0.25)
        self.assertAlmostEqual(0.60, s.cost, 7)
        self.assertAlmostEqual(-11.40, s.objective, 7)

    def test_upper_bound_binds_the_cheap_hour_is_not_used_to_the_full(self):
        # 44 kWh, limit 46 in all hours, required 46: 2 kWh at 0.10; 46 * 0 end value.
        s = program(44.0, [0.10, 0.05], upper=46.0, departures=[(2, 46.0, [])])
        self.assertAlmostEqual(0.10, s.cost, 7)

    def test_charging_pauses_full_power_is_a_share_of_the_hour(self):
        # 3 of 6 kWh: half of the hour.
        s = program(6.0, [0.10, 0.90], departures=[(2, 9.0, [])])
        self.assertAlmostEqual(0.5, s.share[0], 9)


if __name__ == "__main__":
    unittest.main()
