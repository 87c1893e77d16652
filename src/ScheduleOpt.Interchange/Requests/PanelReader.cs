using NodaTime;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Homes.Panels;
using ScheduleOpt.Interchange.Meters;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the <c>panel</c> of a comparison: metered demand or a load list.</summary>
internal static class PanelReader
{
    // A year of 5-minute averages.
    private const int MostValues = 366 * 288, MostLoads = 60;

    private static readonly Limits Kilowatts = new(-1000, 1000, "kW");

    private static readonly (string, int)[] Intervals = [("1", 1), ("5", 5), ("15", 15), ("30", 30), ("60", 60)];

    private static readonly (string, PanelLoadKind)[] Kinds =
    [
        ("general", PanelLoadKind.General), ("appliance", PanelLoadKind.Appliance), ("newHeatingOrCooling", PanelLoadKind.NewHeatingOrCooling),
    ];

    /// <summary>Reads what is known of the panel.</summary>
    public static PanelQuestion? Read(JsonField? field, DocumentClock clock, List<string> warnings)
    {
        if (field?.Members("serviceA", "metered", "loads") is not { } panel)
        {
            return null;
        }

        var before = panel.Faults.Count;
        var service = panel.Number("serviceA", new(30, 1000, "A"));
        var choice = panel.ExactlyOne("metered", "loads");
        var metered = panel.Has("metered") ? Metered(choice, clock, warnings) : null;
        var loads = panel.Has("loads") ? Loads(choice) : null;
        return panel.Faults.Count > before ? null : new PanelQuestion(new ElectricalService(service!.Value), metered, loads);
    }

    private static DemandRecord? Metered(JsonField? field, DocumentClock clock, List<string> warnings)
    {
        if (field?.Members(
            "intervalMinutes", "averageKw", "meterFile", "generation", "storage", "peakLimiting", "powerFactor", "shortRecord") is not { } metered)
        {
            return null;
        }

        var before = metered.Faults.Count;
        var form = metered.ExactlyOne("averageKw", "meterFile");
        var file = metered.Has("meterFile") ? OfFile(form, clock, warnings) : null;
        if (metered.Has("meterFile") && metered.Optional("intervalMinutes") is { } needless)
        {
            needless.Fault("The file says how long its intervals are: leave this out.");
        }

        var minutes = metered.Has("averageKw") ? Minutes(metered.Required("intervalMinutes", "Must be 1, 5, 15, 30 or 60 min.")) : (int?)file?.Interval.TotalMinutes;
        var values = metered.Has("averageKw") ? Values(form) : file?.AverageKw;
        var generation = metered.Required("generation", "Say whether solar, wind or other generation is behind the meter.")?.Flag();
        if (file is { ShowsExport: true } && generation == false)
        {
            metered.Optional("generation")!.Value.Fault("Must be true: the file holds energy given to the network.");
        }

        var storage = metered.Required("storage", "Say whether a battery or other storage is behind the meter.")?.Flag();
        var limiting = metered.Required("peakLimiting", "Say whether anything limits peaks behind the meter.")?.Flag();
        var factor = metered.Number("powerFactor", new(0.8, 1), 1);
        var shortRecord = Short(metered.Optional("shortRecord"));

        // A file is not read without the zone, whose fault is not one of the panel.
        return metered.Faults.Count > before || minutes is null || values is null
            ? null
            : new DemandRecord
            {
                Interval = Duration.FromMinutes(minutes.Value),
                AverageKw = values,
                HasGeneration = generation!.Value,
                HasStorage = storage!.Value,
                HasPeakLimiting = limiting!.Value,
                PowerFactor = factor,
                Short = shortRecord,
            };
    }

    private static MeteredDemand? OfFile(JsonField? field, DocumentClock clock, List<string> warnings)
    {
        if (field?.Members("text")?.Required("text", "Give the file's text.") is not { } text || text.Text(JsonText.MostBytes) is not { } content || clock.Zone is not { } zone)
        {
            return null;
        }

        var reading = MeteredDemand.Read(content, zone.Zone);
        text.Faults.AddAll(reading.Faults.Select(f => f with { Pointer = text.Pointer, Rule = f.Pointer is "" or "#" ? f.Rule : $"{f.Pointer}: {f.Rule}" }));
        warnings.AddRange(reading.IsRead ? reading.Value.Notes.Select(n => $"Panel: {n}") : []);
        return reading.IsRead ? reading.Value : null;
    }

    private static int? Minutes(JsonField? maybe)
    {
        if (maybe is not { } field)
        {
            return null;
        }

        var text = field.Element.ValueKind == System.Text.Json.JsonValueKind.Number ? field.Element.GetRawText() : "";
        foreach (var (name, minutes) in Intervals)
        {
            if (name == text)
            {
                return minutes;
            }
        }

        field.Fault("Must be 1, 5, 15, 30 or 60 min.");
        return null;
    }

    private static double?[]? Values(JsonField? field)
    {
        if (field?.Items(1, MostValues, "numbers or null") is not { } items)
        {
            return null;
        }

        var values = new double?[items.Count];
        for (var i = 0; i < values.Length; i++)
        {
            values[i] = items[i].Element.ValueKind == System.Text.Json.JsonValueKind.Null ? null : items[i].Number(Kilowatts);
        }

        return values;
    }

    private static ShortRecord? Short(JsonField? field)
    {
        if (field?.Members("occupied", "highestLoadedLeg", "seasonalKva") is not { } conditions)
        {
            return null;
        }

        var occupied = conditions.Required("occupied", "Say whether the dwelling was occupied throughout.")?.Flag();
        var leg = conditions.Required("highestLoadedLeg", "Say whether the highest loaded leg, or the whole service, was recorded.")?.Flag();
        var seasonal = conditions.Optional("seasonalKva")?.Number(new(0, 1000, "kVA"));
        return occupied is null || leg is null ? null : new ShortRecord(occupied.Value, leg.Value, seasonal);
    }

    private static List<PanelLoad>? Loads(JsonField? field)
    {
        if (field?.Items(1, MostLoads, "loads") is not { } items)
        {
            return null;
        }

        var loads = new List<PanelLoad>();
        foreach (var item in items)
        {
            if (item.Members("name", "kva", "kind") is not { } load)
            {
                continue;
            }

            var name = load.Required("name", "Say what the load is.")?.Text(100);
            var kva = load.Number("kva", new(0, 100, "kVA"));
            var kind = load.Required("kind", "Must be one of \"general\", \"appliance\", \"newHeatingOrCooling\".")?.Word(Kinds);
            if (name is not null && kva is not null && kind is not null)
            {
                loads.Add(new PanelLoad(name, kva.Value, kind.Value));
            }
        }

        return loads;
    }
}
