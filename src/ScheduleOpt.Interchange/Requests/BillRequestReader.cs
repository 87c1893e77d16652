using NodaTime;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the body of <c>POST /v1/bills</c>.</summary>
public static class BillRequestReader
{
    /// <summary>The most values of a series: two years and a half at a quarter of an hour, or what 1 MiB holds.</summary>
    private const int MostValues = 100_000;

    private const int MostReadingDates = 120;

    // Lists and sums of periods stay small; no meter is billed over more than this at once.
    private static readonly Duration Longest = Duration.FromDays(5 * 366);

    /// <summary>Reads a request.</summary>
    /// <returns>The request, or every fault with its JSON pointer, what must hold and what was found.</returns>
    public static Reading<BillRequest> Read(JsonText json)
    {
        ArgumentNullException.ThrowIfNull(json);
        var faults = new FaultList();
        var request = Read(new JsonField(json.Root, "#", faults));
        return faults.Count > 0 ? Reading<BillRequest>.Refused(faults.ToList()) : request!;
    }

    private static BillRequest? Read(JsonField root)
    {
        if (root.Members("ratePlan", "series", "readingDates") is not { } body)
        {
            return null;
        }

        var warnings = new List<string>();
        var plan = RatePlanChoice.Read(body.Required("ratePlan"));
        var clock = new DocumentClock(plan is null ? null : new HouseholdZone(plan.Zone), warnings);
        var series = Series(body.Required("series"), clock);
        var dates = body.Optional("readingDates")?.Items(1, MostReadingDates, "dates")?
            .Select(RecurrenceReader.Date).OfType<LocalDate>().ToArray();
        return body.Faults.Count > 0 ? null : new BillRequest(plan!, series!, dates, warnings);
    }

    private static MeteredSeries? Series(JsonField? field, DocumentClock clock)
    {
        if (field?.Members("start", "intervalMinutes", "energyKwh") is not { } series)
        {
            return null;
        }

        var start = clock.Read(series.Required("start"), DocumentClock.Use.Departure);
        var minutes = series.Number("intervalMinutes", new(1, 1440, "min") { Whole = true });
        var energy = series.Required("energyKwh")?.Numbers(1, MostValues, new(0, 10_000, "kWh"));
        if (start is not { } first || minutes is not { } length || energy is null)
        {
            return null;
        }

        var interval = Duration.FromMinutes((long)length);
        if (interval * energy.Length > Longest)
        {
            series.Faults.Add(series.Pointer("energyKwh"), $"May cover at most {Longest.Days} days.", $"{energy.Length} x {length} min");
            return null;
        }

        return MeteredSeries.FromKilowattHours(first.Instant, interval, energy);
    }
}
