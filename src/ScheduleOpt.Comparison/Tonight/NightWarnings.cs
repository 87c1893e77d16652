using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>What the owner must know about an answer.</summary>
internal static class NightWarnings
{
    public static List<string> Of(HouseholdCase question, IReadOnlyList<CarPlan> cars, IReadOnlyList<string> findings)
    {
        var warnings = new List<string>();
        if (findings.Count > 0)
        {
            warnings.Add("The schedule did not pass its own check; this one charges on arrival instead.");
        }

        foreach (var car in cars)
        {
            var own = Of(car);
            warnings.AddRange(cars.Count == 1 ? own : own.Select(w => $"{car.Name}: {w}"));
        }

        warnings.AddRange(question.Cars[0].Case.Prices.Warnings);
        return warnings;
    }

    private static IEnumerable<string> Of(CarPlan car)
    {
        var (question, problem) = (car.Case, car.Problem);
        if (question.Supply is { } supply && supply.ChargingCurrentA(question.Vehicle) <= 0)
        {
            yield return $"The circuit leaves less than the car's minimum current of {question.Vehicle.MinimumCurrentA} A: it can't charge here.";
        }

        if (car.Departures.Any(d => !d.MarginKept && d.TargetShortfallKwh == 0))
        {
            yield return "The finish margin can't be kept before every departure; the energy is there by the departure itself.";
        }

        if (Enumerable.Range(0, problem.Count).Any(i => problem.Place[i] == Place.Home && problem.WallKw[i] > 0 && problem.NetKw[i] <= 0))
        {
            yield return "At times it is so cold that all of the power would go into warming the battery; charging waits for warmer hours.";
        }

        if (car.ColdHours.Any(c => c.Reason == ColdReason.CostsMoreOnceStored))
        {
            yield return "Some cheaper hours are so cold that a stored kWh would cost more than in the dearer, warmer hours used; charging does not wait for them.";
        }
    }
}
