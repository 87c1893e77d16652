namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>The lower hull of what use costs in blocks: the cost itself where it is convex.</summary>
/// <remarks>Where prices fall from block to block, or all the use is at the price of the block that it ends in, cost is not convex. A search by slopes of its hull is no
/// more than that, but a bound made of them holds. The less the car can add, the nearer is the hull.</remarks>
internal sealed class BlockHull
{
    private const double SameKwh = 1e-9;

    private readonly List<(double Kwh, double Cost)> points;
    private readonly BlockCharge charge;

    /// <param name="charge">The blocks.</param>
    /// <param name="mostKwh">The most that the car can add to the use without it. [kWh]</param>
    public BlockHull(BlockCharge charge, double mostKwh)
    {
        this.charge = charge;
        points = [(charge.UsedKwh, 0)];
        foreach (var corner in charge.Corners(mostKwh).Where(c => c.Kwh > charge.UsedKwh + SameKwh))
        {
            while (points.Count > 1 && Slope(points[^2], points[^1]) >= Slope(points[^1], corner))
            {
                points.RemoveAt(points.Count - 1);
            }

            points.Add(corner);
        }
    }

    /// <summary>What the next kWh costs more than the prices say. [currency/kWh]</summary>
    public double SlopeAbove(double useKwh) => SlopeTo(points.FindIndex(1, p => useKwh < p.Kwh));

    /// <summary>What the last kWh cost more than the prices say. [currency/kWh]</summary>
    public double SlopeBelow(double useKwh) => SlopeTo(points.FindIndex(1, p => useKwh <= p.Kwh));

    /// <summary>The least, over all uses that the car can add, of the hull less a price times the use. [currency]</summary>
    public double Least(double price) => points.Min(p => p.Cost - (price * (p.Kwh - charge.UsedKwh)));

    private double SlopeTo(int point) => points.Count == 1
        ? charge.SlopeAbove(charge.UsedKwh)
        : point < 0 ? Slope(points[^2], points[^1]) : Slope(points[point - 1], points[point]);

    private static double Slope((double Kwh, double Cost) from, (double Kwh, double Cost) until) => (until.Cost - from.Cost) / (until.Kwh - from.Kwh);
}
