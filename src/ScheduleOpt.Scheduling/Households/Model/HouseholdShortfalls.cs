namespace ScheduleOpt.Scheduling.Households.Model;

/// <summary>What goes unmet, by car and departure. [kWh]</summary>
/// <param name="BelowKwh">Sum over cars and boundaries of what the stored energy is below its lower bound: only where cars together can't keep every bound.</param>
/// <param name="TripKwh">Energy each departure's trip needs and the battery can't give.</param>
/// <param name="TargetKwh">By how much each departure's wish is missed.</param>
/// <param name="FinalKwh">By how much each car's energy asked for at the end is missed.</param>
internal sealed record HouseholdShortfalls(double BelowKwh, double[][] TripKwh, double[][] TargetKwh, double[] FinalKwh)
{
    /// <summary>Above this a sum counts. [kWh]</summary>
    public const double Counts = 1e-6;

    public static HouseholdShortfalls None(HouseholdModel model) => new(
        0,
        [.. model.Cars.Select(c => new double[c.Car.Problem.Departures.Length])],
        [.. model.Cars.Select(c => new double[c.Car.Problem.Departures.Length])],
        new double[model.Cars.Length]);

    public double Trips => TripKwh.Sum(t => t.Sum());

    public double Targets => TargetKwh.Sum(t => t.Sum());

    public bool Any => BelowKwh > Counts || Trips > Counts || Targets > Counts || FinalKwh.Sum() > Counts;

    /// <summary>The strict order: -1 if these are better, 1 if worse, 0 if no different by more than the room given.</summary>
    public int Compare(HouseholdShortfalls other, HouseholdModel model, ShortfallOrder order, double room = 2e-6)
    {
        var (mine, theirs) = (Ordered(model, order).ToArray(), other.Ordered(model, order).ToArray());
        for (var k = 0; k < mine.Length; k++)
        {
            if (Math.Abs(mine[k] - theirs[k]) > room)
            {
                return mine[k] < theirs[k] ? -1 : 1;
            }
        }

        return 0;
    }

    private IEnumerable<double> Ordered(HouseholdModel model, ShortfallOrder order)
    {
        yield return BelowKwh;
        foreach (var kwh in new[] { TripKwh, TargetKwh })
        {
            if (order == ShortfallOrder.LeastTotal)
            {
                yield return kwh.Sum(t => t.Sum());
                continue;
            }

            foreach (var (c, k) in model.DeparturesInOrder())
            {
                yield return kwh[c][k];
            }
        }

        yield return FinalKwh.Sum();
    }
}
