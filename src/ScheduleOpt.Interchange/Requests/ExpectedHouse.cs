using NodaTime;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Interchange.HouseLoads;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>What the rest of the house is expected to use in the time that a request plans.</summary>
/// <param name="Power">Its load, hour by hour. [kW]</param>
/// <param name="OnTheBill">What it takes from the network beside its solar roof, to the end of the billing period in which the plan ends: what fills the blocks and
/// sets the highest average; none where the car has a meter of its own.</param>
/// <param name="Exported">What its solar roof gives to the network in the same intervals; none without a roof.</param>
internal sealed record ExpectedHouse(PowerForecast Power, MeteredSeries? OnTheBill, MeteredSeries? Exported)
{
    private static readonly Duration Hour = Duration.FromHours(1);

    /// <summary>The expected use; none where the request gives no house load.</summary>
    public static ExpectedHouse? Of(ScheduleRequest request)
    {
        if (request.HouseLoadKwh is not { } hourly)
        {
            return null;
        }

        var (start, end) = (request.Span.Start, request.Span.End);
        var zone = new HouseholdZone(request.RatePlan.Zone);
        var lastDay = end.InZone(zone.Zone).Date.With(DateAdjusters.EndOfMonth);
        var until = zone.StartOf(lastDay.PlusDays(1));
        var values = new List<double>();
        var first = Instant.MinValue;
        for (var year = start.InZone(request.Zone.Zone).Year; year <= until.InZone(request.Zone.Zone).Year; year++)
        {
            var load = HouseLoadShape.OnYear(hourly, year, request.Zone);
            first = values.Count == 0 ? load.Start : first;
            values.AddRange(load.HourlyKwh);
        }

        var skipped = (int)((start - first) / Hour);
        var wanted = (int)Math.Ceiling((until - first) / Hour) - skipped;
        var from = first + (Hour * skipped);
        var use = values.Skip(skipped).Take(wanted).ToArray();

        // Kilowatt-hours of an hour are its kilowatts.
        var power = new PowerForecast(from, Hour, use);
        return request.RatePlan.Metering != Metering.WholeHouse ? new(power, null, null)
            : request.Solar is { } solar ? BesideSolar(power, solar)
            : new(power, MeteredSeries.FromKilowattHours(from, Hour, use), null);
    }

    /// <summary>Load and production net within the longest intervals in which both are even.</summary>
    private static ExpectedHouse BesideSolar(PowerForecast house, Forecast solar)
    {
        var apart = (long)Math.Floor(Math.Abs((solar.Start - house.Start).TotalMinutes));
        var minutes = Common(Common(60, (long)solar.Interval.TotalMinutes), apart);
        var step = Duration.FromMinutes(minutes);
        var count = house.AverageKw.Count * (int)(60 / minutes);
        var (import, export) = (new double[count], new double[count]);
        for (var i = 0; i < count; i++)
        {
            var kw = house.AverageKw[(int)(i * minutes / 60)] - solar.At(house.Start + (step * i));
            import[i] = Math.Max(0, kw) * minutes / 60;
            export[i] = Math.Max(0, -kw) * minutes / 60;
        }

        return new(house, MeteredSeries.FromKilowattHours(house.Start, step, import), MeteredSeries.FromKilowattHours(house.Start, step, export));
    }

    private static long Common(long a, long b) => b == 0 ? a : Common(b, a % b);
}
