using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>The optimum of a household's problem by steps 1 and 2, without windows and the rules of running: what answers in money compare.</summary>
/// <param name="Bill">What charging adds to the bill, stops included. [currency]</param>
/// <param name="Carbon">What it adds at the carbon price. [currency]</param>
/// <param name="StoredKwh">Stored energy by car and boundary. [kWh]</param>
/// <param name="TripShortfallKwh">By car and departure. [kWh]</param>
/// <param name="TargetShortfallKwh">By car and departure. [kWh]</param>
/// <param name="FinalShortfallKwh">By how much each car misses the energy asked for at the end. [kWh]</param>
/// <param name="WallKw">Average power by car and interval. [kW]</param>
/// <param name="Shares">Share of each interval in which each car charges.</param>
/// <param name="LimitReached">Whether a limit stopped the solver.</param>
public sealed record HouseholdLeast(
    double Bill,
    double Carbon,
    double[][] StoredKwh,
    double[][] TripShortfallKwh,
    double[][] TargetShortfallKwh,
    double[] FinalShortfallKwh,
    double[][] WallKw,
    double[][] Shares,
    bool LimitReached)
{
    /// <summary>Solves a problem: by the direct sweep where nothing couples the charges, otherwise by the relaxation. Every problem has an answer.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    public static HouseholdLeast Of(HouseholdProblem problem, ShortfallOrder order = ShortfallOrder.InTimeOrder)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var model = HouseholdModel.Of(problem);
        if (SimpleNight.Is(model))
        {
            var (own, least) = SimpleNight.Least(model, order);
            var kw = new double[problem.Count];
            for (var i = 0; i < kw.Length; i++)
            {
                kw[i] = own.WallKw[i] * least.Shares[i];
            }

            return Of(model, [kw], [least.Shares], [least.TripShortfallKwh], least.LimitReached);
        }

        var relaxation = HouseholdRelaxation.Solve(Segments.Of(model), order);
        var (segments, n) = (relaxation.Grid.SegmentOf, problem.Count);
        return Of(
            model,
            [.. relaxation.Powers.WallKw.Select(own => Spread(own, segments, n))],
            [.. relaxation.Powers.Share.Select(own => Spread(own, segments, n))],
            relaxation.Shortfalls.TripKwh,
            relaxation.LimitReached);
    }

    // What a run of equal intervals takes, each of them takes alike.
    private static double[] Spread(double[] own, int[] segmentOf, int n)
    {
        var values = new double[n];
        for (var i = 0; i < n; i++)
        {
            values[i] = own[segmentOf[i]];
        }

        return values;
    }

    private static HouseholdLeast Of(HouseholdModel model, double[][] kw, double[][] shares, double[][] tripKwh, bool limitReached)
    {
        var powers = new HouseholdPowers(kw.Length, model.Problem.Count);
        for (var c = 0; c < kw.Length; c++)
        {
            kw[c].CopyTo(powers.WallKw[c], 0);
            shares[c].CopyTo(powers.Share[c], 0);
        }

        var run = RunnableSchedule.Of(model, new(model.Problem), powers, tripKwh);
        return new(
            run.BillCost, run.CarbonCost, run.StoredKwh, run.Shortfalls.TripKwh, run.Shortfalls.TargetKwh, run.Shortfalls.FinalKwh, kw, shares, limitReached);
    }
}
