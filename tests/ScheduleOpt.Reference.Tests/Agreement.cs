using System.Globalization;

namespace ScheduleOpt.Reference.Tests;

/// <summary>Whether the engine and the reference found the same optimum.</summary>
internal static class Agreement
{
    /// <summary>Relative to max(1, |a|).</summary>
    public const double Tolerance = 1e-6;

    /// <summary>What they disagree on, or null.</summary>
    /// <remarks>Compared are only numbers that every optimum shares: the sums and the objective, and in time order each shortfall.</remarks>
    public static string? Difference(EngineAnswer engine, ReferenceAnswer reference, bool inTimeOrder)
    {
        if (reference.Error is not null)
        {
            return $"the reference has no answer: {reference.Error}";
        }

        if (engine.TripShortfallKwh.Length != reference.TripShortfallKwh.Length)
        {
            return $"{engine.TripShortfallKwh.Length} departures, the reference has {reference.TripShortfallKwh.Length}";
        }

        var found = new List<string>();
        Compare("trip shortfall", engine.TripShortfallKwh.Sum(), reference.TripShortfallKwh.Sum());
        Compare("target shortfall", engine.TargetShortfallKwh.Sum(), reference.TargetShortfallKwh.Sum());
        Compare("objective", engine.ObjectiveStep2, reference.ObjectiveStep2);
        for (var k = 0; inTimeOrder && k < engine.TripShortfallKwh.Length; k++)
        {
            Compare($"trip shortfall {k}", engine.TripShortfallKwh[k], reference.TripShortfallKwh[k]);
            Compare($"target shortfall {k}", engine.TargetShortfallKwh[k], reference.TargetShortfallKwh[k]);
        }

        return found.Count == 0 ? null : string.Join("; ", found);

        void Compare(string name, double ours, double theirs)
        {
            if (!(Math.Abs(ours - theirs) <= Tolerance * Math.Max(1, Math.Abs(theirs))))
            {
                found.Add(string.Create(CultureInfo.InvariantCulture, $"{name} {ours:R} against {theirs:R}"));
            }
        }
    }
}
