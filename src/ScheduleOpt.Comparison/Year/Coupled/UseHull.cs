namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>The lower hull of what use costs beside the prices per kWh: the cost itself where it is convex.</summary>
/// <remarks>Where prices fall from block to block, all the use is at the price of the block that it ends in, or an amount holds in a band of use, cost is not convex. A
/// search by slopes of its hull is no more than that, but a bound made of them holds. The narrower the range of what the car can add, the nearer is the hull.</remarks>
internal sealed class UseHull
{
    private const double SameKwh = 1e-9;

    // Metering rounds each interval to a millionth of a kWh: a use just short of a jump may be billed beyond it.
    private const double RoundedKwh = 0.02;

    private readonly List<(double Kwh, double Cost)> points = [];
    private readonly UseCharge charge;

    /// <param name="charge">The charge.</param>
    /// <param name="leastKwh">The least that the car adds to the use without it. [kWh]</param>
    /// <param name="mostKwh">The most. [kWh]</param>
    public UseHull(UseCharge charge, double leastKwh, double mostKwh)
    {
        this.charge = charge;
        var from = charge.UsedKwh + Math.Max(0, leastKwh - RoundedKwh);
        var until = Math.Max(from, charge.UsedKwh + mostKwh + RoundedKwh);
        Add((from, charge.Cost(from)));
        foreach (var corner in charge.Corners().Where(c => c.Kwh >= from - SameKwh && c.Kwh <= until))
        {
            Add(corner);
        }

        Add((until, charge.Cost(until)));
    }

    /// <summary>What the next kWh costs more than the prices say. [currency/kWh]</summary>
    public double SlopeAbove(double useKwh) => SlopeTo(points.FindIndex(1, p => useKwh < p.Kwh));

    /// <summary>What the last kWh cost more than the prices say. [currency/kWh]</summary>
    public double SlopeBelow(double useKwh) => SlopeTo(points.FindIndex(1, p => useKwh <= p.Kwh));

    /// <summary>The least, over all uses that the car can add, of the hull less a price times the use. [currency]</summary>
    public double Least(double price) => points.Min(p => p.Cost - (price * (p.Kwh - charge.UsedKwh)));

    private void Add((double Kwh, double Cost) corner)
    {
        if (points.Count > 0 && corner.Kwh <= points[^1].Kwh + SameKwh)
        {
            points[^1] = (points[^1].Kwh, Math.Min(points[^1].Cost, corner.Cost));
            corner = points[^1];
            points.RemoveAt(points.Count - 1);
        }

        while (points.Count > 1 && Slope(points[^2], points[^1]) >= Slope(points[^1], corner))
        {
            points.RemoveAt(points.Count - 1);
        }

        points.Add(corner);
    }

    private double SlopeTo(int point) => points.Count == 1
        ? charge.SlopeAbove(charge.UsedKwh)
        : point < 0 ? Slope(points[^2], points[^1]) : Slope(points[point - 1], points[point]);

    private static double Slope((double Kwh, double Cost) from, (double Kwh, double Cost) until) => (until.Cost - from.Cost) / (until.Kwh - from.Kwh);
}
