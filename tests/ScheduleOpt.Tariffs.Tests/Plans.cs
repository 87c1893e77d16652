using NodaTime;
using ScheduleOpt.Interchange;
using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Tariffs.Tests;

/// <summary>Plans and series for tests. Plans are written as documents: a published tariff is easier to check against its page that way.</summary>
internal static class Plans
{
    /// <summary>The fields that every document needs and most tests don't care about.</summary>
    public const string Head = """
        name: Test
        utility: Test
        source: Test
        currency: USD
        effective: { from: 2000-01-01 }
        metering: wholeHouse

        """;

    /// <summary>Reads a plan; what is left out is filled in: UTC, no fixed charges, cents per line half up, no proration.</summary>
    public static RatePlan Of(string body) => Read(body).Value;

    /// <summary>What the document contradicts itself in: place, rule and what was found, as <see cref="RatePlanCheck"/> names them.</summary>
    public static IReadOnlyList<(string Path, string Rule, string Found)> Faults(string body) =>
        [.. Read(body).Faults.Select(f => (f.Pointer[1..], f.Rule, f.Value))];

    private static Reading<RatePlan> Read(string body)
    {
        var text = Head + body + "\n";
        text += body.Contains("timeZone:") ? "" : "timeZone: UTC\n";
        text += body.Contains("customerCharges:") ? "" : "customerCharges: []\n";
        text += body.Contains("rounding:") ? "" : "rounding: { each: line, mode: halfUp }\n";
        text += body.Contains("proration:") ? "" : "proration: { month: none }\n";
        return RatePlanDocument.Read(text, "test");
    }

    /// <summary>The same use in each interval.</summary>
    public static MeteredSeries Even(Instant start, Duration interval, int count, double totalKwh)
    {
        var kwh = new double[count];
        Array.Fill(kwh, totalKwh / count);
        return MeteredSeries.FromKilowattHours(start, interval, kwh);
    }

    /// <summary>All the use in the first hour of January 2026 (UTC), the rest of the month without use.</summary>
    public static MeteredSeries OneMonth(double kwh) => WithUse(NodaTime.Instant.FromUtc(2026, 1, 1, 0, 0), 31 * 24, (0, kwh));

    /// <summary>Hours without use, apart from some.</summary>
    public static MeteredSeries WithUse(Instant start, int hours, params (int Hour, double Kwh)[] use)
    {
        var kwh = new double[hours];
        foreach (var (hour, energy) in use)
        {
            kwh[hour] = energy;
        }

        return MeteredSeries.FromKilowattHours(start, Duration.FromHours(1), kwh);
    }

    /// <summary>Whatever a sample plan needs beside it for a series: prices from 2 to 32 cents, by the hour.</summary>
    public static BillInput InputFor(MeteredSeries series, MeteredSeries? export = null)
    {
        var from = Instant.FromUnixTimeSeconds(series.Start.ToUnixTimeSeconds() / 3600 * 3600) - Duration.FromDays(40);
        var hours = (int)(series.End - from).TotalHours + (24 * 70);
        var prices = new PriceSeries(from, Duration.FromHours(1), [.. Enumerable.Range(0, hours).Select(h => (decimal?)(0.02m + (h * 7 % 31 * 0.01m)))]);
        return new() { Export = export, Prices = new Dictionary<string, PriceSeries> { ["day-ahead"] = prices, ["real-time"] = prices } };
    }

    /// <summary>Midnight of a date in a zone.</summary>
    public static Instant Midnight(string zone, int year, int month, int day) =>
        DateTimeZoneProviders.Tzdb[zone].AtStartOfDay(new LocalDate(year, month, day)).ToInstant();
}
