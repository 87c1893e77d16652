using NodaTime;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Comparison.Year.Coupled;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Tests.Households;

/// <summary>A lower bound of what any charging at home can cost in cash, ready or not: no limit but a full and an empty battery, no wish, and energy for each trip
/// may be bought away before it.</summary>
/// <remarks>It holds for every behaviour that ends with the energy given: full power is the cheapest way to fill, the taper only takes from it, and what is bought
/// before a trip could be bought on it.</remarks>
internal static class CashBound
{
    /// <summary>The bound of the bill's difference and away charging together. [currency]</summary>
    public static double Of(YearFrame frame, ChargingProblem year, PlanYear plan, double finalKwh)
    {
        var relaxed = Relaxed(plan.Least.Priced(year)!, (double)frame.Question.AwayPricePerKwh, finalKwh);
        var bound = CoupledYear.Solve(relaxed, plan.Least.Charges, ShortfallOrder.InTimeOrder, double.PositiveInfinity).Bound!.Value
            + (double)(plan.Least.Total - plan.BillWithoutCar.Total);

        // Away cost is rounded to a hundredth, each metering interval to a millionth of a kWh.
        return bound - 0.005 - (frame.Span.Count * 0.5 / MeteredSeries.UnitsPerKilowattHour * year.Price.Max());
    }

    private static ChargingProblem Relaxed(ChargingProblem year, double awayPrice, double finalKwh)
    {
        var trips = year.Departures.ToDictionary(d => d.Boundary, d => year.DriveKwh[d.Boundary..d.ReturnBoundary].Sum());
        var n = year.Count + trips.Count;
        var (boundaries, hours, place, price) = (new Instant[n + 1], new double[n], new Place[n], new double[n]);
        var (most, wall, net, temperature, drive) = (new double[n], new double[n], new double[n], new double[n], new double[n]);
        var upper = new double[n + 1];
        Array.Fill(upper, year.UsableKwh);
        var at = 0;
        for (var i = 0; i < year.Count; i++)
        {
            boundaries[at] = year.Boundaries[i];
            if (trips.TryGetValue(i, out var kwh))
            {
                (hours[at], place[at], price[at], net[at], wall[at]) = (1, Place.Stop, awayPrice, kwh, kwh / AwayCharging.PublicEfficiency);
                upper[++at] = year.UsableKwh + kwh;
                boundaries[at] = year.Boundaries[i];
            }

            (hours[at], place[at], price[at], most[at], wall[at], net[at], temperature[at], drive[at]) = (
                year.Hours[i], year.Place[i], year.Price[i], year.MostA[i], year.WallKw[i], year.NetKw[i], year.TemperatureC[i], year.DriveKwh[i]);
            at++;
            if (i + 1 < year.Count && year.Place[i] == Place.Road && year.Place[i + 1] == Place.Road)
            {
                upper[at] = double.PositiveInfinity;
            }
        }

        boundaries[n] = year.Boundaries[^1];
        return year with
        {
            Boundaries = boundaries,
            Hours = hours,
            Place = place,
            Price = price,
            MostA = most,
            WallKw = wall,
            NetKw = net,
            TemperatureC = temperature,
            DriveKwh = drive,
            LowerKwh = new double[n + 1],
            UpperKwh = upper,
            Departures = [],
            FinalKwh = finalKwh,
        };
    }
}
