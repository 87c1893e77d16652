using NodaTime;

namespace ScheduleOpt.Tariffs.Tests;

// Reading dates outside the series don't matter, however far outside.
public class ReadingDateTests
{
    public static TheoryData<string> Zones => ["Pacific/Kiritimati", "UTC", "America/Chicago"];

    [Theory]
    [MemberData(nameof(Zones))]
    public void ReadingDates_AtTheEndsOfTheCalendar_AreIgnored(string zone)
    {
        var plan = Plans.Of($"timeZone: {zone}\n" + """
            energyCharges: [ { name: Energy, limitPer: billingPeriod, blocks: [ { upToKwh: 10, pricePerKwh: 0.1 }, { pricePerKwh: 0.2 } ] } ]
            """);
        var start = Plans.Midnight(zone, 2026, 1, 1);
        var use = Plans.Even(start, Duration.FromHours(1), 31 * 24, 31);
        LocalDate inside = new(2026, 1, 11), lastDay = LocalDate.MaxIsoValue, firstDay = LocalDate.MinIsoValue;

        // 10 kWh at 0.10, then 10 at 0.10 and 11 at 0.20.
        var bill = Biller.Bill(plan, use, [lastDay, inside, firstDay]);
        Assert.Equal([1.00m, 3.20m], bill.Periods.Select(p => p.Total));

        var until = start + Duration.FromDays(31);
        var near = PriceScheduleBuilder.Build(plan, start, until, use, readingDates: [inside, new(2026, 1, 1), new(2026, 2, 1)]);
        var far = PriceScheduleBuilder.Build(plan, start, until, use, readingDates: [inside, firstDay, lastDay]);
        Assert.Equal(near.Spans, far.Spans);
    }
}
