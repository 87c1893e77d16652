using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year.Nights;

/// <summary>Prices as they are known on a night: published ones as they are, hourly ones beyond the next day as the mean of recent same hours.</summary>
internal sealed class ExpectedPrices
{
    private const int HoursOfDay = 24;
    private readonly ChargingProblem year;
    private readonly int days;
    private readonly double[]? hourly;

    /// <param name="year">The year at its prices.</param>
    /// <param name="hourly">The price at the start of each hour of the year where prices are published a day ahead; none where the rate plan says them
    /// all.</param>
    /// <param name="days">Days behind a mean. [d]</param>
    public ExpectedPrices(ChargingProblem year, double[]? hourly, int days) => (this.year, this.hourly, this.days) = (year, hourly, days);

    /// <summary>The prices of a night's intervals. [currency/kWh]</summary>
    public double[] On(NightForecast night)
    {
        var starts = night.Starts;
        var prices = new double[starts.Length - 1];
        for (var i = 0; i < prices.Length; i++)
        {
            var (from, until) = (starts[i], starts[i + 1]);
            if (hourly is not null && from >= night.PricesKnownUntil && year.Place[from] == Place.Home)
            {
                prices[i] = Mean((int)(year.Boundaries[from] - year.Boundaries[0]).TotalHours, (int)(year.Boundaries[night.PricesKnownUntil] - year.Boundaries[0]).TotalHours);
                continue;
            }

            var (sum, hours) = (0.0, 0.0);
            for (var k = from; k < until; k++)
            {
                sum += year.Price[k] * year.Hours[k];
                hours += year.Hours[k];
            }

            prices[i] = until == from + 1 ? year.Price[from] : sum / hours;
        }

        return prices;
    }

    /// <summary>The mean of the same hour on the last days that are known.</summary>
    private double Mean(int hour, int known)
    {
        var (sum, count) = (0.0, 0);
        var latest = hour - (HoursOfDay * (((hour - known) / HoursOfDay) + 1));
        for (var h = latest; h >= 0 && count < days; h -= HoursOfDay)
        {
            sum += hourly![h];
            count++;
        }

        return count == 0 ? hourly![Math.Max(0, known - 1)] : sum / count;
    }
}
