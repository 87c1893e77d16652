using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>Reads what an entry holds, except its readings.</summary>
internal sealed class PayloadReader(EspiCursor cursor, ReadingNotes notes, string pointer)
{
    private const long Int48 = 1L << 47;
    private const int IsVehicle = 1 << 3, IsGeneration = 1 << 4;

    /// <summary>Seconds within which times must lie: the years 1900 to 2200.</summary>
    internal static readonly long Earliest = Tariffs.MeteredSeries.Earliest.ToUnixTimeSeconds(), Latest = Tariffs.MeteredSeries.Latest.ToUnixTimeSeconds();

    private static readonly Dictionary<int, string> Currencies = new()
    {
        [36] = "AUD", [124] = "CAD", [392] = "JPY", [554] = "NZD", [756] = "CHF", [826] = "GBP", [840] = "USD", [978] = "EUR",
    };

    public long Updated() => OffsetDateTimePattern.ExtendedIso.Parse(cursor.Text()) is { Success: true } at
        ? at.Value.ToInstant().ToUnixTimeTicks() : long.MinValue;

    public UsagePoint UsagePoint()
    {
        long? service = null;
        var roles = 0;
        cursor.Children(name =>
        {
            switch (name)
            {
                case "ServiceCategory":
                    cursor.Children(inner => service = inner == "kind" ? cursor.Whole(pointer, 0, 255) : service);
                    break;
                case "roleFlags":
                    _ = int.TryParse(cursor.Text(), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out roles);
                    break;
            }
        });
        return new((int?)service, (roles & IsVehicle) != 0, (roles & IsGeneration) != 0);
    }

    public ReadingType ReadingType()
    {
        var type = new ReadingType { Pointer = pointer };
        cursor.Children(name => type = name switch
        {
            "uom" => type with { Unit = Code(0, 1000) },
            "powerOfTenMultiplier" => type with { PowerOfTen = Code(-12, 12) ?? 0 },
            "accumulationBehaviour" => type with { Accumulation = Code(0, 1000) },
            "flowDirection" => type with { Flow = Code(0, 1000) },
            "commodity" => type with { Commodity = Code(0, 1000) },
            "intervalLength" => type with { IntervalLength = Code(0, 400 * 86_400) },
            "currency" => type with { Currency = Code(0, 999) },
            "tou" or "cpp" or "consumptionTier" => type with { HasBucket = type.HasBucket || Code(-32_768, 32_767) is not (0 or null) },
            _ => type,
        });
        return type;
    }

    public LocalTimeParameters? Clock()
    {
        int? standard = null;
        var saving = 0;
        DstRule? begins = null, ends = null;
        cursor.Children(name =>
        {
            switch (name)
            {
                case "tzOffset":
                    standard = Code(-18 * 3600, 18 * 3600);
                    break;
                case "dstOffset":
                    saving = Code(-6 * 3600, 6 * 3600) ?? 0;
                    break;
                case "dstStartRule":
                    begins = Rule();
                    break;
                case "dstEndRule":
                    ends = Rule();
                    break;
            }
        });
        return standard is { } offset ? new(offset, saving, begins, ends) : null;
    }

    public BillSummary Summary()
    {
        long? start = null, duration = null, amount = null, currency = null;
        decimal? kwh = null;
        var ratePlan = "";
        cursor.Children(name =>
        {
            switch (name)
            {
                case "billingPeriod":
                    (start, duration) = Period(cursor, pointer);
                    break;
                case "billLastPeriod":
                    amount = cursor.Whole(pointer, -Int48, Int48);
                    break;
                case "currency":
                    currency = cursor.Whole(pointer, 0, 999);
                    break;
                case "overallConsumptionLastPeriod":
                    kwh = Energy();
                    break;
                case "tariffProfile":
                    ratePlan = Calendars.Shortened.Text(cursor.Text(), 100);
                    break;
            }
        });
        return new(
            start is { } s ? Instant.FromUnixTimeSeconds(s) : null,
            start + duration is { } e ? Instant.FromUnixTimeSeconds(e) : null,
            amount / 100_000m,
            CurrencyCode((int?)currency),
            kwh,
            ratePlan);
    }

    /// <summary>ISO 4217 letters of a numeric code; empty where it is not one we know.</summary>
    public static string CurrencyCode(int? number) => number is { } n ? Currencies.GetValueOrDefault(n, "") : "";

    /// <summary>Start and length of the span that the cursor is on.</summary>
    public static (long? Start, long? Duration) Period(EspiCursor cursor, string pointer)
    {
        long? start = null, duration = null;
        cursor.Children(name =>
        {
            switch (name)
            {
                case "start":
                    start = cursor.Whole(pointer, Earliest, Latest - (400 * 86_400));
                    break;
                case "duration":
                    duration = cursor.Whole(pointer, 0, 400 * 86_400);
                    break;
            }
        });
        return (start, duration);
    }

    private decimal? Energy()
    {
        long? value = null, unit = null;
        long power = 0;
        cursor.Children(name =>
        {
            switch (name)
            {
                case "value":
                    value = cursor.Whole(pointer, -Int48, Int48);
                    break;
                case "uom":
                    unit = cursor.Whole(pointer, 0, 1000);
                    break;
                case "powerOfTenMultiplier":
                    power = cursor.Whole(pointer, -12, 12) ?? 0;
                    break;
            }
        });
        return unit == GreenButton.ReadingType.WattHours && value is { } v ? EnergyScale.KilowattHours(v, (int)power) : null;
    }

    private int? Code(int least, int most) => (int?)cursor.Whole(pointer, least, most);

    private DstRule? Rule()
    {
        var (name, line) = (cursor.Name, cursor.Line);
        var text = cursor.Text();
        if (!DstRule.TryParse(text, out var rule))
        {
            notes.Fault($"{pointer}/{name}", "It must be a daylight-saving rule of eight hexadecimal digits, such as 360E2000.", text, line);
        }

        return rule;
    }
}
