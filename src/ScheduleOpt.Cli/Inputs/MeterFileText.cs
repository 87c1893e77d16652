using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Interchange;
using ScheduleOpt.Interchange.Meters;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>Files of meter readings as utilities give them, turned into the fields of a request.</summary>
internal static class MeterFileText
{
    /// <summary>The <c>series</c> of a bill: what the meter delivered.</summary>
    public static JsonObject? Series(RequestDraft draft, string path, string text)
    {
        if (RatePlanNodes.ZoneOf(draft.Root["ratePlan"]) is not { } zone)
        {
            draft.Faults.Add(new Fault(path, "Readings need a rate plan with a time zone: give --rate-plan first."));
            return null;
        }

        if (Readings(draft, path, text, zone) is not { } readings || House(draft, path, readings) is not { } house)
        {
            return null;
        }

        if (readings.Export is { } export)
        {
            // What the same meter gave to the network belongs to the same bill.
            SetExport(draft, "--meter-file", path, export.Series, house.Series);
        }

        return Json(house.Series);
    }

    /// <summary>Puts what a file says was given to the network beside the series.</summary>
    public static void Export(RequestDraft draft, string option, string path, string text)
    {
        if (RatePlanNodes.ZoneOf(draft.Root["ratePlan"]) is not { } zone)
        {
            draft.Faults.Add(new Fault(path, "Readings need a rate plan with a time zone: give --rate-plan first."));
        }
        else if (Readings(draft, path, text, zone) is { } readings && (readings.Export ?? readings.House) is { } export)
        {
            draft.Set("#/export", Json(export.Series), option, path);
        }
    }

    private static void SetExport(RequestDraft draft, string option, string path, MeteredSeries export, MeteredSeries import)
    {
        if (export.Interval != import.Interval)
        {
            draft.Notes.Add($"{path} also holds what was given to the network, in other intervals: it is left out.");
            return;
        }

        draft.Set("#/export", Json(export), option, path);
        draft.Notes.Add("What was given to the network is billed as export.");
    }

    private static JsonObject Json(MeteredSeries series)
    {
        var energy = new JsonArray();
        foreach (var unit in series.MicroKilowattHours)
        {
            energy.Add(JsonValue.Create(unit / 1e6m));
        }

        return new JsonObject
        {
            ["start"] = InstantPattern.General.Format(series.Start),
            ["intervalMinutes"] = (int)series.Interval.TotalMinutes,
            ["energyKwh"] = energy,
        };
    }

    /// <summary>The <c>houseLoad</c> of a comparison.</summary>
    public static JsonObject? HouseLoad(RequestDraft draft, string path, string text)
    {
        if (ZoneOf(draft, path) is not { } zone || Readings(draft, path, text, zone) is not { } readings || House(draft, path, readings) is not { } house)
        {
            return null;
        }

        var hours = MeteredHouseLoad.Hourly(house.Series, zone);
        draft.Faults.AddRange(hours.Faults.Select(f => f with { Pointer = path }));
        return hours.IsRead
            ? new JsonObject { ["hourlyKwh"] = new JsonArray([.. hours.Value.Select(kwh => (JsonNode)JsonValue.Create(kwh))]), ["source"] = MeterEvidence.Of(house, zone) }
            : null;
    }

    /// <summary>The <c>metered</c> of a panel, without what the file does not say.</summary>
    public static JsonObject? Panel(RequestDraft draft, string path, string text)
    {
        if (ZoneOf(draft, path) is not { } zone)
        {
            return null;
        }

        var reading = MeteredDemand.Read(text, zone);
        draft.Faults.AddRange(reading.Faults.Select(f => f with { Pointer = path + f.Pointer.TrimStart('#') }));
        if (!reading.IsRead)
        {
            return null;
        }

        draft.Notes.AddRange(reading.Value.Notes.Select(n => $"Panel: {n}"));
        return new JsonObject
        {
            ["intervalMinutes"] = (int)reading.Value.Interval.TotalMinutes,
            ["averageKw"] = new JsonArray([.. reading.Value.AverageKw.Select(kw => kw is { } value ? (JsonNode)JsonValue.Create(value) : null)]),
        };
    }

    private static DateTimeZone? ZoneOf(RequestDraft draft, string path)
    {
        if (draft.Root["timeZone"] is JsonValue name && name.TryGetValue<string>(out var id) && DateTimeZoneProviders.Tzdb.GetZoneOrNull(id) is { } zone)
        {
            return zone;
        }

        draft.Faults.Add(new Fault(path, "Readings need the request's timeZone."));
        return null;
    }

    private static MeterReadings? Readings(RequestDraft draft, string path, string text, DateTimeZone zone)
    {
        var reading = MeterFile.Read(text, new MeterFileOptions { Zone = zone, Missing = MissingIntervals.NeighbouringWeeks });
        draft.Faults.AddRange(reading.Faults.Select(f => f with { Pointer = path + f.Pointer }));
        if (!reading.IsRead)
        {
            return null;
        }

        draft.Notes.AddRange(NotesOf(reading.Value));
        return reading.Value;
    }

    private static MeterChannel? House(RequestDraft draft, string path, MeterReadings readings)
    {
        if (readings.House is null)
        {
            draft.Faults.Add(new Fault(path, "Holds nothing that the house took from the network."));
        }

        return readings.House;
    }

    private static IEnumerable<string> NotesOf(MeterReadings readings)
    {
        foreach (var note in readings.Guesses.Select(g => $"Taken to be so: {g}").Concat(readings.Warnings))
        {
            yield return note;
        }

        if (readings.House is { Report: { MissingIntervals: > 0 } report })
        {
            yield return $"{report.MissingIntervals} intervals had no reading. {report.MissingRule}";
        }
    }
}
