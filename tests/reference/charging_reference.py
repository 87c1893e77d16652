#!/usr/bin/env python3
"""The reference optimum of one charging request: steps 1a, 1b and 2, worked out from the request alone.

    charging_reference.py REQUEST.json [--mutant NAME]      one answer on standard output
    charging_reference.py --serve [--mutant NAME]           one request a line in, one answer a line out

With --serve a line may also be {"request": {...}, "mutant": "NAME"}. Errors are answered as {"error": "..."}.
"""
import argparse
import json
import sys

from house_model import build_house_model
from house_program import HouseProgram
from house_request import is_house_request
from interval_model import build_model
from linear_program import ChargingProgram
from mutants import HOUSE_MUTANTS, MUTANTS


def answer(request, mutant=""):
    if mutant and mutant not in MUTANTS and mutant not in HOUSE_MUTANTS:
        raise ValueError(f"unknown mutant {mutant}")
    if is_house_request(request):
        return house_answer(request, mutant)
    model = build_model(request, mutant)
    solution = ChargingProgram(model, mutant).solve()
    return {
        "intervals": model.count,
        "tripShortfallKwh": solution.trip_shortfall,
        "targetShortfallKwh": solution.target_shortfall,
        "sumTrip": solution.sum_trip,
        "sumTarget": solution.sum_target,
        "costStep2": solution.cost,
        "objectiveStep2": solution.objective,
        "endValuePerKwh": model.end_value,
    }


def house_answer(request, mutant=""):
    """The answer for a house: shortfalls car by car, in the order of the request."""
    model = build_house_model(request, mutant)
    solution = HouseProgram(model, mutant).solve()
    return {
        "intervals": model.count,
        "tripShortfallKwh": [k for car in solution.cars for k in car.trip_shortfall],
        "targetShortfallKwh": [k for car in solution.cars for k in car.target_shortfall],
        "sumTrip": solution.sum_trip,
        "sumTarget": solution.sum_target,
        "costStep2": solution.cost,
        "objectiveStep2": solution.objective,
        "endValuePerKwh": [car.model.end_value for car in model.cars],
    }


def answer_line(line, mutant=""):
    try:
        document = json.loads(line)
        if "request" in document:
            mutant, document = document.get("mutant", mutant), document["request"]
        return answer(document, mutant)
    except Exception as problem:                            # a served line is always answered
        return {"error": f"{type(problem).__name__}: {problem}"}


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("request", nargs="?")
    parser.add_argument("--serve", action="store_true")
    parser.add_argument("--mutant", default="", choices=["", *MUTANTS, *HOUSE_MUTANTS])
    options = parser.parse_args()
    if options.serve:
        for line in sys.stdin:
            if line.strip():
                print(json.dumps(answer_line(line, options.mutant)), flush=True)
        return 0
    with (open(options.request, encoding="utf-8") if options.request else sys.stdin) as source:
        result = answer_line(source.read(), options.mutant)
    print(json.dumps(result, indent=1))
    return 1 if "error" in result else 0


if __name__ == "__main__":
    sys.exit(main())
