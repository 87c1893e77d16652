using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Comparison.LifeCycle;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the <c>incentives</c> of a set-up: each dated, with its source.</summary>
internal static class IncentiveReader
{
    private const int Most = 10;
    private static readonly Limits Amount = new(0, 1_000_000);
    private static readonly Limits Years = new(0, StudyPeriod.MostYears, "years") { Whole = true };

    /// <summary>Reads the incentives; those at fault are left out.</summary>
    public static IReadOnlyList<Incentive> Read(JsonField? field)
    {
        var incentives = new List<Incentive>();
        foreach (var item in field?.Items(0, Most, "incentives") ?? [])
        {
            if (One(item) is { } incentive)
            {
                incentives.Add(incentive);
            }
        }

        return incentives;
    }

    /// <summary>Reads a date.</summary>
    public static LocalDate? Date(JsonField? maybe)
    {
        if (maybe is not { } field)
        {
            return null;
        }

        if (field.Element.ValueKind == JsonValueKind.String
            && LocalDatePattern.Iso.Parse(field.Element.GetString()!) is { Success: true, Value: { Year: >= 1900 and <= 2200 } date })
        {
            return date;
        }

        field.Fault("Must be a date of the years 1900 to 2200, such as 2026-07-01.");
        return null;
    }

    private static Incentive? One(JsonField item)
    {
        if (item.Members("name", "amount", "source", "asOf", "from", "until", "year", "eachYear") is not { } incentive)
        {
            return null;
        }

        var before = item.Faults.Count;
        var name = incentive.Required("name", "Say what the incentive is called.")?.Text(200);
        var amount = incentive.Required("amount", Amount.ToString())?.Exact(Amount);
        var source = incentive.Required("source", "Name the document that grants it, with its address.")?.Text(500);
        var asOf = Date(incentive.Required("asOf", "Say on which date the source was read, such as 2026-07-01."));
        var from = Date(incentive.Optional("from"));
        var until = Date(incentive.Optional("until"));
        if (from > until)
        {
            item.Faults.Add(incentive.Pointer("until"), "Must not lie before from.", LocalDatePattern.Iso.Format(until.Value));
        }

        var year = (int)incentive.Number("year", Years, 0);
        var each = (int?)incentive.Optional("eachYear")?.Number(Years with { Low = 1 });
        return item.Faults.Count > before
            ? null
            : new Incentive
            {
                Name = name!, Amount = amount!.Value, Source = source!, AsOf = asOf!.Value, From = from, Until = until, Year = year, EachYear = each,
            };
    }
}
