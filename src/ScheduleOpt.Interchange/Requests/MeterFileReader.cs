using ScheduleOpt.Interchange.Meters;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads a file of meter readings that a request carries as text.</summary>
internal static class MeterFileReader
{
    private static readonly (string, MissingIntervals)[] Words =
    [
        ("refuse", MissingIntervals.Refuse), ("zero", MissingIntervals.Zero), ("neighbouringWeeks", MissingIntervals.NeighbouringWeeks),
    ];

    /// <summary>What the house took, hour by hour of a common year. [kWh at the meter]</summary>
    public static double[]? HouseLoad(JsonField field, DocumentClock clock, List<string> warnings)
    {
        if (field.Members("text", "missing") is not { } file || clock.Zone is not { } zone)
        {
            return null;
        }

        var missing = file.Optional("missing") is { } rule ? rule.Word(Words) : MissingIntervals.Refuse;
        if (file.Required("text") is not { } text || text.Text(JsonText.MostBytes) is not { } content || missing is not { } chosen)
        {
            return null;
        }

        var reading = MeterFile.Read(content, new MeterFileOptions { Zone = zone.Zone, Missing = chosen });
        if (!reading.IsRead)
        {
            field.Faults.AddAll(reading.Faults.Select(f => f with { Pointer = text.Pointer, Rule = $"{f.Pointer}: {f.Rule}" }));
            return null;
        }

        if (reading.Value.House is not { } house)
        {
            text.Fault("Must hold what the house took from the network.");
            return null;
        }

        var hours = MeteredHouseLoad.Hourly(house.Series, zone.Zone);
        field.Faults.AddAll(hours.Faults.Select(f => f with { Pointer = text.Pointer }));
        if (!hours.IsRead)
        {
            return null;
        }

        warnings.Add($"House load: {MeterEvidence.Of(house, zone.Zone)}.");
        warnings.AddRange(reading.Value.Guesses.Concat(reading.Value.Warnings).Select(w => $"House load: {w}"));
        if (house.Report.MissingRule.Length > 0)
        {
            warnings.Add($"House load: {house.Report.MissingRule}");
        }

        return hours.Value;
    }
}
