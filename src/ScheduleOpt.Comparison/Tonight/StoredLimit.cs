using NodaTime;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>Whether a correction stores more than may be stored.</summary>
internal static class StoredLimit
{
    // Two sums of the same energies differ by less.
    private const double SameKwh = 1e-6;

    /// <summary>False if more is stored at a boundary than before, and more than may be.</summary>
    /// <remarks>The limits rise towards a departure that asks for more than the ordinary one at the rate without the taper: a window that begins
    /// earlier for the taper may pass them earlier by as much.</remarks>
    /// <param name="problem">The car's problem.</param>
    /// <param name="beforeKwh">Stored energy at each boundary before the correction. [kWh]</param>
    /// <param name="nowKwh">After it. [kWh]</param>
    /// <param name="earlier">The most by which a window begins earlier than planned.</param>
    public static bool Holds(ChargingProblem problem, double[] beforeKwh, double[] nowKwh, Duration earlier)
    {
        const double tolerance = ScheduleCheck.LimitTolerance - SameKwh;
        for (var b = 0; b <= problem.Count; b++)
        {
            if (nowKwh[b] <= problem.UpperKwh[b] + tolerance || nowKwh[b] <= beforeKwh[b])
            {
                continue;
            }

            var until = problem.Boundaries[b] + earlier;
            var i = b;
            while (i < problem.Count && problem.Boundaries[i] < until && problem.Place[i] == Place.Home && nowKwh[b] > problem.UpperKwh[i + 1] + tolerance)
            {
                i++;
            }

            if (i == problem.Count || problem.Boundaries[i] >= until || problem.Place[i] != Place.Home)
            {
                return false;
            }
        }

        return true;
    }
}
