"""The timing peer solves what it says it solves."""
import json
import tempfile
import unittest
from pathlib import Path

from lp_peer import make, reply, solve


class Peer(unittest.TestCase):
    def test_year_of_flat_periods_has_the_known_objective(self):
        # 598.4941363636516: an independent program for the same instance (energy form, efficiency 0.88), HiGHS 1.2 dual simplex.
        result = solve(make("year", True, "one"))
        self.assertEqual(35040, result["intervals"])
        self.assertAlmostEqual(598.4941363636516, result["objective"], delta=1e-6)

    def test_night_has_the_known_objective(self):
        self.assertAlmostEqual(5.63601067954545, solve(make("night", False, "one"))["objective"], delta=1e-9)

    def test_cold_year_costs_more_than_it_would_without_heating(self):
        instance = make("year", True, "hourly")
        cold = solve(instance)["objective"]
        instance["rateKw"][:] = 0.93 * 7.2 - 0.22
        self.assertGreater(cold, solve(instance)["objective"] + 1)

    def test_dump_is_the_instance(self):
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "week.json"
            _, instance = reply('{"make":"week","flatPeriods":true,"temperatures":"hourly"}', None)
            reply(json.dumps({"dump": str(path)}), instance)
            written = json.loads(path.read_text(encoding="utf-8"))
        self.assertEqual(instance["rateKw"].tolist(), written["rateKw"])
        self.assertEqual(672, len(written["price"]))

    def test_loaded_instance_is_solved_as_the_one_that_was_written(self):
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "week.json"
            _, instance = reply('{"make":"week","flatPeriods":true,"temperatures":"hourly"}', None)
            reply(json.dumps({"dump": str(path)}), instance)
            written = json.loads(path.read_text(encoding="utf-8"))
            n = len(written["price"])
            for key in ("hours", "wallKw", "lowestKwh", "highestKwh"):      # figures for all become arrays
                written[key] = [written[key]] * n
            path.write_text(json.dumps(written), encoding="utf-8")
            _, loaded = reply(json.dumps({"load": str(path)}), None)
            written["finalKwh"] = 50.0
            path.write_text(json.dumps(written), encoding="utf-8")
            _, fuller = reply(json.dumps({"load": str(path)}), None)
        self.assertAlmostEqual(solve(instance)["objective"], solve(loaded)["objective"], delta=1e-9)
        self.assertGreater(solve(fuller)["cost"], solve(loaded)["cost"] + 0.01)


if __name__ == "__main__":
    unittest.main()
