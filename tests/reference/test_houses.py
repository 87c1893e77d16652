"""Houses of two or three intervals, solved by hand in the comments: from the request to the optimum."""
import json
import unittest

from charging_reference import answer, answer_line
from house_model import build_house_model
from house_program import HouseProgram
from mutants import HOUSE_MUTANTS, differs
from random_houses import KINDS, random_houses
from test_definitions import household, trip

SMALL = 1e-7
FREE = {"customerCharges": [], "rounding": {"each": "line", "mode": "halfUp"}, "proration": {"month": "daysInMonth"}}


def flat(price=0.2, **parts):
    return {"name": "Test", "currency": "USD", "timeZone": "UTC", "effective": {"from": "2025-01-01"}, **FREE,
            "energyCharges": [{"name": "Energy", "pricePerKwh": price}], **parts}


def demand(price, minutes=60, **more):
    return {"name": "Demand", "pricePerKw": price, "averagingMinutes": minutes, **more}


def house(kwh, plan, by="12T02:00", load=None, **more):
    """A car at 6 kWh of 60, its minimum, that must have `kwh` more at the departure; hours of up to 6 kW, no losses. Without an end value."""
    request = household([trip(by, "14T12:00", 0.0001, targetStateOfCharge=0.1 + kwh / 60)], soc=0.1, **more)
    request["ratePlan"] = plan
    if load is not None:
        request["houseLoad"] = {"hourlyKwh": load + [0.0] * (8760 - len(load))}
    return request


def solved(request, mutant=""):
    model = build_house_model(request, mutant)
    for car in model.cars:
        car.model.end_value = 0.0
    return HouseProgram(model, mutant).solve()


def load_of(*kw):
    """The house's load on 12 January 2026 from midnight, nothing else."""
    return [0.0] * (11 * 24) + list(kw)


class Demand(unittest.TestCase):
    def test_two_hours_share_the_need_so_that_the_peak_is_least(self):
        # 6 kWh in two hours: 3 kW in each. 6 * 0.2 + 3 * 5 = 16.20.
        s = solved(house(6, flat(demandCharges=[demand(5)])))
        self.assertAlmostEqual(16.20, s.cost, 6)
        self.assertAlmostEqual(3.0, s.imported[0], 6)

    def test_below_the_peak_of_the_house_is_free(self):
        # The house takes 4 and 1 kW: 3 kWh fit into the second hour, the other 3 raise both: (4 + 1 + 6) / 2 = 5.5, so 1.5 above 4. 1.2 + 1.5 * 5 = 8.70.
        s = solved(house(6, flat(demandCharges=[demand(5)]), load=load_of(4, 1)))
        self.assertAlmostEqual(8.70, s.cost, 6)

    def test_expected_peak_after_the_horizon_counts_for_the_billing_period(self):
        # 5.5 kW on 25 January: nothing that this night does is a new peak. 1.20.
        load = load_of(4, 1) + [0.0] * (13 * 24) + [5.5]
        self.assertAlmostEqual(1.20, solved(house(6, flat(demandCharges=[demand(5)]), load=load)).cost, 6)
        self.assertAlmostEqual(8.70, solved(house(6, flat(demandCharges=[demand(5)]), load=load), "expectedPeakIgnored").cost, 6)

    def test_hours_outside_of_the_window_are_free_of_it(self):
        # 6 kW from 01:00, outside of 00:00 to 01:00: no demand. Above that 3 kWh more: 3 kW in the window. 9 * 0.2 + 3 * 5 = 16.80.
        plan = flat(calendars=[{"name": "d", "periods": ["in", "out"], "defaultPeriod": "out", "windows": [{"period": "in", "from": "00:00", "to": "01:00"}]}],
                    demandCharges=[demand(5, calendar="d", periods=["in"])])
        self.assertAlmostEqual(1.20, solved(house(6, plan)).cost, 6)
        self.assertAlmostEqual(16.80, solved(house(9, plan)).cost, 6)

    def test_quarter_hours_of_one_hour(self):
        # Due at 00:45, 3 kWh: 4 kW in each of three quarters, but 3 kW over the hour. 0.6 + 4 * 5; 0.6 + 3 * 5.
        self.assertAlmostEqual(20.60, solved(house(3, flat(demandCharges=[demand(5, 15)]), by="12T00:45")).cost, 6)
        self.assertAlmostEqual(15.60, solved(house(3, flat(demandCharges=[demand(5)]), by="12T00:45")).cost, 6)

    def test_departure_in_the_averaging_hour_the_rest_of_it_counts_with_nothing(self):
        # Half an hour for 3 kWh: 6 kW on average over it, 3 kW over the hour. 0.6 + 3 * 5.
        self.assertAlmostEqual(15.60, solved(house(3, flat(demandCharges=[demand(5)]), by="12T00:30")).cost, 6)

    def test_average_of_the_house_alone_is_no_new_peak(self):
        # Hours from 00:30 on, in halves: the house's 5 kW until 01:00 are a peak that the expected hours from 01:00 on (1 kW) don't show.
        # 2 kWh before 00:30 cost 0.40; of 5 kWh, 2 lie in the second half: 4 kW above 5. 1.0 + 4 * 5 = 21.
        plan = flat(calendars=[{"name": "d", "periods": ["in", "out"], "defaultPeriod": "out", "windows": [{"period": "in", "from": "00:30", "to": "02:30"}]}],
                    demandCharges=[demand(5, 30, calendar="d", periods=["in"])])
        self.assertAlmostEqual(0.40, solved(house(2, plan, by="12T01:00", load=load_of(5, 1, 1))).cost, 6)
        self.assertAlmostEqual(21.0, solved(house(5, plan, by="12T01:00", load=load_of(5, 1, 1))).cost, 6)

    def test_minimum_and_ratchet_are_a_floor(self):
        # Floor 2 kW: of 3 kW one is new. 1.2 + 5. Ratchet of 50 % of 5 kW in November: 0.5 new. 1.2 + 2.5. The December before last: too old.
        self.assertAlmostEqual(6.20, solved(house(6, flat(demandCharges=[demand(5, minimumKw=2)]))).cost, 6)
        so_far = house(6, flat(demandCharges=[demand(5)]), options={"demandSoFarKw": {"Demand": 2}})
        self.assertAlmostEqual(6.20, solved(so_far).cost, 6)
        self.assertAlmostEqual(16.20, solved(so_far, "demandSoFarIgnored").cost, 6)
        request = house(6, flat(demandCharges=[demand(5, ratchet={"percent": 50, "months": 11})]))
        request["carriedState"] = {"peaks": [{"charge": "Demand", "month": "2025-11", "kw": 5}, {"charge": "Demand", "month": "2024-12", "kw": 50}]}
        self.assertAlmostEqual(3.70, solved(request).cost, 6)

    def test_rising_and_falling_blocks_of_kw(self):
        # 6 kWh: peaks 3 and 3: 2 * 1 + 1 * 4 = 6 (rising); falling 2 * 4 + 1 * 1 = 9. Energy 1.2.
        blocks = lambda a, b: {"name": "Demand", "averagingMinutes": 60, "blocks": [{"upToKw": 2, "pricePerKw": a}, {"pricePerKw": b}]}
        self.assertAlmostEqual(7.20, solved(house(6, flat(demandCharges=[blocks(1, 4)]))).cost, 6)
        self.assertAlmostEqual(10.20, solved(house(6, flat(demandCharges=[blocks(4, 1)]))).cost, 6)

    def test_percentages_on_demand_and_price_per_day(self):
        # 3 kW * 0.1 * 31 days * 1.1 = 10.23, energy without tax 1.2.
        tax = [{"name": "Tax", "percent": 10, "on": {"parts": ["demandCharge"]}}]
        self.assertAlmostEqual(11.43, solved(house(6, flat(demandCharges=[demand(0.1, per="day")], taxes=tax))).cost, 6)


class Solar(unittest.TestCase):
    def sun(self, *kw):
        return {"start": "2026-01-12T00:00:00Z", "intervalMinutes": 60, "powerKw": list(kw)}

    def test_surplus_costs_the_credit_that_it_would_earn(self):
        # 6 kWh: 4 kW of sun in the first hour at 0.05, the rest at 0.2: 0.2 + 2 * 0.2 = 0.60; the house of 1 kW takes a kWh of it: 3 * 0.05 + 3 * 0.2 = 0.75.
        plan = flat(export={"kind": "netBilling", "prices": [{"name": "Export", "pricePerKwh": 0.05}]})
        self.assertAlmostEqual(0.60, solved(house(6, plan, solar=self.sun(4))).cost, 6)
        self.assertAlmostEqual(0.75, solved(house(6, plan, solar=self.sun(4), load=load_of(1))).cost, 6)
        self.assertAlmostEqual(0.40, solved(house(6, flat(), solar=self.sun(4))).cost, 6)     # without an export rule it earns nothing

    def test_export_above_import_the_sun_is_sold_and_never_through_the_meter_twice(self):
        # Worth 0.5, import 0.2: charging in the dark hour costs 1.2; with 9 kWh half of the sunny hour is needed: 3 * 0.5 + 1.2 = 2.70.
        # Buying at 0.2 while selling at 0.5 would make it 0.6 + 1.2.
        plan = flat(export={"kind": "netBilling", "prices": [{"name": "Export", "pricePerKwh": 0.5}]})
        self.assertAlmostEqual(1.20, solved(house(6, plan, solar=self.sun(4))).cost, 6)
        self.assertAlmostEqual(2.70, solved(house(9, plan, solar=self.sun(4))).cost, 6)

    def test_demand_is_that_of_the_meter(self):
        # 4 kW of sun in the first hour: 6 kWh need 2 kWh from the network, 1 kW in each hour: 5 + 1 in the first, 1 in the second.
        self.assertAlmostEqual(0.4 + 5, solved(house(6, flat(demandCharges=[demand(5)]), solar=self.sun(4))).cost, 6)


class Blocks(unittest.TestCase):
    def plan(self, *blocks, **more):
        priced = [{"upToKwh": limit, "pricePerKwh": p} if limit else {"pricePerKwh": p} for limit, p in blocks]
        return flat(energyCharges=[{"name": "Energy", "limitPer": "billingPeriod", "blocks": priced, **more}])

    def test_use_over_the_edge_is_dearer(self):
        # 98 kWh used, 100 at 0.1, then 0.3: 2 * 0.1 + 4 * 0.3 = 1.40.
        request = house(6, self.plan((100, 0.1), (None, 0.3)), options={"usedSoFarKwh": 98})
        self.assertAlmostEqual(1.40, solved(request).cost, 6)
        self.assertAlmostEqual(0.60, solved(request, "blockUseSoFarIgnored").cost, 6)

    def test_expected_use_until_the_month_ends_fills_the_block_first(self):
        # 98 kWh on 30 January stand before the car's, as on the bill's total.
        load = load_of() + [0.0] * (18 * 24) + [49.0, 49.0]
        self.assertAlmostEqual(1.40, solved(house(6, self.plan((100, 0.1), (None, 0.3)), load=load)).cost, 6)

    def test_falling_blocks_the_cheaper_one_is_only_behind_the_dearer(self):
        # 98 used: 2 * 0.3 + 4 * 0.1 = 1.00.
        request = house(6, self.plan((100, 0.3), (None, 0.1)), options={"usedSoFarKwh": 98})
        self.assertAlmostEqual(1.00, solved(request).cost, 6)

    def test_whole_use_at_the_price_of_the_block_it_ends_in(self):
        # 98 at 0.3 = 29.4; 104 at 0.1 = 10.4: 19.0 less. Staying below 100: 95 + 3 at 0.3: 0.9.
        falling = self.plan((100, 0.3), (None, 0.1), wholeUse=True)
        self.assertAlmostEqual(-19.0, solved(house(6, falling, options={"usedSoFarKwh": 98})).cost, 6)
        self.assertAlmostEqual(0.9, solved(house(3, falling, by="12T00:30", options={"usedSoFarKwh": 95})).cost, 6)

    def test_blocks_of_one_period_are_shifted_from_when_they_are_full(self):
        # Night 00:00 to 01:00: 3 kWh at 0.1, then 0.4; else 0.2. 6 kWh: 3 by night, 3 after: 0.90.
        plan = flat(periods=["night", "day"], defaultPeriod="day", windows=[{"period": "night", "from": "00:00", "to": "01:00"}], energyCharges=[
            {"name": "Night", "periods": ["night"], "limitPer": "billingPeriod", "blocks": [{"upToKwh": 3, "pricePerKwh": 0.1}, {"pricePerKwh": 0.4}]},
            {"name": "Day", "periods": ["day"], "pricePerKwh": 0.2}])
        self.assertAlmostEqual(0.90, solved(house(6, plan)).cost, 6)

    def test_months_are_blocks_of_their_own(self):
        # 31 January, 23:00 to 01:00: 2 kWh of 0.1 are left in January, 100 in February: 0.1 everywhere.
        request = house(6, self.plan((100, 0.1), (None, 0.3)), options={"usedSoFarKwh": 98})
        request["asOf"] = "2026-01-31T23:00:00Z"
        request["calendar"]["trips"] = [trip("x", "y", 0.0001, targetStateOfCharge=0.2)]
        request["calendar"]["trips"][0].update({"departure": "2026-02-01T01:00", "return": "2026-02-03T12:00"})
        self.assertAlmostEqual(0.60, solved(request).cost, 6)

    def test_minimum_bill_makes_use_free_until_it_is_reached(self):
        # Minimum 1: 6 kWh at 0.2 = 1.2: only 0.2 more than the minimum. With 2 kWh of the house (0.4) already counted: 1.6 - 1 = 0.60.
        parts = ["customerCharge", "energyCharge", "demandCharge", "adjustment", "credit", "exportCredit"]
        plan = flat(minimumBill={"amount": 1, "per": "billingPeriod", "counts": parts})
        self.assertAlmostEqual(0.20, solved(house(6, plan)).cost, 6)
        self.assertAlmostEqual(0.60, solved(house(6, plan, load=load_of(1, 1))).cost, 6)

    def test_use_so_far_counts_towards_a_minimum_bill(self):
        # Minimum 2, 8 kWh used before: 1.6 of it are there, 0.4 missing; 6 kWh at 0.2 = 1.2: 0.8 more.
        parts = ["customerCharge", "energyCharge", "demandCharge", "adjustment", "credit", "exportCredit"]
        plan = flat(minimumBill={"amount": 2, "per": "billingPeriod", "counts": parts})
        self.assertAlmostEqual(0.80, solved(house(6, plan, options={"usedSoFarKwh": 8})).cost, 6)

    def test_amount_of_a_band_is_avoided_or_reached(self):
        # 98 used; over 100 a charge of 5: 6 kWh are needed: 1.2 + 5. A credit of 5 from 100 on: 1.2 - 5.
        charge = flat(customerCharges=[{"name": "Large", "amount": 5, "per": "month", "useBand": {"overKwh": 100}}])
        credit = flat(credits=[{"name": "Steady", "amount": 5, "per": "month", "useBand": {"overKwh": 100, "upToKwh": 200}}])
        self.assertAlmostEqual(6.20, solved(house(6, charge, options={"usedSoFarKwh": 98})).cost, 6)
        self.assertAlmostEqual(-3.80, solved(house(6, credit, options={"usedSoFarKwh": 98})).cost, 6)


class Limits(unittest.TestCase):
    def test_import_limit_leaves_the_car_what_the_house_does_not_take(self):
        # Limit 6, house 4 and 7 kW: 2 kWh in the first hour, none in the second (the house alone passes the limit): 4 of 6 missing.
        request = house(6, flat(), load=load_of(4, 7), importLimitKw=6, options={"running": {"adjustable": True}})
        s = solved(request)
        self.assertAlmostEqual(4.0, s.sum_target, 6)
        self.assertAlmostEqual(0.4, s.cost, 6)
        # 1 kW is less than 6 A at 240 V, and a current that can't be set is 25 A: neither ever charges.
        self.assertAlmostEqual(6.0, solved({**request, "importLimitKw": 5}).sum_target, 6)
        self.assertAlmostEqual(6.0, solved(house(6, flat(), load=load_of(4, 7), importLimitKw=6)).sum_target, 6)

    def two(self, first_kwh, second_kwh, first_by="12T01:00", second_by="12T01:00", **more):
        request = house(first_kwh, flat(), **more)
        first = {k: request.pop(k) for k in ("vehicle", "supply", "plugIn", "calendar")}
        cars = []
        for name, kwh, by in (("a", first_kwh, first_by), ("b", second_kwh, second_by)):
            cars.append({**first, "name": name, "calendar": {"trips": [trip(by, "14T12:00", 0.0001, targetStateOfCharge=0.1 + kwh / 60)]}})
        return {**request, "cars": cars}

    def test_shared_circuit_serves_the_earlier_departure_first_and_at_a_tie_the_first_car(self):
        # 25 A at 240 V are 6 kW: 6 kWh in the hour for two wishes of 4: the first car has 4, the second 2.
        circuit = {"sharedCircuit": {"currentA": 25}}
        s = solved(self.two(4, 4, **circuit))
        self.assertEqual([0.0, 2.0], [round(c.target_shortfall[0], 6) for c in s.cars])
        # The second car leaves first: it is served, and the first has 12 - 4 = 8 in two hours.
        s = solved(self.two(10, 4, first_by="12T02:00", **circuit))
        self.assertEqual([2.0, 0.0], [round(c.target_shortfall[0], 6) for c in s.cars])
        self.assertEqual([0.0, 2.0], [round(c.target_shortfall[0], 6) for c in solved(self.two(10, 4, first_by="12T02:00", **circuit), "carsOneAfterTheOther").cars])

    def test_breaker_of_a_shared_circuit_is_loaded_to_80_percent(self):
        # 25 A breaker: 20 A, 4.8 kW.
        s = solved(self.two(4, 4, sharedCircuit={"breakerA": 25}))
        self.assertAlmostEqual(3.2, s.cars[1].target_shortfall[0], 6)

    def test_a_phase_of_a_three_phase_car_carries_a_third(self):
        # 3 * 230 V: 6 kW are 8.7 A; 10 A less that leaves 1.304 A at 240 V: 0.313 kW.
        request = self.two(6, 4, sharedCircuit={"currentA": 10})
        request["cars"][0]["supply"] = {"voltageV": 400, "phases": 3, "breakerA": 40, "connection": "hardwired"}
        s = solved(request)
        self.assertAlmostEqual(4 - 0.24 * (10 - 6000 / 690), s.cars[1].target_shortfall[0], 6)

    def test_later_car_does_not_charge_before_it_is_there(self):
        request = self.two(4, 4, second_by="12T02:00", sharedCircuit={"currentA": 25})
        request["cars"][1] = {**request["cars"][1], "plugIn": {"stateOfCharge": 0.1, "at": "2026-01-12T01:30:00Z"}}
        s = solved(request)
        self.assertEqual([0.0, 1.0], [round(c.target_shortfall[0], 6) for c in s.cars])


class OtherCosts(unittest.TestCase):
    LOSSY = {"conversionEfficiency": 0.8, "overheadKw": 1.0, "heatingKwPerKelvin": 0.0}

    def test_adjustable_current_has_its_overhead(self):
        # 3.8 kW into the battery at 6 kW of wall: 3.8 kWh are an hour and 6 kWh at the meter: 1.20. Without the overhead 3.8 / 0.8 kWh.
        request = house(3.8, flat(), constants=self.LOSSY, options={"running": {"adjustable": True}})
        self.assertAlmostEqual(1.20, solved(request).cost, 6)
        self.assertAlmostEqual(3.8 / 0.8 * 0.2, solved(request, "overheadDroppedWhenAdjustable").cost, 6)

    def test_negative_price_money_is_what_is_metered_the_objective_what_is_stored(self):
        # 3.8 kWh at -0.1: the bill falls by 0.60, the objective by 3.8 / 0.8 * 0.1 = 0.475.
        s = solved(house(3.8, flat(-0.1), by="12T01:00", constants=self.LOSSY, options={"running": {"adjustable": True}}))
        self.assertAlmostEqual(-0.60, s.cost, 6)
        self.assertAlmostEqual(-0.475, s.objective, 6)

    def test_carbon_price_moves_charging_and_counts_imports_only(self):
        # 100 per tonne: 900 g are 0.09, 100 g 0.01 per kWh: the clean hour, 1.2 + 0.06.
        request = house(6, flat(), carbon={"pricePerTonne": "100", "gramsPerKwh": {"start": "2026-01-12T00:00:00Z", "intervalMinutes": 60, "gramsPerKwh": [900, 100]}})
        self.assertAlmostEqual(1.26, solved(request).cost, 6)


class RandomHouses(unittest.TestCase):
    def test_answers_obey_the_model(self):
        for number, request in enumerate(random_houses(11, len(KINDS))):
            with self.subTest(number=number, kind=KINDS[number]):
                model = build_house_model(request)
                self.obeys(model, HouseProgram(model).solve())

    def obeys(self, m, s):
        for i in range(m.count):
            drawn = sum(c.power[i] for c, car in zip(s.cars, m.cars) if car.model.home[i])
            self.assertAlmostEqual(m.net[i] + drawn, s.imported[i] - s.exported[i], delta=SMALL)
            self.assertLess(min(s.imported[i], s.exported[i]), SMALL)
            if m.house.import_limit is not None:
                self.assertLessEqual(s.imported[i], max(m.house.import_limit, m.net[i]) + SMALL)
            if m.house.circuit is not None:
                self.assertLessEqual(sum(c.power[i] * 1000 / car.volts for c, car in zip(s.cars, m.cars) if car.model.home[i]), m.house.circuit + 1e-4)
            for c, car in zip(s.cars, m.cars):
                eta = car.model.household.vehicle.eta
                gain = (eta * c.power[i] - car.loss[i] * c.share[i]) * m.length[i]
                self.assertAlmostEqual(c.energy[i + 1], c.energy[i] + gain - car.model.drive[i] + c.unserved[i], delta=SMALL)
                self.assertTrue(car.least[i] * c.share[i] - SMALL <= c.power[i] <= car.most[i] * c.share[i] + SMALL)
                self.assertTrue(car.model.lower[i + 1] - SMALL <= c.energy[i + 1] <= car.model.upper[i + 1] + SMALL)

    def test_nothing_that_couples_is_the_answer_of_one_car_alone(self):
        from random_requests import SCENARIOS, random_requests
        from charging_reference import house_answer
        for request in random_requests(13, len(SCENARIOS)):
            alone, together = answer(request), house_answer(request)
            for key in ("sumTrip", "sumTarget", "objectiveStep2"):
                self.assertAlmostEqual(alone[key], together[key], delta=1e-6 * max(1, abs(alone[key])))

    def test_every_mutant_is_caught(self):
        true = {}
        requests = list(random_houses(1, 5 * len(KINDS)))
        for mutant in HOUSE_MUTANTS:
            with self.subTest(mutant=mutant):
                for i, request in enumerate(requests):
                    if i not in true:
                        true[i] = {**answer(request), "inTimeOrder": request["options"]["shortfallOrder"] == "inTimeOrder"}
                    if differs(true[i], answer_line(json.dumps({"request": request, "mutant": mutant}))):
                        break
                else:
                    self.fail("no house tells it from the reference")

    def test_requests_of_a_seed_do_not_depend_on_the_count(self):
        self.assertEqual(list(random_houses(3, 4)), list(random_houses(3, 6))[:4])


if __name__ == "__main__":
    unittest.main()
