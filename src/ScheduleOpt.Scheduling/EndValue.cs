namespace ScheduleOpt.Scheduling;

/// <summary>What a stored kWh is worth at the end of the horizon. [currency/kWh]</summary>
internal static class EndValue
{
    /// <summary>The median of price * P / r over home intervals with r above 0, weighted by their lengths; none or negative: 0.</summary>
    public static double PerKwh(double[] hours, Place[] place, double[] price, double[] wall, double[] net)
    {
        var costs = new List<(double Cost, double Weight)>(hours.Length);
        var total = 0.0;
        for (var i = 0; i < hours.Length; i++)
        {
            if (place[i] == Place.Home && net[i] > 0)
            {
                costs.Add((price[i] * wall[i] / net[i], hours[i]));
                total += hours[i];
            }
        }

        costs.Sort(static (a, b) => a.Cost.CompareTo(b.Cost));
        var cumulated = 0.0;
        foreach (var (cost, weight) in costs)
        {
            cumulated += weight;
            if (cumulated >= total / 2)
            {
                return Math.Max(0, cost);
            }
        }

        return 0;
    }
}
