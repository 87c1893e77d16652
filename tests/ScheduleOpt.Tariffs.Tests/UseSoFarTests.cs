using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Tariffs.Tests;

/// <summary>What counts towards a minimum bill in mid-month, and which averages of demand are under way: held against the biller over the whole billing period.</summary>
public class UseSoFarTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 1, 1, 0, 0);
    private static readonly Instant Now = Instant.FromUtc(2026, 1, 16, 0, 0);

    // A car takes so much more in one hour of the 17th: the bill rises by its energy less what the minimum was short of. 15 days with 150 kWh, 16 days with 0.5 kWh an hour.
    [Theory]
    [InlineData("energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]")]
    [InlineData("energyCharges: [ { name: Energy, limitPer: month, blocks: [ { upToKwh: 200, pricePerKwh: 0.10 }, { pricePerKwh: 0.12 } ] } ]")]
    [InlineData("periods: [day, night]\nwindows: [ { period: day, from: 08:00, to: 24:00 } ]\ndefaultPeriod: night\nenergyCharges: [ { name: Day, periods: [day], pricePerKwh: 0.05 }, { name: Night, periods: [night], pricePerKwh: 0.15 } ]")]
    [InlineData("energyCharges: [ { name: Energy, pricePerKwh: 0.05 } ]\nadjustments: [ { name: Fuel, pricePerKwh: 0.03 } ]\ncredits: [ { name: Credit, amount: 0.01, per: kwh } ]")]
    [InlineData("energyCharges: [ { name: Energy, pricePerKwh: 0.05 } ]\ndemandCharges: [ { name: Demand, pricePerKw: 5, averagingMinutes: 60, minimumKw: 60 } ]")]
    public void MinimumBill_InMidMonth_IsShortOfWhatTheBillIs(string charges)
    {
        var plan = Plans.Of(charges + "\nminimumBill: { amount: 60, per: billingPeriod, counts: [energyCharge, adjustment, credit, demandCharge] }") with
        {
            Rounding = ScheduleOpt.Tariffs.Charges.Rounding.None,
        };
        var month = MeteredSeries.FromKilowattHours(Start, Duration.FromHours(1), [.. Enumerable.Range(0, 31 * 24).Select(h => h < 15 * 24 ? 150 / 360.0 : 0.5)]);
        var expected = Plans.Even(Now, Duration.FromHours(1), 16 * 24, 192);
        var prices = PriceScheduleBuilder.Build(plan, Now, Now + Duration.FromDays(7), expected, Energy.FromKilowattHours(150));
        var minimum = prices.Terms.OfType<MinimumTerm>().Single();
        var bill = Biller.Bill(plan, month).Total;
        foreach (var kwh in new[] { 1, 10, 40, 59 })
        {
            var hour = (16 * 24) + 9;
            var rise = Biller.Bill(plan, month.Plus(Plans.WithUse(Start, 31 * 24, (hour, kwh)))).Total - bill;
            var energy = kwh * prices.At(Start + Duration.FromHours(hour)).ImportPerKwh;
            var short0 = minimum.Minimum - minimum.Counted;
            Assert.Equal(rise, energy + Math.Max(0, short0 - energy) - Math.Max(0, short0), 6);
        }
    }

    // Hours of the charge from 17:00; prices from 17:20. The half hour of 17:00 is under way and counts; from 17:10 on it does not.
    [Theory]
    [InlineData("17:00", "17:00")]
    [InlineData("17:10", "17:10")]
    [InlineData("12:00", "16:50")]
    public void DemandHours_AreToldFromOneAverageBefore(string from, string told)
    {
        var plan = Plans.Of($$"""
            energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]
            calendars: [ { name: demand, periods: [peak, rest], windows: [ { period: peak, from: {{from}}, to: 21:00 } ], defaultPeriod: rest } ]
            demandCharges: [ { name: Demand, calendar: demand, periods: [peak], pricePerKw: 10, averagingMinutes: 30 } ]
            """);
        var at = Instant.FromUtc(2026, 1, 16, 17, 20);
        var term = PriceScheduleBuilder.Build(plan, at, at + Duration.FromDays(1)).Terms.OfType<DemandTerm>().Single();
        Assert.Equal(told, term.Hours[0].Start.ToString("HH:mm", null));
    }

    // 9 kW were metered on the 5th: a car that makes a peak of 7 or 9 kW pays energy alone, one of 12 kW also 3 kW at 5.00; and of the minimum of 64.20 the 45 of the peak so far are there.
    [Theory]
    [InlineData(6.5)]
    [InlineData(8.5)]
    [InlineData(11.5)]
    public void DemandSoFar_InMidMonth_CostsWhatTheBillRises(double kwh)
    {
        const string Charges = "energyCharges: [ { name: Energy, pricePerKwh: 0.05 } ]\ndemandCharges: [ { name: Demand, pricePerKw: 5, averagingMinutes: 60 } ]\n";
        var plan = Plans.Of(Charges + "minimumBill: { amount: 64.20, per: billingPeriod, counts: [energyCharge, demandCharge] }") with
        {
            Rounding = ScheduleOpt.Tariffs.Charges.Rounding.None,
        };
        var month = Plans.Even(Start, Duration.FromHours(1), 31 * 24, 31 * 12).Plus(Plans.WithUse(Start, 31 * 24, (100, 8.5)));
        var expected = Plans.Even(Now, Duration.FromHours(1), 16 * 24, 192);
        var prices = PriceScheduleBuilder.Build(
            plan, Now, Now + Duration.FromDays(7), expected, Energy.FromKilowattHours(188.5), demandSoFarKw: new Dictionary<string, decimal> { ["Demand"] = 9 });
        var (demand, minimum) = (prices.Terms.OfType<DemandTerm>().Single(), prices.Terms.OfType<MinimumTerm>().Single());
        var hour = (16 * 24) + 9;
        var rise = Biller.Bill(plan, month.Plus(Plans.WithUse(Start, 31 * 24, (hour, kwh)))).Total - Biller.Bill(plan, month).Total;

        var short0 = Math.Max(0, minimum.Minimum - minimum.Counted);
        var extra = ((decimal)kwh * 0.05m) + (5 * Math.Max(0, (decimal)kwh + 0.5m - Math.Max(demand.MeasuredKw, demand.FloorKw)));
        Assert.Equal(9, demand.MeasuredKw);
        Assert.Equal(rise, Math.Max(0, extra - short0), 6);
    }
}
