"""The definitions, each on a small household whose numbers are worked out by hand."""
import unittest
from datetime import datetime

from household_time import HOUR, departure_instant, read_time, return_instant, to_instant, zone_of
from interval_model import build_model, horizon
from request_reading import read_request, read_vehicle, wall_power

UTC = zone_of("UTC")
CONSTANTS = {"conversionEfficiency": 1.0, "overheadKw": 0.0, "heatingKwPerKelvin": 0.0}


def household(trips, soc=0.5, hours_of_weather=None, constants=None, **more):
    """60 kWh, 6 kW at the wall and into the battery, 20 kWh per 100 km at 20 degC, plugged in on Monday at midnight UTC."""
    request = {
        "asOf": "2026-01-12T00:00:00Z", "timeZone": "UTC",
        "vehicle": {"usableEnergyKwh": 60, "onBoardChargerKw": 6, "consumptionKwhPer100Km": 20, "constants": constants or CONSTANTS},
        "supply": {"voltageV": 240, "phases": 1, "breakerA": 40, "connection": "hardwired", "rule": "necContinuousLoad"},
        "plugIn": {"stateOfCharge": soc}, "calendar": {"trips": trips},
        "ratePlan": {"priceSteps": [["2026-01-01T00:00:00Z", 0.2]]}, "weather": {"temperatureC": 20},
        "options": {"gridMinutes": 60, "horizonDays": 2, "tripConfidence": 0.5}}
    if hours_of_weather:
        request["weather"] = {"hourly": {"start": "2026-01-12T00:00:00Z", "temperatureC": hours_of_weather}}
    for key, value in more.items():
        request[key] = {**request.get(key, {}), **value} if isinstance(value, dict) else value
    return request


def trip(departure, back, km, **more):
    return {"departure": f"2026-01-{departure}", "return": f"2026-01-{back}", "distanceKm": km, **more}


class Times(unittest.TestCase):
    def test_departure_in_the_gap_is_due_at_the_gap(self):
        # Chicago 2026-03-08: 02:00 CST is 03:00 CDT, 08:00Z.
        chicago = zone_of("America/Chicago")
        self.assertEqual(to_instant(datetime(2026, 3, 8, 8, tzinfo=UTC)), departure_instant(datetime(2026, 3, 8, 2, 30), chicago))

    def test_return_in_the_gap_is_shifted_forward(self):
        chicago = zone_of("America/Chicago")
        self.assertEqual(to_instant(datetime(2026, 3, 8, 8, 30, tzinfo=UTC)), return_instant(datetime(2026, 3, 8, 2, 30), chicago))

    def test_gap_of_half_an_hour(self):
        # Lord Howe 2026-10-04: 02:00 (+10:30) becomes 02:30 (+11), at 2026-10-03T15:30Z.
        island = zone_of("Australia/Lord_Howe")
        self.assertEqual(to_instant(datetime(2026, 10, 3, 15, 30, tzinfo=UTC)), departure_instant(datetime(2026, 10, 4, 2, 10), island))

    def test_ambiguous_departure_first_return_second(self):
        # Berlin 2026-10-25: 02:30 is 00:30Z (summer) and 01:30Z (winter).
        berlin = zone_of("Europe/Berlin")
        self.assertEqual(to_instant(datetime(2026, 10, 25, 0, 30, tzinfo=UTC)), departure_instant(datetime(2026, 10, 25, 2, 30), berlin))
        self.assertEqual(to_instant(datetime(2026, 10, 25, 1, 30, tzinfo=UTC)), return_instant(datetime(2026, 10, 25, 2, 30), berlin))

    def test_offset_that_contradicts_the_zone_is_refused(self):
        with self.assertRaises(ValueError):
            read_time("2026-01-14T17:30:00-05:00", zone_of("America/Chicago"))


class Physics(unittest.TestCase):
    def test_net_rate_table(self):
        # Recommended model, table of section 2: kW into the battery at 70, 20 and -20 degF.
        vehicle = read_vehicle({"usableEnergyKwh": 60, "onBoardChargerKw": 22, "consumptionKwhPer100Km": 15.5})
        for wall, rates in {1.44: (1.12, 0.49, 0.0), 7.68: (6.92, 6.29, 5.18), 11.04: (10.05, 9.41, 8.30)}.items():
            for fahrenheit, rate in zip((70, 20, -20), rates):
                self.assertAlmostEqual(rate, vehicle.net_rate(wall, (fahrenheit - 32) / 1.8), delta=0.0051)

    def test_supplies(self):
        vehicle = read_vehicle({"usableEnergyKwh": 60, "onBoardChargerKw": 11.5, "consumptionKwhPer100Km": 15.5})
        power = lambda **s: round(wall_power({"phases": 1, **s}, vehicle), 9)
        self.assertEqual(7.68, power(voltageV=240, breakerA=40, rule="necContinuousLoad"))
        self.assertEqual(1.44, power(voltageV=120, breakerA=15))
        self.assertEqual(11.04, power(voltageV=400, phases=3, breakerA=16, rule="dedicatedCircuit", statedCurrentA=16))
        self.assertEqual(2.3, power(voltageV=230, breakerA=16, rule="domesticSocket"))
        self.assertEqual(11.5, power(voltageV=240, breakerA=80))
        self.assertEqual(0.0, power(voltageV=240, breakerA=40, unitLimitA=5))

    def test_consumption_and_confidence(self):
        # -5 degC: factor 1.35; sigma 1.6: 1.56. 0.9 at a spread of 0.10: 1.12816.
        request = household([trip("12T06:00", "12T16:00", 100)], weather={"temperatureC": -5})
        self.assertAlmostEqual(27.0, read_request(request).trips[0].mean_kwh)
        request["vehicle"]["temperatureSensitivity"], request["options"]["tripConfidence"] = 1.6, 0.9
        self.assertAlmostEqual(31.2, read_request(request).trips[0].mean_kwh)
        self.assertAlmostEqual(1.12815516, read_request(request).factor, 7)

    def test_plain_trip_is_half_at_departure_and_half_at_return_temperature(self):
        # 06:00 at -5 degC (1.35), 16:00 at 20 degC (1.00): 50 km * 0.2 * 2.35 = 23.5 kWh.
        request = household([trip("12T06:00", "12T16:00", 100)], hours_of_weather=[-5.0] * 15 + [20.0] * 40)
        self.assertAlmostEqual(23.5, read_request(request).trips[0].mean_kwh)


class Horizon(unittest.TestCase):
    def test_second_departure_beyond_the_days_prolongs_it(self):
        request = household([trip("13T06:00", "13T08:00", 10), trip("16T06:00", "16T08:00", 10)])
        start, end = horizon(read_request(request))
        self.assertEqual(4 * 24 + 6, (end - start) / HOUR)
        self.assertEqual([True, True], [d.required > 0 for d in build_model(request).departures])
        self.assertEqual([], build_model(request).departures[1].road)

    def test_end_inside_a_trip_becomes_its_return(self):
        start, end = horizon(read_request(household([trip("13T20:00", "14T09:00", 10)])))
        self.assertEqual(2 * 24 + 9, (end - start) / HOUR)

    def test_trip_under_way_is_refused(self):
        with self.assertRaises(ValueError):
            read_request(household([trip("11T20:00", "12T09:00", 10)]))


class Bounds(unittest.TestCase):
    def test_need_of_a_trip(self):
        # 100 km at 20 degC: 20 kWh, minimum 6, confidence 0.5: 26.
        self.assertAlmostEqual(26.0, build_model(household([trip("12T06:00", "12T16:00", 100)])).departures[0].required)

    def test_need_with_a_stop_that_charges(self):
        # Back from the return: 6 + 30 = 36; an hour at 20 kW: 16; out 20: 36. On half of the days: 6 + 30 + 20 = 56.
        legs = [{"distanceKm": 100, "stop": {"from": "2026-01-12T09:00", "until": "2026-01-12T10:00", "chargingPowerKw": 20,
                                             "pricePerKwh": 0.5}}, {"distanceKm": 150}]
        request = household([trip("12T06:00", "12T16:00", 250, legs=legs)])
        self.assertAlmostEqual(36.0, build_model(request).departures[0].required)
        legs[0]["stop"]["shareOfDays"] = 0.5
        self.assertAlmostEqual(56.0, build_model(request).departures[0].required)

    def test_least_energy_before_a_long_trip(self):
        # 240 km: 48 + 6 = 54 at 06:00; every hour of 6 kW before it 6 less: 05:00 48, 03:00 36.
        model = build_model(household([trip("12T06:00", "12T16:00", 240)]))
        for expected, actual in zip((18.0, 24.0, 30.0, 36.0, 42.0, 48.0, 54.0), model.least):
            self.assertAlmostEqual(expected, actual)

    def test_upper_bound_opens_half_an_hour_early(self):
        # W(t + 30 min): 05:00 -> 51, 04:00 -> 45 < ordinary 48; 06:00 -> 54.
        model = build_model(household([trip("12T06:00", "12T16:00", 240)]))
        self.assertAlmostEqual(48.0, model.upper[4])
        self.assertAlmostEqual(51.0, model.upper[5])
        self.assertAlmostEqual(54.0, model.upper[6])

    def test_upper_bound_in_the_cold_opens_by_a_fifth_of_the_charging_time(self):
        # A target of 1 at 16:00, 1 kW (heating takes 5 of 6): W > 48 at the end of the last 12 hours: 0.2 * 12 = 2.4 h.
        constants = {**CONSTANTS, "heatingKwPerKelvin": 0.2, "heatingMaxKw": 5, "heatingBelowC": 20}
        request = household([trip("12T16:00", "12T18:00", 10, targetStateOfCharge=1.0)], constants=constants, weather={"temperatureC": -20})
        model = build_model(request)
        self.assertAlmostEqual(1.0, model.rate[0])
        self.assertAlmostEqual(60.0 - 3.0 + 2.4, model.upper[13])
        self.assertAlmostEqual(60.0, model.upper[14])

    def test_carry_measured_energy_is_allowed_until_the_departure_and_the_rest_after(self):
        # Full at 60; 20 km use 4: 56 may still be there after the return.
        model = build_model(household([trip("12T06:00", "12T08:00", 20)], soc=1.0))
        self.assertAlmostEqual(60.0, model.upper[0])
        self.assertAlmostEqual(56.0, model.upper[8])
        self.assertAlmostEqual(60.0, model.upper[7])

    def test_lower_bound_rises_at_home_and_never_on_the_road(self):
        # Empty, 6 kW: 0, then the minimum of 6 after an hour.
        model = build_model(household([trip("12T06:00", "12T08:00", 20)], soc=0.0))
        self.assertAlmostEqual(0.0, model.lower[0])
        self.assertAlmostEqual(6.0, model.lower[1])

    def test_end_value_is_the_weighted_median(self):
        # Home 48 h: 0.2 for 24 h, then 0.4: half is reached at 0.2.
        request = household([], ratePlan={"priceSteps": [["2026-01-01T00:00:00Z", 0.2], ["2026-01-13T00:00:00Z", 0.4]]})
        self.assertAlmostEqual(0.2, build_model(request).end_value)
        request["ratePlan"]["priceSteps"][1][0] = "2026-01-12T23:59:00Z"
        self.assertAlmostEqual(0.4, build_model(request).end_value)


if __name__ == "__main__":
    unittest.main()
