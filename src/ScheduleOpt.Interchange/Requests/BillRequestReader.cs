using NodaTime;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the body of <c>POST /v1/bills</c>.</summary>
public static class BillRequestReader
{
    private const int MostReadingDates = 120;

    /// <summary>Reads a request.</summary>
    /// <returns>The request, or every fault with its JSON pointer, what must hold and what was found.</returns>
    public static Reading<BillRequest> Read(JsonText json)
    {
        ArgumentNullException.ThrowIfNull(json);
        var faults = new FaultList();
        var request = Read(new JsonField(json.Root, "#", faults));
        return faults.Count > 0 ? Reading<BillRequest>.Refused(faults.ToList()) : request!;
    }

    /// <summary>Reads the dates at whose start the meter is read.</summary>
    internal static LocalDate[]? Dates(JsonField? field) =>
        field?.Items(1, MostReadingDates, "dates")?.Select(RecurrenceReader.Date).OfType<LocalDate>().ToArray();

    private static BillRequest? Read(JsonField root)
    {
        if (root.Members("ratePlan", "series", "export", "prices", "events", "carriedState", "readingDates") is not { } body)
        {
            return null;
        }

        var warnings = new List<string>();
        var chosen = RatePlanChoice.Read(body.Required("ratePlan"));
        var clock = new DocumentClock(chosen is null ? null : new HouseholdZone(chosen.Plan.Zone), warnings);
        var series = MeteredSeriesReader.Read(body.Required("series"), clock);
        var export = MeteredSeriesReader.ReadExport(body.Optional("export"), clock, series);
        var beside = new BesideThePlans(body, clock, chosen is null ? null : [chosen]);
        var state = CarriedStateReader.Read(body.Optional("carriedState"), clock, chosen?.Plan);
        var dates = Dates(body.Optional("readingDates"));
        if (chosen is not null)
        {
            beside.CheckPrices(chosen, series is null ? null : new Interval(series.Start, series.End), "", warnings);
        }

        if (body.Faults.Count > 0)
        {
            return null;
        }

        warnings.AddRange(chosen!.Warnings);
        if (chosen.ServiceKw is null && chosen.Made.CustomerCharges.Any(c => c.PerServiceKw))
        {
            warnings.Add(FormattableString.Invariant($"{chosen.Plan.Id}: serviceKw is not given; the rate plan's {chosen.Plan.ServiceKw} kW is billed."));
        }

        return new BillRequest
        {
            RatePlan = chosen.Plan,
            Series = series!,
            ReadingDates = dates,
            Input = beside.For(chosen) with { Export = export, State = state },
            HasDocumentLines = chosen.HasLines,
            Warnings = warnings,
        };
    }
}
