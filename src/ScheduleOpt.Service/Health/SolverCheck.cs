using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Service.Health;

/// <summary>Whether the solver answers a night of two prices as it must: everything in the cheap hours.</summary>
internal sealed class SolverCheck : IReadinessCheck
{
    private static readonly Instant Start = Instant.FromUtc(2026, 1, 14, 18, 0);
    private static readonly Instant Cheap = Start + Duration.FromHours(4);
    private static readonly Instant Departure = Start + Duration.FromHours(14);

    /// <inheritdoc/>
    public string Name => "solver";

    /// <inheritdoc/>
    public string Check()
    {
        NightPlan plan;
        try
        {
            plan = NightPlanner.Plan(new NightQuestion(Night()));
        }
        catch (Exception e) when (e is DllNotFoundException or TypeInitializationException or BadImageFormatException)
        {
            // The solver is native code: on a machine it was not built for, it fails here and nowhere else.
            throw new NotReadyException("The solver can't be loaded on this machine.", e);
        }

        return plan.CheckFindings.Count == 0 && plan.Cars[0].Windows.Count > 0 && plan.Cars[0].Windows[0].Start >= Cheap && !plan.LimitReached
            ? "answers"
            : throw new NotReadyException("The solver does not answer a small problem as it must.");
    }

    private static ChargingCase Night() => new()
    {
        Start = Start,
        End = Start + Duration.FromDays(2),
        GridStep = Duration.FromHours(1),
        Vehicle = new Vehicle
        {
            UsableEnergy = Energy.FromKilowattHours(60),
            OnBoardCharger = Power.FromKilowatts(11),
            Consumption = new Consumption { ReferenceKwhPerKm = 0.15 },
        },
        Supply = new Supply { VoltageV = 240, BreakerA = 40 },
        PluggedInAt = StateOfCharge.FromFraction(0.3),
        Calendar = new DrivingCalendar(
        [
            Trip.Plain(Departure, Departure + Duration.FromHours(8), Distance.FromKilometres(100), StateOfCharge.FromFraction(0.7)),
        ]),
        Prices = new PriceSchedule(
            [new PriceSpan(Start, 0.30m, "dear"), new PriceSpan(Cheap, 0.10m, "cheap"), new PriceSpan(Departure, 0.30m, "dear")],
            Start + Duration.FromDays(2),
            "USD"),
        Temperatures = TemperatureForecast.Constant(Temperature.FromCelsius(10)),
    };
}
