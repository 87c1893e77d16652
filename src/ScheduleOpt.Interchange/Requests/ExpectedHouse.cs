using NodaTime;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Interchange.HouseLoads;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>What the rest of the house is expected to use in the time that a request plans.</summary>
/// <param name="Power">Its load, hour by hour. [kW]</param>
/// <param name="OnTheBill">The same to the end of the billing period in which the plan ends: what fills the blocks; none where the car has a meter of its own.</param>
internal sealed record ExpectedHouse(PowerForecast Power, MeteredSeries? OnTheBill)
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
        return new(
            new(from, Hour, use),
            request.RatePlan.Metering == Metering.WholeHouse ? MeteredSeries.FromKilowattHours(from, Hour, use) : null);
    }
}
