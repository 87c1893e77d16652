using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>The range of what a car takes at home in one billing period: it can't store much more or less than it drives.</summary>
internal sealed class AddedUse
{
    private readonly CoupledProblem problem;
    private readonly int first;
    private readonly int end;
    private readonly double leastKwh;
    private readonly double roomKwh;
    private readonly double mostStoredKwh;

    /// <param name="problem">The year.</param>
    /// <param name="period">Index of the billing period.</param>
    /// <param name="tripShortfallKwh">Trip shortfall of each departure in any schedule that is as ready as can be. [kWh]</param>
    public AddedUse(CoupledProblem problem, int period, double[] tripShortfallKwh)
    {
        this.problem = problem;
        var (year, periodOf) = (problem.Problem, problem.Charges.PeriodOf);
        first = Array.FindIndex(problem.MeterOf, m => periodOf[m] == period);
        end = first < 0 ? 0 : Array.FindLastIndex(problem.MeterOf, m => periodOf[m] == period) + 1;
        first = Math.Max(0, first);
        var (drive, stops, lowest) = (0.0, 0.0, double.PositiveInfinity);
        for (var i = first; i < end; i++)
        {
            drive += year.DriveKwh[i];
            stops += year.Place[i] == Place.Stop ? Math.Max(0, year.NetKw[i]) * year.Hours[i] : 0;
            if (CanCharge(i))
            {
                lowest = Math.Min(lowest, year.WallKw[i] / year.NetKw[i]);
                roomKwh += year.WallKw[i] * year.Hours[i];
            }
        }

        var bought = year.Departures.Select((d, k) => d.Boundary < end && d.ReturnBoundary > first ? tripShortfallKwh[k] : 0).Sum();
        mostStoredKwh = Math.Max(0, drive + Math.Min(year.UpperKwh[end], year.UsableKwh) - year.LowerKwh[first]);
        var leastStored = drive - bought - stops + year.LowerKwh[end] - (first == 0 ? year.InitialKwh : year.UpperKwh[first]);
        leastKwh = double.IsFinite(lowest) ? Math.Max(0, leastStored * lowest) : 0;
    }

    /// <summary>The range of what it adds to the use that a charge counts. [kWh]</summary>
    public (double Least, double Most) Of(UseCharge charge)
    {
        var (year, inside, dearest, tapered, warming) = (problem.Problem, 0.0, 0.0, 0.0, 0.0);
        var at = 0;
        for (var i = first; i < end; i++)
        {
            while (at < charge.Spans.Length && charge.Spans[at].Until <= problem.MeterOf[i])
            {
                at++;
            }

            if (at < charge.Spans.Length && charge.Spans[at].From <= problem.MeterOf[i] && CanCharge(i))
            {
                inside += charge.Spans[at].Share * year.WallKw[i] * year.Hours[i];
                dearest = Math.Max(dearest, year.WallKw[i] / year.NetKw[i]);
                tapered = Math.Max(tapered, Tapered(i));
                warming += IsTapering(i) ? WarmingKw(i) * year.Hours[i] / year.Constants.ConversionEfficiency : 0;
            }
        }

        // Where more use never costs less, what the taper takes more is no saving and need not be looked at.
        var stored = charge.MayFall ? Math.Min(mostStoredKwh * tapered, (mostStoredKwh * dearest) + warming) : mostStoredKwh * dearest;

        // What fits into other hours need not be in these. Rounding must not turn the range round.
        var most = Math.Min(inside, stored);
        return (Math.Min(most, Math.Max(0, leastKwh - (roomKwh - inside))), most);
    }

    private bool CanCharge(int i) => problem.Problem.Place[i] == Place.Home && problem.Problem.NetKw[i] > 0;

    /// <summary>Whether the car may be so full that the taper holds.</summary>
    private bool IsTapering(int i)
    {
        var (year, above) = (problem.Problem, problem.Problem.NetKw[i] - problem.Problem.Constants.TaperFloorKw);
        return above > 0 && year.UpperKwh[i + 1] > year.UsableKwh - (above / year.Constants.TaperPerHour);
    }

    private double WarmingKw(int i) => (problem.Problem.Constants.ConversionEfficiency * problem.Problem.WallKw[i]) - problem.Problem.NetKw[i];

    /// <summary>What a stored kWh takes at the wall at most, close to full. [kWh]</summary>
    private double Tapered(int i)
    {
        var rate = Math.Min(problem.Problem.NetKw[i], problem.Problem.Constants.TaperFloorKw);
        return (rate + WarmingKw(i)) / (problem.Problem.Constants.ConversionEfficiency * rate);
    }
}
