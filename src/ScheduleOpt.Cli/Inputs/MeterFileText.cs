using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Interchange;
using ScheduleOpt.Interchange.Meters;
using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>Files of meter readings as utilities give them, turned into the fields of a request.</summary>
internal static class MeterFileText
{
    /// <summary>The <c>series</c> of a bill: what the meter delivered.</summary>
    public static JsonObject? Series(RequestDraft draft, string path, string text)
    {
        if (ZoneOf(draft.Root["ratePlan"]) is not { } zone)
        {
            draft.Faults.Add(new Fault(path, "Readings need a rate plan with a time zone: give --rate-plan first."));
            return null;
        }

        if (House(draft, path, text, zone) is not { } house)
        {
            return null;
        }

        var energy = new JsonArray();
        foreach (var unit in house.Series.MicroKilowattHours)
        {
            energy.Add(JsonValue.Create(unit / 1e6m));
        }

        return new JsonObject
        {
            ["start"] = InstantPattern.General.Format(house.Series.Start),
            ["intervalMinutes"] = (int)house.Series.Interval.TotalMinutes,
            ["energyKwh"] = energy,
        };
    }

    /// <summary>The <c>houseLoad</c> of a comparison.</summary>
    public static JsonObject? HouseLoad(RequestDraft draft, string path, string text)
    {
        if (draft.Root["timeZone"] is not JsonValue name
            || !name.TryGetValue<string>(out var id)
            || DateTimeZoneProviders.Tzdb.GetZoneOrNull(id) is not { } zone)
        {
            draft.Faults.Add(new Fault(path, "Readings need the request's timeZone."));
            return null;
        }

        if (House(draft, path, text, zone) is not { } house)
        {
            return null;
        }

        var hours = MeteredHouseLoad.Hourly(house.Series, zone);
        draft.Faults.AddRange(hours.Faults.Select(f => f with { Pointer = path }));
        return hours.IsRead
            ? new JsonObject { ["hourlyKwh"] = new JsonArray([.. hours.Value.Select(kwh => (JsonNode)JsonValue.Create(kwh))]) }
            : null;
    }

    private static MeterChannel? House(RequestDraft draft, string path, string text, DateTimeZone zone)
    {
        var reading = MeterFile.Read(text, new MeterFileOptions { Zone = zone, Missing = MissingIntervals.NeighbouringWeeks });
        draft.Faults.AddRange(reading.Faults.Select(f => f with { Pointer = path + f.Pointer }));
        if (!reading.IsRead)
        {
            return null;
        }

        draft.Notes.AddRange(NotesOf(reading.Value));
        if (reading.Value.House is null)
        {
            draft.Faults.Add(new Fault(path, "Holds nothing that the house took from the network."));
        }

        return reading.Value.House;
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

    private static DateTimeZone? ZoneOf(JsonNode? plan) => plan switch
    {
        JsonValue value when value.TryGetValue<string>(out var id) => RatePlanLibrary.Find(id)?.Zone,
        JsonObject document when document["timeZone"] is JsonValue zone && zone.TryGetValue<string>(out var id) =>
            DateTimeZoneProviders.Tzdb.GetZoneOrNull(id),
        _ => null,
    };
}
