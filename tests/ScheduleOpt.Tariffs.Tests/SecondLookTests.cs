using NodaTime;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Tests;

// The year 2026 on the plan with three seasons once more, interval by interval and with nothing of the engine: local clock, a list of the observed holidays
// written down by hand, and the prices of the document as they stand there.
public class SecondLookTests
{
    private static readonly DateTimeZone Zone = DateTimeZoneProviders.Tzdb["America/Chicago"];

    // 4 July 2026 is a Saturday and stays there.
    private static readonly LocalDate[] Holidays =
    [
        new(2026, 1, 1), new(2026, 5, 25), new(2026, 7, 4), new(2026, 9, 7), new(2026, 11, 26), new(2026, 11, 27), new(2026, 12, 25),
    ];

    [Theory]
    [InlineData(15, 1)]
    [InlineData(30, 2)]
    public void Year2026_ThreeSeasons_EngineAndSecondLookAgreeToTheLastDigit(int minutes, int seed)
    {
        var start = Plans.Midnight("America/Chicago", 2026, 1, 1);
        var count = 365 * 24 * 60 / minutes;
        var random = new Random(seed);
        // Whole thousandths of a kWh: exact on both sides.
        var wattHours = Enumerable.Range(0, count).Select(_ => random.Next(3000)).ToArray();
        var series = MeteredSeries.FromKilowattHours(start, Duration.FromMinutes(minutes), [.. wattHours.Select(w => w / 1000.0)]);
        var plan = RatePlanLibrary.Find("example-power-three-seasons")! with { Rounding = Rounding.None };

        decimal expected = 12 * 15.00m;
        for (var i = 0; i < count; i++)
        {
            var local = (start + Duration.FromMinutes(i * minutes)).InZone(Zone).LocalDateTime;
            expected += wattHours[i] / 1000m * (Price(local) + 0.0045m);
        }

        Assert.Equal(expected * 1.025m, Biller.Bill(plan, series).Total);
    }

    private static decimal Price(LocalDateTime local)
    {
        var time = (local.Hour * 100) + local.Minute;
        if (time is >= 2300 or < 600)
        {
            return 0.0660m;
        }

        var day = (local.Month * 100) + local.Day;
        var working = local.DayOfWeek <= IsoDayOfWeek.Friday && !Holidays.Contains(local.Date);
        if (day is >= 601 and <= 915)
        {
            return working && time is >= 1400 and < 1930 ? 0.2950m : 0.1240m;
        }

        if (day is >= 1115 or <= 315)
        {
            return working && time is ((>= 600 and < 1000) or (>= 1700 and < 2100)) ? 0.2100m : 0.1160m;
        }

        return 0.1080m;
    }
}
