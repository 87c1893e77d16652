using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>What the owner must know about an answer.</summary>
internal static class NightWarnings
{
    public static List<string> Of(
        ChargingCase question,
        ChargingProblem problem,
        IReadOnlyList<DepartureForecast> departures,
        IReadOnlyList<ColdHours> cold,
        IReadOnlyList<string> findings)
    {
        var warnings = new List<string>();
        if (findings.Count > 0)
        {
            warnings.Add("The schedule did not pass its own check; this one charges on arrival instead.");
        }

        if (question.Supply is { } supply && supply.ChargingCurrentA(question.Vehicle) <= 0)
        {
            warnings.Add($"The circuit leaves less than the car's minimum current of {question.Vehicle.MinimumCurrentA} A: it can't charge here.");
        }

        if (departures.Any(d => !d.MarginKept && d.TargetShortfallKwh == 0))
        {
            warnings.Add("The finish margin can't be kept before every departure; the energy is there by the departure itself.");
        }

        if (!question.Temperatures.Covers(question.Start, question.End))
        {
            warnings.Add("The temperature forecast does not cover the whole horizon; its last value is taken to hold on.");
        }

        if (Enumerable.Range(0, problem.Count).Any(i => problem.Place[i] == Place.Home && problem.WallKw[i] > 0 && problem.NetKw[i] <= 0))
        {
            warnings.Add("At times it is so cold that all of the power would go into warming the battery; charging waits for warmer hours.");
        }

        if (cold.Any(c => c.Reason == ColdReason.CostsMoreOnceStored))
        {
            warnings.Add("Some cheaper hours are so cold that a stored kWh would cost more than in the dearer, warmer hours used; charging does not wait for them.");
        }

        warnings.AddRange(question.Prices.Warnings);
        return warnings;
    }
}
