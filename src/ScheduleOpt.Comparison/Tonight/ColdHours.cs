using NodaTime;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>Hours at home in which charging waits for warmer ones, though energy is as cheap or cheaper then.</summary>
/// <param name="Start">When they begin.</param>
/// <param name="End">When they end.</param>
/// <param name="Reason">Why charging waits.</param>
/// <param name="TemperatureC">The coldest of them. [degC]</param>
/// <param name="PricePerKwh">Price at the meter. [currency/kWh]</param>
/// <param name="PricePerStoredKwh">What a stored kWh would cost, price * P / r; none where nothing would be stored. [currency/kWh]</param>
/// <param name="InsteadPricePerKwh">The highest price at the meter of the hours used in the same stay; none where none are. [currency/kWh]</param>
/// <param name="InsteadPricePerStoredKwh">What a stored kWh costs then. [currency/kWh]</param>
public sealed record ColdHours(
    Instant Start,
    Instant End,
    ColdReason Reason,
    double TemperatureC,
    double PricePerKwh,
    double? PricePerStoredKwh,
    double? InsteadPricePerKwh,
    double? InsteadPricePerStoredKwh)
{
    private const double Used = 1e-6;
    private const double SamePrice = 1e-9;

    /// <summary>The hours that wait before the second departure ahead, in order.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="onHours">Time charged in each interval. [h]</param>
    public static IReadOnlyList<ColdHours> Of(ChargingProblem problem, double[] onHours)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(onHours);
        var found = new List<ColdHours>();
        foreach (var stay in Behaviours.HomeStay.Of(problem).Take(2))
        {
            var used = -1;
            for (var i = stay.First; i < stay.End; i++)
            {
                used = onHours[i] > Used && problem.NetKw[i] > 0 && (used < 0 || problem.Price[i] > problem.Price[used]) ? i : used;
            }

            for (var i = stay.First; i < stay.End; i++)
            {
                if (onHours[i] <= Used && problem.WallKw[i] > 0 && Waits(problem, i, used) is { } waits)
                {
                    Add(found, waits);
                }
            }
        }

        return found;
    }

    private static ColdHours? Waits(ChargingProblem problem, int i, int used)
    {
        double? instead = used < 0 ? null : problem.Price[used], insteadStored = used < 0 ? null : PerStored(problem, used);
        var (start, end) = (problem.Boundaries[i], problem.Boundaries[i + 1]);
        if (problem.NetKw[i] <= 0)
        {
            return new(start, end, ColdReason.StoresNothing, problem.TemperatureC[i], problem.Price[i], null, instead, insteadStored);
        }

        var cheaper = used >= 0 && problem.Price[i] < problem.Price[used] - SamePrice && problem.TemperatureC[i] < problem.TemperatureC[used];
        return cheaper && PerStored(problem, i) > PerStored(problem, used) + SamePrice
            ? new(start, end, ColdReason.CostsMoreOnceStored, problem.TemperatureC[i], problem.Price[i], PerStored(problem, i), instead, insteadStored)
            : null;
    }

    private static double PerStored(ChargingProblem problem, int i) => problem.Price[i] * problem.WallKw[i] / problem.NetKw[i];

    private static void Add(List<ColdHours> found, ColdHours next)
    {
        if (found.Count > 0 && found[^1] is var last && last.End == next.Start && last.Reason == next.Reason && last.PricePerKwh == next.PricePerKwh)
        {
            var coldest = next.TemperatureC < last.TemperatureC ? next : last;
            found[^1] = coldest with { Start = last.Start, End = next.End };
        }
        else
        {
            found.Add(next);
        }
    }
}

/// <summary>Why charging waits in cold hours.</summary>
public enum ColdReason
{
    /// <summary>All of the power would go into warming the battery and the car's own electronics.</summary>
    StoresNothing,

    /// <summary>Energy is cheaper at the meter than in the hours used, but so little of it would be stored that a stored kWh costs more.</summary>
    CostsMoreOnceStored,
}
