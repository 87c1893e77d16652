"""Random requests: every answer obeys the model, and every mutant is told from it."""
import os
import subprocess
import sys
import unittest
import json
from pathlib import Path

from charging_reference import answer, answer_line
from interval_model import build_model
from linear_program import ChargingProgram
from mutants import MUTANTS, differs
from random_requests import SCENARIOS, random_requests

FOLDER = Path(__file__).parent
SMALL = 1e-7


class Solutions(unittest.TestCase):
    def test_balance_bounds_and_sums_hold(self):
        for number, request in enumerate(random_requests(11, 3 * len(SCENARIOS))):
            with self.subTest(number=number):
                model = build_model(request)
                self.obeys(model, ChargingProgram(model).solve())

    def obeys(self, model, s):
        for i in range(model.count):
            gain = s.share[i] * model.rate[i] * model.length[i]
            self.assertAlmostEqual(s.energy[i + 1], s.energy[i] + gain - model.drive[i] + s.unserved[i], delta=SMALL)
            self.assertTrue(-SMALL <= s.share[i] <= 1 + SMALL and -SMALL <= s.unserved[i] <= model.drive[i] + SMALL)
            self.assertTrue(model.home[i] or model.wall[i] > 0 or gain == 0)
        for low, energy, high in zip(model.lower, s.energy, model.upper):
            self.assertTrue(low - SMALL <= energy <= high + SMALL)
            self.assertLessEqual(energy, model.household.vehicle.usable + SMALL)
        self.assertAlmostEqual(s.sum_trip, sum(s.trip_shortfall), delta=1e-6)
        self.assertAlmostEqual(s.sum_target, sum(s.target_shortfall), delta=1e-6)

    def test_in_time_order_has_the_least_total_of_trip_shortfall(self):
        # Energy served earlier is never missing later, so the strict order costs nothing in total.
        for request in random_requests(12, 2 * len(SCENARIOS)):
            request["options"]["shortfallOrder"] = "inTimeOrder"
            ordered = answer(request)["sumTrip"]
            request["options"]["shortfallOrder"] = "leastTotal"
            self.assertAlmostEqual(ordered, answer(request)["sumTrip"], delta=1e-6)

    def test_requests_of_a_seed_do_not_depend_on_the_count(self):
        self.assertEqual(list(random_requests(3, 7)), list(random_requests(3, 9))[:7])

    def test_every_mutant_is_caught(self):
        requests = list(random_requests(1, 200))
        true = {}
        for mutant in MUTANTS:
            with self.subTest(mutant=mutant):
                for i, request in enumerate(requests):
                    if i not in true:
                        true[i] = {**answer(request), "inTimeOrder": request["options"]["shortfallOrder"] == "inTimeOrder"}
                    if differs(true[i], answer_line(json.dumps({"request": request, "mutant": mutant}))):
                        break
                else:
                    self.fail("no request tells it from the reference")


class Served(unittest.TestCase):
    def test_a_line_in_is_a_line_out_and_an_error_is_an_answer(self):
        requests = [json.dumps(r) for r in random_requests(5, 2)]
        lines = "\n".join([requests[0], "{}", requests[1]]) + "\n"
        run = subprocess.run([sys.executable, os.fspath(FOLDER / "charging_reference.py"), "--serve"], input=lines,
                             capture_output=True, text=True, check=True)
        answers = [json.loads(line) for line in run.stdout.splitlines()]
        self.assertEqual([False, True, False], ["error" in a for a in answers])
        self.assertEqual(answer(json.loads(requests[1])), answers[2])


if __name__ == "__main__":
    unittest.main()
