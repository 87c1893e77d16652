using System.Globalization;
using System.Text.Json.Nodes;
using ScheduleOpt.Interchange;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>The options of <c>bill</c> that stand for fields of its request.</summary>
internal sealed class BillSettings : HouseholdSettings
{
    private const string Values = "#/series/energyKwh/";
    private string path = "";
    private bool isPlainColumn;
    private IReadOnlyList<int> lines = [];

    public BillSettings(TextReader standardInput)
        : base(standardInput)
    {
        AddRatePlan("--rate-plan");
        AddFile("--series", "Readings: a CSV file whose last column is the energy of an interval in kWh.", "#/series/energyKwh", (draft, file, text) =>
        {
            var readings = EnergyColumn.Read(text, file);
            draft.Faults.AddRange(readings.Faults);
            if (!readings.IsRead)
            {
                return null;
            }

            (path, lines, isPlainColumn) = (file, readings.Value.Lines, true);
            return readings.Value.Kwh;
        });
        AddFile(
            "--meter-file",
            "Readings as the utility gives them: Green Button XML, or a table (CSV) with times; needs no --start. Gaps take the mean of neighbouring weeks.",
            "#/series",
            MeterFileText.Series);
        AddText("--start", "TIME", "When the first interval begins, by the rate plan's clock, such as 2026-01-01T00:00.", "#/series/start");
        AddNumber("--interval-minutes", "Length of each interval. [min]", "#/series/intervalMinutes");
        Add("--export-file", "FILE", "What was given to the network: a file of the same kind as that of --series or --meter-file.", ["#/export"], (draft, file) =>
        {
            if (Text(draft, "--export-file", file) is { } text)
            {
                WriteExport(draft, Shown(file), text);
            }
        });
        AddReadingDates();
        AddHousehold();
        AddState();
    }

    // A column without times stands beside that of --series, value by value.
    private void WriteExport(RequestDraft draft, string file, string text)
    {
        if (!isPlainColumn)
        {
            MeterFileText.Export(draft, "--export-file", file, text);
            return;
        }

        var readings = EnergyColumn.Read(text, file);
        draft.Faults.AddRange(readings.Faults);
        if (readings.IsRead && draft.Root["series"] is JsonObject series)
        {
            draft.Set(
                "#/export",
                new JsonObject
                {
                    ["start"] = series["start"]?.DeepClone(),
                    ["intervalMinutes"] = series["intervalMinutes"]?.DeepClone(),
                    ["energyKwh"] = readings.Value.Kwh,
                },
                "--export-file",
                file);
        }
    }

    /// <summary>A fault of one value as a fault of the line that it stands in.</summary>
    public Fault InFile(Fault fault)
    {
        var at = fault.Pointer.IndexOf(Values, StringComparison.Ordinal);
        return at >= 0
            && int.TryParse(fault.Pointer[(at + Values.Length)..].TrimEnd(')'), NumberStyles.None, CultureInfo.InvariantCulture, out var i)
            && i < lines.Count
            ? fault with { Pointer = path, Line = lines[i] }
            : fault;
    }
}
