#!/usr/bin/env python3
"""Deliberate mistakes in the reference: each must be told from the true answer by some random request.

    mutants.py [--seed S] [--count N] [--houses]      counts, for each mutant, the requests whose answer changes
"""
import argparse
import sys
import time

MUTANTS = {
    "overheadDropped": "the charging overhead is left out",
    "heatingDropped": "the battery is never heated",
    "continuousRatingIgnored": "the breaker's full current is used",
    "departureOneIntervalEarly": "the last interval before a departure is lost",
    "gapDepartureShifted": "a departure in the gap of a clock change is due after the gap's length",
    "ambiguousDepartureSecond": "an ambiguous departure is the second occurrence",
    "ambiguousReturnFirst": "an ambiguous return is the first occurrence",
    "tripShortfallUnlimited": "more can be unserved than is driven",
    "tripShortfallIgnored": "step 1a is skipped",
    "targetShortfallIgnored": "step 1b is skipped",
    "targetIgnored": "a wished target is not asked for",
    "shortfallOrderIgnored": "shortfalls are always the least total",
    "confidenceDropped": "a trip is planned at its mean energy",
    "returnTemperatureIgnored": "the way back is driven at the temperature of the way out",
    "endValueDropped": "stored energy is worth nothing at the end",
    "secondDepartureIgnored": "the horizon is not prolonged to the second departure",
    "minimumIgnored": "there is no minimum state of charge",
    "ordinaryLimitIgnored": "the extended limit always holds",
    "marginDropped": "the extended limit opens without a margin",
    "coldMarginIgnored": "the margin is half an hour in the cold, too",
    "carryDropped": "what is left above the ordinary limit after a trip is not allowed for",
    "stopChargingIgnored": "no stop charges",
    "stopShareIgnored": "a stop that charges on some days charges tonight",
    "temperatureAtIntervalEnd": "an interval has the temperature of its end",
    "priceOneIntervalLate": "an interval has the price of the one before",
    "lossesEarnNegativePrice": "energy is burned to earn a negative price",
}

HOUSE_MUTANTS = {
    "demandWindowShifted": "the hours of a demand charge begin an hour late",
    "averagingLengthWrong": "power is averaged over another length",
    "clockChangeInDemandIgnored": "the hours of a demand charge keep the clock of the plug-in",
    "demandOfCarAlone": "the average of the cars alone counts",
    "expectedPeakIgnored": "the highest average that is expected of the house does not count",
    "demandSoFarIgnored": "the demand metered so far in the billing period does not count",
    "ratchetIgnored": "the demand of earlier months sets no floor",
    "exportAtImportPrice": "exported energy is worth the import price",
    "exportCreditDropped": "exported energy is worth nothing",
    "solarDropped": "there is no solar roof",
    "houseLoadDropped": "the house takes nothing beside its cars",
    "blockUseSoFarIgnored": "blocks are filled by what is expected alone",
    "blocksIgnored": "all use is at the price of the block reached",
    "minimumBillIgnored": "there is no minimum bill",
    "carbonDropped": "emissions have no price",
    "importLimitIgnored": "the house may import without limit",
    "circuitLimitPerCar": "each car alone may take the current of the shared circuit",
    "secondCarDriveDropped": "the second car's trips take no energy",
    "carsOneAfterTheOther": "all shortfalls of the first car are spared before those of the second",
    "overheadDroppedWhenAdjustable": "a current that can be set has no overhead and no heating",
}


def differs(true, other):
    """Whether two answers disagree by more than 1e-6 max(1, |a|) in a number that is unique.

    The cost without the end value is not: charging at the median price costs what it is worth. Nor are single shortfalls
    where the least total is asked for; their sums are.
    """
    if "error" in other:
        return True
    pairs = [(true[k], other[k]) for k in ("sumTrip", "sumTarget", "objectiveStep2")]
    if true.get("inTimeOrder", True):
        for k in ("tripShortfallKwh", "targetShortfallKwh"):
            if len(true[k]) != len(other[k]):
                return True
            pairs += zip(true[k], other[k])
    return any(abs(a - b) > 1e-6 * max(1.0, abs(a)) for a, b in pairs)


def main():
    from charging_reference import answer
    from random_houses import random_houses
    from random_requests import random_requests
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--houses", action="store_true", help="requests for whole houses and the mutants of what couples charges")
    parser.add_argument("--only", choices=[*MUTANTS, *HOUSE_MUTANTS])
    options = parser.parse_args()
    names = HOUSE_MUTANTS if options.houses else MUTANTS
    requests = list((random_houses if options.houses else random_requests)(options.seed, options.count))

    def answers(mutant):
        for request in requests:
            try:
                result = answer(request, mutant)
            except Exception as problem:
                result = {"error": str(problem)}
            result["inTimeOrder"] = request.get("options", {}).get("shortfallOrder", "inTimeOrder") == "inTimeOrder"
            yield result

    begun = time.perf_counter()
    true = list(answers(""))
    print(f"{len(true)} requests, {sum('error' in t for t in true)} errors, {time.perf_counter() - begun:.1f} s")
    missed = 0
    for mutant in [options.only] if options.only else names:
        other = list(answers(mutant))
        caught = sum(differs(a, b) for a, b in zip(true, other) if "error" not in a)
        failed = sum("error" in b for b in other)
        missed += caught == 0
        print(f"{mutant:30s} {caught:4d} differ ({failed} without an answer)   {({**MUTANTS, **HOUSE_MUTANTS})[mutant]}", flush=True)
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
