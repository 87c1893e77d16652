using NodaTime;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year.Nights;

/// <content>Minimum bills, night by night.</content>
/// <remarks>
/// While a minimum bill binds to the end, more energy costs nothing. Whether it will is not known that night: what the car has cost so far in the billing period is, and what it
/// costs a day is its mean so far, at first that of its trips at the lowest price. The rest of the bill is known, as the house's load is for blocks.
/// </remarks>
internal sealed partial class CoupledNights
{
    // How near what is expected may come to what the minimum leaves free, below and above, before energy costs nothing or all (our choice, no source).
    private const double SureBelow = 0.9;
    private const double SureAbove = 1.1;

    // Energy that is free to all appearance still goes to the cheaper hours.
    private const double LeastFactor = 0.01;
    private const double DaysOfTrips = 14;

    private readonly double[] spent;
    private double daysPassed;
    private double spentInAll;

    /// <summary>Makes energy in billing periods whose minimum bill is expected to bind to the end as good as free.</summary>
    public void MindMinimums(NightForecast night, double[] prices)
    {
        if (charges.SlackOf.All(s => s == 0))
        {
            return;
        }

        var (period, factor) = (-1, 1.0);
        for (var i = 0; i < prices.Length; i++)
        {
            var at = night.Starts[i];
            if (charges.PeriodOf[meterOf[at]] != period)
            {
                period = charges.PeriodOf[meterOf[at]];
                factor = FactorOf(night, period);
            }

            prices[i] *= year.Place[at] == Place.Home ? factor : 1;
        }
    }

    /// <summary>The share of its price that energy is expected to cost in a billing period.</summary>
    private double FactorOf(NightForecast night, int period)
    {
        var slack = charges.SlackOf[period];
        if (slack <= 0)
        {
            return 1;
        }

        var expected = spent[period] + (PerDay() * DaysLeft(night, period));
        return Math.Clamp(((expected / slack) - SureBelow) / (SureAbove - SureBelow), LeastFactor, 1);
    }

    private double DaysLeft(NightForecast night, int period)
    {
        var end = Array.FindLastIndex(charges.PeriodOf, p => p == period) + 1;
        var start = Math.Max(Array.IndexOf(charges.PeriodOf, period), meterOf[night.First]);
        return Math.Max(0, end - start) / (double)perDay;
    }

    /// <summary>What the car costs a day. [currency/d]</summary>
    private double PerDay()
    {
        var lowest = double.PositiveInfinity;
        for (var i = 0; i < year.Count; i++)
        {
            lowest = year.Place[i] == Place.Home && year.NetKw[i] > 0 ? Math.Min(lowest, year.Price[i] * year.WallKw[i] / year.NetKw[i]) : lowest;
        }

        var trips = double.IsFinite(lowest) ? lowest * year.DriveKwh.Sum() / Math.Max(1, houseKw.Length / perDay) : 0;
        return (spentInAll + (DaysOfTrips * trips)) / (daysPassed + DaysOfTrips);
    }

    private void Spend(NightForecast night, double[] wallKwh)
    {
        for (var i = night.First; i < night.Until; i++)
        {
            var cost = year.Place[i] == Place.Home ? wallKwh[i] * year.Price[i] : 0;
            spent[charges.PeriodOf[meterOf[i]]] += cost;
            spentInAll += cost;
        }

        var until = night.Until < year.Count ? year.Boundaries[night.Until] : year.Boundaries[^1];
        daysPassed = (until - year.Boundaries[0]) / Duration.FromDays(1);
    }
}
