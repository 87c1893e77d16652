using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tests;

/// <summary>The reference car, supplies and small questions that the tests share. All invented.</summary>
internal static class Sample
{
    /// <summary>60 kWh usable, 0.25 kWh per mile at 20 degC.</summary>
    public static Vehicle Car { get; } = new()
    {
        UsableEnergy = Energy.FromKilowattHours(60),
        OnBoardCharger = Power.FromKilowatts(11.52),
        Consumption = new Consumption { ReferenceKwhPerKm = 0.25 / Distance.KilometresPerMile },
    };

    /// <summary>120 V, 15 A breaker: 12 A, 1.44 kW.</summary>
    public static Supply Outlet { get; } = new() { VoltageV = 120, BreakerA = 15, Rule = ContinuousRatingRule.NecContinuousLoad };

    /// <summary>240 V, 40 A breaker: 32 A, 7.68 kW.</summary>
    public static Supply Receptacle { get; } = new() { VoltageV = 240, BreakerA = 40, Rule = ContinuousRatingRule.NecContinuousLoad };

    /// <summary>240 V, 60 A breaker: 48 A, 11.52 kW.</summary>
    public static Supply Hardwired { get; } = new()
    {
        VoltageV = 240, BreakerA = 60, Rule = ContinuousRatingRule.NecContinuousLoad, Connection = SupplyConnection.Hardwired,
    };

    public static HouseholdZone Chicago { get; } = new(DateTimeZoneProviders.Tzdb["America/Chicago"]);

    /// <summary>A Monday in winter, 18:00 in Chicago.</summary>
    public static Instant Monday { get; } = Instant.FromUtc(2026, 1, 13, 0, 0);

    public static double Celsius(double fahrenheit) => Temperature.FromFahrenheit(fahrenheit).Celsius;

    public static PriceSchedule Flat(Instant start, Instant end, decimal price = 0.10m) =>
        new([new PriceSpan(start, price, "all hours")], end, "USD");

    public static ChargingCase Question(
        Supply? supply, double celsius, double stateOfCharge, Duration length, params IEnumerable<Trip> trips) => new()
        {
            Start = Monday,
            End = Monday + length,
            Vehicle = Car,
            Supply = supply,
            PluggedInAt = StateOfCharge.FromFraction(stateOfCharge),
            Calendar = new DrivingCalendar(trips),
            Prices = Flat(Monday, Monday + length),
            Temperatures = TemperatureForecast.Constant(Temperature.FromCelsius(celsius)),
        };

    /// <summary>A trip that leaves some hours after <see cref="Monday"/>.</summary>
    public static Trip Trip(double departsAfterHours, double hours, double miles, double? target = null)
    {
        var departure = Monday + Duration.FromHours(departsAfterHours);
        return Core.Driving.Trip.Plain(
            departure,
            departure + Duration.FromHours(hours),
            Distance.FromMiles(miles),
            target is { } t ? StateOfCharge.FromFraction(t) : null);
    }
}
