using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year;

/// <summary>The years of all rate plans of a comparison: the whole-house ones first, then those for the car's own meter beside one of them.</summary>
internal static class PlanYears
{
    /// <summary>Bills the house on each, on several threads.</summary>
    public static PlanYear[] Of(YearFrame frame, ParallelOptions options, ProgressCount count)
    {
        var plans = frame.Question.RatePlans;
        var all = new PlanYear[plans.Count];
        Each(p => p.Metering == Metering.WholeHouse, i => PlanYear.Of(frame, plans[i]));
        PlanYear[] whole = [.. all.OfType<PlanYear>()];
        Each(p => p.Metering != Metering.WholeHouse, i => PlanYear.OfCarMeter(frame, plans[i], HousePlan(frame.Question, plans[i], whole)));
        return all;

        void Each(Func<RatePlan, bool> which, Func<int, PlanYear> year) => Parallel.For(0, plans.Count, options, i =>
        {
            if (which(plans[i]))
            {
                all[i] = year(i);
                count.Step();
            }
        });
    }

    /// <summary>The plan on which the house stays: the one that the car's plan names, else the household's, else the one that is cheapest for the house without
    /// the car.</summary>
    private static PlanYear HousePlan(YearCase question, RatePlan plan, PlanYear[] whole) =>
        whole.FirstOrDefault(w => w.Plan.Id == plan.HousePlan)
        ?? whole.FirstOrDefault(w => w.Plan.Id == question.HousePlan)
        ?? whole.MinBy(w => w.BillWithoutCar.Total)!;
}
