using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Scheduling.Tests.Options;

/// <summary>One plain question: plugged in at 18:00Z with 30 kWh of 60, away from 06:00Z to 18:00Z on the next two days, 240 V and a breaker of 40 A (32 A,
/// 7.68 kW; at 20 degC 6.9224 kW into the battery), 0.30 until 23:00Z and 0.10 from then to 05:00Z.</summary>
internal static class Nights
{
    public const double FullKw = 7.68;
    public const double FullNetKw = 6.9224;
    public static readonly Instant Evening = Instant.FromUtc(2026, 1, 14, 18, 0);

    public static Instant At(int hour, int minute = 0) => Evening + Duration.FromMinutes((60 * (hour - 18)) + minute);

    public static ChargingCase Plain(double celsius = 20, double target = 0.8, double km = 60) => new()
    {
        Start = Evening,
        End = Evening + Duration.FromDays(2),
        Vehicle = new Vehicle
        {
            UsableEnergy = Energy.FromKilowattHours(60),
            OnBoardCharger = Power.FromKilowatts(11),
            Consumption = new Consumption { ReferenceKwhPerKm = 0.15 },
        },
        Supply = new Supply { VoltageV = 240, BreakerA = 40 },
        PluggedInAt = StateOfCharge.FromFraction(0.5),
        Calendar = new DrivingCalendar([Trip.Plain(At(30), At(42), Distance.FromKilometres(km)), Trip.Plain(At(54), At(66), Distance.FromKilometres(km))]),
        Prices = Prices(),
        Temperatures = TemperatureForecast.Constant(Temperature.FromCelsius(celsius)),
        DefaultTarget = StateOfCharge.FromFraction(target),
    };

    public static PriceSchedule Prices(decimal dear = 0.30m, decimal cheap = 0.10m, IEnumerable<PriceTerm>? terms = null, decimal export = 0) => new(
        [
            new PriceSpan(At(18), dear, "day", export), new PriceSpan(At(23), cheap, "night", export), new PriceSpan(At(29), dear, "day", export),
            new PriceSpan(At(47), cheap, "night", export), new PriceSpan(At(53), dear, "day", export),
        ],
        At(80),
        "USD",
        terms: terms);
}
