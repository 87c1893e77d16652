using CsCheck;
using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tests.Behaviours;

/// <summary>Random weeks: trips of any length and minute, some with a stop that charges, any supply, frost and heat.</summary>
internal static class BehaviourCases
{
    private const int Days = 12;

    private static readonly Gen<(double Leaves, double Away, double Miles, double StopKw, double Target)> Day =
        Gen.Select(
            Gen.Double[0.5, 9],
            Gen.Double[0.5, 14],
            Gen.Double[0, 220],
            Gen.OneOf(0, 0, 0, 7.2, 1.92),
            Gen.OneOf(0, 0, 0.7, 0.95));

    public static Gen<ChargingProblem> Problems { get; } =
        from days in Day.Array[Days]
        from supply in Gen.OneOf(Sample.Outlet, Sample.Receptacle, Sample.Hardwired)
        from state in Gen.Double[0, 1]
        from mean in Gen.Double[-22, 30]
        from grid in Gen.OneOf(5, 15, 30, 60)
        select ChargingProblemBuilder.Build(
            Sample.Question(supply, 0, state, Duration.FromDays(Days + 1), days.Select(Trip)) with
            {
                GridStep = Duration.FromMinutes(grid),
                Temperatures = new TemperatureForecast(
                    Sample.Monday,
                    Duration.FromHours(1),
                    Enumerable.Range(0, 24 * (Days + 1)).Select(h => mean + (6 * Math.Sin(h * Math.PI / 12)))),
            });

    public static IReadOnlyList<UnaidedBehaviour> All { get; } =
        [new OnArrival(), new FixedStart(new LocalTime(23, 10), Sample.Chicago), new ByDeparture()];

    private static Trip Trip((double Leaves, double Away, double Miles, double StopKw, double Target) day, int index)
    {
        var departure = Sample.Monday + Duration.FromMinutes(Math.Round(60 * ((24 * index) + day.Leaves)));
        var minutes = Math.Round(60 * day.Away);
        var half = Distance.FromMiles(day.Miles / 2);
        var from = departure + Duration.FromMinutes(Math.Floor(minutes / 3));
        var until = departure + Duration.FromMinutes(Math.Floor(2 * minutes / 3));
        var back = departure + Duration.FromMinutes(minutes);
        return new Trip
        {
            Departure = departure,
            Return = back,
            Target = day.Target > 0 ? StateOfCharge.FromFraction(day.Target) : null,
            Legs =
            [
                new TripLeg(half, departure, from, departure)
                {
                    Stop = new TripStop(from, until) { ChargingPower = Power.FromKilowatts(day.StopKw), PricePerKwh = 0.3m },
                },
                new TripLeg(half, until, back, until),
            ],
        };
    }
}
