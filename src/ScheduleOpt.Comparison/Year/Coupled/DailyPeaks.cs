namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>A charge for the mean of days' highest averages.</summary>
internal static class DailyPeaks
{
    /// <summary>The mean of the highest days. [kW]</summary>
    /// <param name="charge">The charge.</param>
    /// <param name="kwOf">The power of an average. [kW]</param>
    public static double Mean(PeakCharge charge, Func<PeakWindow, double> kwOf)
    {
        var highest = new Dictionary<int, double>();
        foreach (var window in charge.Windows)
        {
            highest[window.Day] = Math.Max(highest.GetValueOrDefault(window.Day), kwOf(window));
        }

        return highest.Values.OrderDescending().Take(charge.MeanOfDays!.Value).DefaultIfEmpty(0).Average();
    }

    /// <summary>Multipliers that the mean bounds from above: no day has more of the price than its share, and days on which nothing is charged have what is left.</summary>
    /// <remarks>The mean of the n highest days is no less than a weighted mean of averages in which no day weighs more than 1 / n.</remarks>
    /// <param name="charge">The charge.</param>
    /// <param name="multipliers">What each average is worth. [currency/kW]</param>
    /// <param name="price">What they add up to. [currency/kW]</param>
    public static double[] Spread(PeakCharge charge, double[] multipliers, double price)
    {
        var (spread, windows) = (PeakBracket.AtMost(multipliers, price).ToArray(), charge.Windows);
        int[][] days = [.. Enumerable.Range(0, windows.Length).GroupBy(w => windows[w].Day).Select(d => d.ToArray())];
        var most = price / Math.Min(charge.MeanOfDays!.Value, days.Length);
        var left = price;
        var rooms = new double[days.Length];
        for (var d = 0; d < days.Length; d++)
        {
            var sum = days[d].Sum(w => spread[w]);
            foreach (var w in days[d])
            {
                spread[w] *= sum > most ? most / sum : 1;
            }

            rooms[d] = most - Math.Min(sum, most);
            left -= Math.Min(sum, most);
        }

        foreach (var d in Enumerable.Range(0, days.Length).OrderByDescending(d => days[d].Max(w => windows[w].HouseKw)))
        {
            var added = Math.Max(0, Math.Min(left, rooms[d]));
            spread[days[d].MaxBy(w => windows[w].HouseKw)] += added;
            left -= added;
        }

        return spread;
    }
}
