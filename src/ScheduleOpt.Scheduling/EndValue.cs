namespace ScheduleOpt.Scheduling;

/// <summary>What a stored kWh is worth at the end of the horizon. [currency/kWh]</summary>
internal static class EndValue
{
    /// <summary>The median of price * P / r over home intervals with r above 0, weighted by their lengths; none or negative: 0.</summary>
    public static double PerKwh(double[] hours, Place[] place, double[] price, double[] wall, double[] net)
    {
        // Weights in whole seconds: a sum of fractions could fall on either side of exactly half.
        var costs = new List<(double Cost, long Seconds)>(hours.Length);
        var total = 0L;
        for (var i = 0; i < hours.Length; i++)
        {
            if (place[i] == Place.Home && net[i] > 0)
            {
                var seconds = (long)Math.Round(hours[i] * 3600);
                costs.Add((price[i] * wall[i] / net[i], seconds));
                total += seconds;
            }
        }

        costs.Sort(static (a, b) => a.Cost.CompareTo(b.Cost));
        var cumulated = 0L;
        foreach (var (cost, seconds) in costs)
        {
            cumulated += seconds;
            if (2 * cumulated >= total)
            {
                return Math.Max(0, cost);
            }
        }

        return 0;
    }
}
