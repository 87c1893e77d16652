using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Interchange.HouseLoads;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Puts a request in the words of the planner.</summary>
public static class ScheduleQuestion
{
    /// <summary>The question that a request asks.</summary>
    public static NightQuestion Of(ScheduleRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var options = request.Options;
        var start = request.PlugIn.At;
        var end = Horizon.End(start, options.HorizonDays, request.Calendar);
        return new NightQuestion(
            new ChargingCase
            {
                Start = start,
                End = end,
                GridStep = options.GridStep,
                Vehicle = request.Vehicle,
                Supply = request.Supply,
                PluggedInAt = request.PlugIn.StateOfCharge,
                Calendar = request.Calendar,
                Prices = PriceScheduleBuilder.Build(
                    request.RatePlan, start, end, ExpectedUse(request, start, end), options.UsedSoFar, request.ReadingDates, request.RatePlanInput),

                // A departure at the very end asks for the energy of a trip that lies beyond it.
                Temperatures = request.Weather.Over(start, end + TripReader.Longest, request.Zone),
                DefaultTarget = options.Target,
                TripConfidence = options.TripConfidence,
            },
            options.ShortfallOrder);
    }

    /// <summary>The house's use from the plug-in to the end of the month in which the horizon ends: what fills the blocks.</summary>
    private static MeteredSeries? ExpectedUse(ScheduleRequest request, Instant start, Instant end)
    {
        // On a meter of its own the car's use alone fills the blocks.
        if (request.HouseLoadKwh is not { } hourly || request.RatePlan.Metering != Metering.WholeHouse)
        {
            return null;
        }

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

        var skipped = (int)((start - first) / Duration.FromHours(1));
        var wanted = (int)Math.Ceiling((until - first) / Duration.FromHours(1)) - skipped;
        return MeteredSeries.FromKilowattHours(
            first + Duration.FromHours(skipped), Duration.FromHours(1), values.Skip(skipped).Take(wanted).ToArray());
    }
}
