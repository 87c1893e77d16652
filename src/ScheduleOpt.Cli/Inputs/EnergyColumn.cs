using System.Globalization;
using System.Text.Json.Nodes;
using ScheduleOpt.Interchange;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>Readings of a meter in a CSV file: the last column of each row is the energy of an interval in kWh.</summary>
/// <param name="Kwh">The values as a request has them.</param>
/// <param name="Lines">The line of each value, from 1.</param>
internal sealed record EnergyColumn(JsonArray Kwh, IReadOnlyList<int> Lines)
{
    private const int MostFaults = 20;

    /// <summary>Reads a series, or says in which lines no number stands; one heading is skipped, and so are lines that begin with <c>#</c>.</summary>
    public static Reading<EnergyColumn> Read(string text, string path)
    {
        var faults = new List<Fault>();
        var values = new JsonArray();
        var lines = new List<int>();
        var (number, rows) = (0, 0);
        foreach (var row in text.TrimStart('\uFEFF').Split('\n'))
        {
            number++;
            var trimmed = row.Trim();
            if (trimmed.Length == 0 || trimmed.StartsWith('#'))
            {
                continue;
            }

            rows++;
            var cell = trimmed[(trimmed.LastIndexOfAny([',', ';', '\t']) + 1)..].Trim(' ', '"');
            if (decimal.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out var kwh))
            {
                values.Add(JsonValue.Create(kwh));
                lines.Add(number);
            }
            else if (rows > 1 && faults.Count < MostFaults)
            {
                faults.Add(new Fault(path, "The last column must be the energy of an interval in kWh, such as 0.412.", cell, number));
            }
        }

        if (faults.Count == 0 && lines.Count == 0)
        {
            faults.Add(new Fault(path, "Holds no value; the last column of each row must be the energy of an interval in kWh."));
        }

        return faults.Count > 0 ? Reading<EnergyColumn>.Refused(faults) : new EnergyColumn(values, lines);
    }
}
