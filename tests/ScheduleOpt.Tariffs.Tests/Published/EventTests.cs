using NodaTime;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Tariffs.Tests.Published;

public class EventTests
{
    private const string Rebate = """
        dayTypes:
          - { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }
          - { name: weekend, days: [saturday, sunday] }
        holidays: [ { name: Independence Day, rule: fixedDate, date: 07-04, dayType: weekend, saturdayMovesTo: friday } ]
        events: [ { name: peak time } ]
        energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
        rebates: [ { name: Rebate, event: peak time, pricePerKwh: 1.00, baseline: { days: 10 } } ]
        """;

    // Connexus Energy, "Peak Time Rebate FAQs", undated: $1.00 per kWh below the baseline; baseline 16 kWh, 12 kWh used in the event: $4.00. Never negative (same page).
    [Theory]
    [InlineData(12, "-4.00")]
    [InlineData(17, "0")]
    public void Connexus_BaselineStated_PaysTheDifference(double used, string expected)
    {
        var called = new CalledEvent(new(2026, 7, 14, 15, 0), new(2026, 7, 14, 19, 0), BaselineKwh: 16);
        var use = Plans.WithUse(Instant.FromUtc(2026, 7, 1, 0, 0), 31 * 24, ((13 * 24) + 16, used));

        Assert.Equal(decimal.Parse(expected, null), Bill(use, called).TotalOf(BillPart.Credit));
    }

    // Portland General Electric, "How are Peak Time Rebates calculated": baseline 3.67 (the mean of the 10 latest like days, without holidays and event days), weather
    // adjustment 1.10, use 2.21: 2.56 kWh x 1.00 = 2.56. The days are ours: ten weekdays that average 3.67 among others that must not count.
    [Fact]
    public void PortlandGeneralElectric_MeanOfTenLikeDays_Pays2Dollars56()
    {
        var called = new CalledEvent(new(2026, 7, 17, 17, 0), new(2026, 7, 17, 20, 0), BaselineAdjustmentKwh: 1.10m);
        var earlier = new CalledEvent(new(2026, 7, 8, 17, 0), new(2026, 7, 8, 20, 0), BaselineKwh: 0);
        var use = new List<(int, double)> { (Hour(17), 2.21), (Hour(8), 90), (Hour(3), 80) };
        // Back from 16 July: eight weekdays to 6 July without the 8th, then 2 and 1 July; the 3rd is the holiday's observed Friday.
        int[] days = [16, 15, 14, 13, 10, 9, 7, 6, 2, 1];
        use.AddRange(days.Select((day, i) => (Hour(day), 3.67 + (i % 2 == 0 ? 0.5 : -0.5))));
        use.AddRange(new[] { 4, 5, 11, 12 }.Select(day => (Hour(day), 70.0)));
        var series = Plans.WithUse(Instant.FromUtc(2026, 6, 1, 0, 0), 61 * 24, [.. use]);

        Assert.Equal(-2.56m, Bill(series, called, earlier).TotalOf(BillPart.Credit));

        static int Hour(int july) => ((29 + july) * 24) + 18;
    }

    // Hydro-Quebec, "Rate Flex D billing", effective 1 April 2025, and "Dynamic pricing": the printed winter discounts are 31 % and 18 %. Hours of events leave the tiers
    // and have a price of their own. The bill is ours, worked by hand: January, 31 days x 40 kWh = 1,240 kWh of tier 1; 1,300 kWh outside events, 20 kWh in one.
    [Fact]
    public void HydroQuebecFlexD_JanuaryWithAnEvent_PricesAsPrinted()
    {
        var plan = Plans.Of("""
            timeZone: America/Toronto
            currency: CAD
            seasons:
              - { name: winter, ranges: [ { from: 12-01, to: 03-31 } ] }
              - { name: summer, ranges: [ { from: 04-01, to: 11-30 } ] }
            dayTypes:
              - { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }
              - { name: weekend, days: [saturday, sunday] }
            holidays:
              - { name: Good Friday, rule: easter, offsetDays: -2, dayType: weekend }
              - { name: Easter Monday, rule: easter, offsetDays: 1, dayType: weekend }
            periods: [ordinary, event]
            defaultPeriod: ordinary
            events:
              - name: peak demand event
                period: event
                allowed: { seasons: [winter], dayTypes: [weekday], windows: [ { from: 06:00, to: 09:00 }, { from: 16:00, to: 20:00 } ], notOnHolidays: true, notOn: [12-24, 12-25, 12-26, 12-31, 01-01, 01-02] }
                limits: { hoursPerYear: 100 }
                past: [ { from: 2026-01-15T16:00, to: 2026-01-15T20:00 } ]
            customerCharges: [ { name: System access, amount: 0.46154, per: day } ]
            energyCharges:
              - { name: Winter, seasons: [winter], periods: [ordinary], limitPer: day, blocks: [ { upToKwh: 40, pricePerKwh: 0.04774 }, { pricePerKwh: 0.08699 } ] }
              - { name: Summer, seasons: [summer], periods: [ordinary], limitPer: day, blocks: [ { upToKwh: 40, pricePerKwh: 0.06905 }, { pricePerKwh: 0.10652 } ] }
              - { name: Event, periods: [event], pricePerKwh: 0.45088 }
            """.Replace("currency: CAD\n", ""));
        var series = Plans.WithUse(Plans.Midnight("America/Toronto", 2026, 1, 1), 31 * 24, (0, 1300), ((14 * 24) + 18, 20));

        var bill = Biller.Bill(plan, series);

        Assert.Equal([14.31m, 59.20m, 5.22m, 9.02m], bill.Periods.Single().Lines.Select(l => l.Amount));
        Assert.Empty(bill.Warnings);
        decimal[] winter = [.. plan.EnergyCharges[0].Blocks.Select(b => b.PricePerKwh)], summer = [.. plan.EnergyCharges[1].Blocks.Select(b => b.PricePerKwh)];
        Assert.Equal([31m, 18m], summer.Zip(winter, (s, w) => decimal.Round((s - w) / s * 100)));
        // On an excluded date, at a weekend, outside the windows: said, and billed all the same.
        CalledEvent[] broken = [new(new(2026, 1, 2, 6, 0), new(2026, 1, 2, 9, 0)), new(new(2026, 1, 17, 6, 0), new(2026, 1, 17, 9, 0)), new(new(2026, 1, 19, 8, 0), new(2026, 1, 19, 10, 0))];
        Assert.Equal(3, Biller.Bill(plan, series, input: new() { Events = new Dictionary<string, IReadOnlyList<CalledEvent>> { ["peak demand event"] = broken } }).Warnings.Count);
    }

    private static Bill Bill(MeteredSeries use, params CalledEvent[] called) =>
        Biller.Bill(Plans.Of(Rebate), use, input: new() { Events = new Dictionary<string, IReadOnlyList<CalledEvent>> { ["peak time"] = called } });
}
