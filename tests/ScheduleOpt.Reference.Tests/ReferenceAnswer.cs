using System.Text.Json;

namespace ScheduleOpt.Reference.Tests;

/// <summary>What the reference found.</summary>
/// <param name="Error">Why there is no answer; null if there is one.</param>
/// <param name="Intervals">Number of intervals, nothing merged.</param>
/// <param name="TripShortfallKwh">Trip shortfall of each departure. [kWh]</param>
/// <param name="TargetShortfallKwh">Target shortfall of each departure. [kWh]</param>
/// <param name="CostStep2">Cost of the energy without the end value. Not unique: at the median price charging costs what it is worth.</param>
/// <param name="ObjectiveStep2">Cost less the end value; unique.</param>
internal sealed record ReferenceAnswer(
    string? Error,
    int Intervals,
    double[] TripShortfallKwh,
    double[] TargetShortfallKwh,
    double CostStep2,
    double ObjectiveStep2)
{
    public static ReferenceAnswer Read(string json)
    {
        using var document = JsonDocument.Parse(json);
        var root = document.RootElement;
        if (root.TryGetProperty("error", out var error))
        {
            return new(error.GetString() ?? "no reason given", 0, [], [], double.NaN, double.NaN);
        }

        double[] Numbers(string name) => [.. root.GetProperty(name).EnumerateArray().Select(e => e.GetDouble())];
        return new(
            null,
            root.GetProperty("intervals").GetInt32(),
            Numbers("tripShortfallKwh"),
            Numbers("targetShortfallKwh"),
            root.GetProperty("costStep2").GetDouble(),
            root.GetProperty("objectiveStep2").GetDouble());
    }
}
