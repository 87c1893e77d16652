using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Scheduling.Tests.HandSolved;

/// <summary>Needs and limits of whole cases, worked out with a pencil: 50 kWh, 0.2 kWh/km at 20 degC, no spread, 240 V and 20 A.</summary>
public class HandSolvedLimitsTests
{
    // 0.93 * 3.84 - 0.22 = 3.3512 kW.
    private const double RateKw = (0.93 * 3.84) - 0.22;
    private static readonly Instant Start = Instant.FromUtc(2026, 6, 1, 18, 0);

    [Fact]
    public void Need_OfATrip_IsItsEnergyAndTheMinimum()
    {
        // 100 km: 20 kWh and 10 % of 50: 25 kWh.
        var problem = Build(0.5, Trip.Plain(At(12), At(20), Km(100)));
        Assert.Equal(25, problem.Departures[0].RequiredKwh, 9);
        Assert.Equal(20, problem.Departures[0].DriveKwh, 9);
    }

    [Fact]
    public void Need_WithAStopThatCharges_IsLess()
    {
        // 2 x 50 km; the stop gives 2 h * (0.93 * 5 - 0.22) = 8.86 kWh. Back from home: 5 + 10 = 15, less 8.86 = 6.14, and 10: 16.14 kWh.
        var stop = new TripStop(At(14), At(16)) { ChargingPower = Power.FromKilowatts(5), PricePerKwh = 0.5m };
        var trip = new Trip
        {
            Departure = At(12),
            Return = At(20),
            Legs = [new TripLeg(Km(50), At(12), At(14), At(12)) { Stop = stop }, new TripLeg(Km(50), At(16), At(20), At(16))],
        };
        Assert.Equal(16.14, Build(0.5, trip).Departures[0].RequiredKwh, 9);

        // On half of the days it can't be counted on tonight.
        var uncertain = trip with { Legs = [trip.Legs[0] with { Stop = stop with { ShareOfDays = 0.5 } }, trip.Legs[1]] };
        Assert.Equal(25, Build(0.5, uncertain).Departures[0].RequiredKwh, 9);
    }

    [Fact]
    public void UpperBound_OnOrdinaryDays_IsTheOrdinaryLimit()
    {
        var problem = Build(0.5, Trip.Plain(At(12), At(20), Km(50)));
        Assert.All(Enumerable.Range(0, problem.Departures[0].Boundary + 1), b => Assert.Equal(40, problem.UpperKwh[b], 9));
    }

    [Fact]
    public void UpperBound_BeforeALongTrip_RisesNoEarlierThanNeeded()
    {
        // 215 km: 43 kWh and 5: 48 kWh, 8 above the ordinary limit: 8 / 3.3512 = 2.387 h at full power, and half an hour of margin.
        var problem = Build(0.5, Trip.Plain(At(12), At(20), Km(215)));
        var departure = problem.Departures[0].Boundary;
        Assert.Equal(48, problem.UpperKwh[departure], 9);
        var rises = At(12) - Duration.FromHours((8 / RateKw) + 0.5);
        for (var b = 0; b <= departure; b++)
        {
            Assert.Equal(problem.Boundaries[b] <= rises, problem.UpperKwh[b] <= 40 + 1e-9);
        }
    }

    [Fact]
    public void UpperBound_AboveTheOrdinaryLimitAtPlugIn_CarriesWhatIsThere()
    {
        var problem = Build(0.95, Trip.Plain(At(12), At(20), Km(10)));
        Assert.Equal(47.5, problem.UpperKwh[0], 9);
        Assert.Equal(47.5, problem.UpperKwh[problem.Departures[0].Boundary], 9);

        // Back after 2 kWh: what is left may stay.
        Assert.Equal(45.5, problem.UpperKwh[problem.Departures[0].ReturnBoundary], 9);
    }

    [Fact]
    public void LowerBound_BelowTheMinimum_RisesAsFastAsTheCarCanCharge()
    {
        // 2 % is 1 kWh; a quarter of an hour adds 0.8378, until the minimum of 5.
        var problem = Build(0.02, Trip.Plain(At(12), At(20), Km(10)));
        Assert.Equal(1, problem.LowerKwh[0], 9);
        Assert.Equal(1 + (RateKw / 4), problem.LowerKwh[1], 9);
        Assert.Equal(5, problem.LowerKwh[8], 9);
        Assert.Equal(1, Scheduler.Solve(problem).Shares[0], 9);
    }

    [Fact]
    public void TripShortfall_OfATripTooLong_IsWhatTheBatteryLacks()
    {
        // 300 km: 60 kWh. Full at 50, down to 5: 45 served, 15 missing.
        var problem = Build(1.0, Trip.Plain(At(12), At(20), Km(300)));
        Assert.Equal(15, Assert.Single(Scheduler.Solve(problem).TripShortfallKwh), 9);
    }

    private static Distance Km(double kilometres) => Distance.FromKilometres(kilometres);

    private static Instant At(int hours) => Start + Duration.FromHours(hours);

    private static ChargingProblem Build(double stateOfCharge, Trip trip) => ChargingProblemBuilder.Build(new ChargingCase
    {
        Start = Start,
        End = Start + Duration.FromDays(2),
        Vehicle = new Vehicle
        {
            UsableEnergy = Energy.FromKilowattHours(50),
            OnBoardCharger = Power.FromKilowatts(11),
            Consumption = new Consumption { ReferenceKwhPerKm = 0.2, Spread = 0 },
        },
        Supply = new Supply { VoltageV = 240, BreakerA = 20 },
        PluggedInAt = StateOfCharge.FromFraction(stateOfCharge),
        Calendar = new DrivingCalendar([trip]),
        Prices = new PriceSchedule([new PriceSpan(Start, 0.15m, "all")], Start + Duration.FromDays(2), "USD"),
        Temperatures = TemperatureForecast.Constant(Temperature.FromCelsius(20)),
    });
}
