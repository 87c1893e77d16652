using NodaTime;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Tariffs.Tests;

// Europe/Berlin skips 02:00 to 03:00 on 29 March 2026, and repeats that hour on 25 October.
public class EventClockTests
{
    // 1 kWh an hour. From 02:30 to 03:30 only 03:00 to 03:30 exists; in October the first 02:30 begins it, so that it lasts two hours.
    [Theory]
    [InlineData(3, 29, 2, 30, 3, 30, "-1.50")]
    [InlineData(3, 29, 1, 30, 2, 30, "-1.50")]
    [InlineData(3, 29, 1, 30, 3, 30, "-1.00")]
    [InlineData(10, 25, 2, 30, 3, 30, "0")]
    public void Event_TimeThatTheClockSkips_IsTheEndOfTheGap(int month, int day, int fromHour, int fromMinute, int toHour, int toMinute, string rebate)
    {
        var plan = Plans.Of("""
            timeZone: Europe/Berlin
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            events: [ { name: saving } ]
            rebates: [ { name: Rebate, event: saving, pricePerKwh: 1, baseline: { days: 3 } } ]
            """);
        var called = new CalledEvent(new(2026, month, day, fromHour, fromMinute), new(2026, month, day, toHour, toMinute), BaselineKwh: 2);
        var input = new BillInput { Events = new Dictionary<string, IReadOnlyList<CalledEvent>> { ["saving"] = [called] } };
        var use = Plans.Even(Plans.Midnight("Europe/Berlin", 2026, month, 1), Duration.FromHours(1), 28 * 24 + 48, 28 * 24 + 48);

        Assert.Equal(decimal.Parse(rebate, null), Biller.Bill(plan, use).Total + Biller.Bill(plan, use, input: input).Total);
    }
}
