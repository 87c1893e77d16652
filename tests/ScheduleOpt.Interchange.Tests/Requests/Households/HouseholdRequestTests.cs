using NodaTime;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Interchange.Tests.Requests.Households;

public sealed class HouseholdRequestTests
{
    private static readonly Instant AsOf = Instant.FromUtc(2026, 1, 14, 23, 30);

    [Fact]
    public void TwoCars_EverythingGiven_IsRead()
    {
        var request = HouseholdText.TwoCars().Good();
        var options = request.Options;

        Assert.True(request.CarsAreListed);
        Assert.Equal(["Blue", "Small"], request.Cars.Select(c => c.Name));
        Assert.Equal(0.7, request.Cars[0].Target!.Value.Fraction);
        Assert.Null(request.Cars[1].Target);
        Assert.Equal([1, 2], request.Cars.Select(c => c.Outlet));
        Assert.Equal(new RunningRules { Adjustable = true, WholeAmperes = true, MostWindows = 4, LeastOn = Minutes(30), LeastOff = Minutes(15) }, request.Cars[1].Running);
        Assert.Equal(request.Cars[1].Running with { Adjustable = false, MostWindows = 2 }, request.Cars[0].Running);
        var window = Assert.Single(request.Cars[0].Previous!.Windows);
        Assert.Equal(new PreviousWindow(Instant.FromUtc(2026, 1, 15, 7, 0), Instant.FromUtc(2026, 1, 15, 10, 0), 32, "a@b", 2), window);
        Assert.Equal(0.45, request.Cars[0].Previous!.ExpectedState!.Value.Fraction);
        Assert.Equal(40, request.SharedCircuitA);
        Assert.Equal(12.5, request.ImportLimitKw);
        Assert.Equal(80m, request.Carbon!.PricePerTonne);
        Assert.Equal(Minutes(45), options.FinishMargin);
        Assert.Equal(new WarmUp(Minutes(20), 1.5, 0.8, 5), options.WarmUp! with { BelowC = Math.Round(options.WarmUp.BelowC, 9) });
        Assert.Equal(new AgeingPrice(0.0002, 0.001), options.Ageing);
        Assert.Equal(0.05m, options.KeepUnlessCheaperBy);
        Assert.False(options.Explain);
        Assert.Equal(new ChargingProfileChoice(ChargePointProtocol.V201, ChargingRateUnit.Watts), options.ChargingProfile);
        Assert.Contains(request.Warnings, w => w.StartsWith("solar does not cover", StringComparison.Ordinal));
        Assert.Contains(request.Warnings, w => w.StartsWith("carbon/gramsPerKwh does not cover", StringComparison.Ordinal));
    }

    [Fact]
    public void HouseholdOf_TwoCars_HaveOneSpanAndTheLaterWaits()
    {
        var question = ScheduleQuestion.HouseholdOf(HouseholdText.TwoCars().Good());

        Assert.All(question.Cars, c => Assert.Equal((AsOf, AsOf + Duration.FromDays(7)), (c.Case.Start, c.Case.End)));
        Assert.All(question.Cars, c => Assert.Same(question.Cars[0].Case.Prices, c.Case.Prices));
        Assert.DoesNotContain(question.Cars[0].Case.NoCharging, h => h.Start == AsOf && h.End < AsOf + Duration.FromHours(3));
        Assert.Contains(new Interval(AsOf, Instant.FromUtc(2026, 1, 15, 2, 0)), question.Cars[1].Case.NoCharging);
        Assert.Equal(40, question.SharedCircuitA);
        Assert.All(question.Cars, c => Assert.Contains(new CurrentLimit(new(AsOf, AsOf + Duration.FromDays(7)), 40), c.Case.CurrentLimits));
        Assert.Equal(Duration.FromHours(1), question.House!.Interval);
        Assert.Equal(AsOf - Minutes(30), question.House.Start);
    }

    [Fact]
    public void HouseholdOf_CarbonByHours_IsMoneyPerKwhAndHoldsOn()
    {
        var price = ScheduleQuestion.HouseholdOf(HouseholdText.TwoCars().Good()).CarbonPrice!;

        // 80 a tonne: 400 g are 0.032, 300 g 0.024, 500 g 0.04; equal neighbours are one span.
        Assert.Equal(
            [(AsOf, 0.032m), (AsOf + Minutes(30), 0.024m), (AsOf + Minutes(150), 0.04m)],
            price.Select(p => (p.Start, p.ImportPerKwh)));
    }

    [Fact]
    public void HouseholdOf_NoCharging_IsOnTheDaysNamed()
    {
        var excluded = ScheduleQuestion.HouseholdOf(HouseholdText.TwoCars().Good()).Cars[0].Case.NoCharging;

        // Wednesday 14th from the plug-in at 17:30, Monday 19th, and Wednesday 21st until the end of the horizon at 17:30.
        Assert.Equal(
            [
                new(AsOf, Instant.FromUtc(2026, 1, 15, 3, 0)),
                new(Instant.FromUtc(2026, 1, 19, 23, 0), Instant.FromUtc(2026, 1, 20, 3, 0)),
                new(Instant.FromUtc(2026, 1, 21, 23, 0), AsOf + Duration.FromDays(7)),
            ],
            excluded);
    }

    [Fact]
    public void HorizonEnd_OneCarOnTheRoad_WaitsForItsReturn()
    {
        var text = HouseholdText.TwoCars();
        text.Set("cars/1/calendar/trips/0/departure", "\"2026-01-21T17:00\"");
        text.Set("cars/1/calendar/trips/0/return", "\"2026-01-22T10:00\"");

        Assert.Equal(Instant.FromUtc(2026, 1, 22, 16, 0), text.Good().Span.End);
    }

    [Fact]
    public void OneCar_PreviousAndOutlet_StandInTheOptions()
    {
        var request = RequestText.Schedule()
            .Set("options", """
                { "previous": { "windows": [ { "start": "2026-01-15T01:00", "end": "2026-01-15T02:00" } ], "expectedStateOfCharge": 0.5 },
                  "chargingProfile": { "version": "1.6", "outlet": 3 }, "batteryCare": { "pricePerKwhHour": "0.001" }, "warmUp": { "minutes": 10, "energyKwh": 1 } }
                """)
            .Good();

        Assert.False(request.CarsAreListed);
        Assert.Equal(CarRequest.OnlyName, request.Cars[0].Name);
        Assert.Equal(3, request.Cars[0].Outlet);
        Assert.Equal(0.5, request.Cars[0].Previous!.ExpectedState!.Value.Fraction);
        Assert.Equal(new AgeingPrice(0.001, 0.002), request.Options.Ageing);
        Assert.Equal(5, request.Options.WarmUp!.BelowC);
        Assert.Equal(ChargingRateUnit.Amperes, request.Options.ChargingProfile!.Unit);
        Assert.True(request.Options.Explain);
    }

    private static Duration Minutes(int minutes) => Duration.FromMinutes(minutes);
}
