#!/usr/bin/env python3
"""The reference optimum of one charging request: steps 1a, 1b and 2, worked out from the request alone.

    charging_reference.py REQUEST.json [--mutant NAME]      one answer on standard output
    charging_reference.py --serve [--mutant NAME]           one request a line in, one answer a line out

With --serve a line may also be {"request": {...}, "mutant": "NAME"}. Errors are answered as {"error": "..."}.
"""
import argparse
import json
import sys

from interval_model import build_model
from linear_program import ChargingProgram
from mutants import MUTANTS


def answer(request, mutant=""):
    if mutant and mutant not in MUTANTS:
        raise ValueError(f"unknown mutant {mutant}")
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
    parser.add_argument("--mutant", default="", choices=["", *MUTANTS])
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
