using System.Text.Json;
using NodaTime.Text;
using ScheduleOpt.Comparison.Winters;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Writes a comparison over several weather years, and what its winter does not show.</summary>
internal static class WintersWriter
{
    private const int KwhDigits = 3, ShareDigits = 5;

    /// <summary>Writes it; nothing where it was not asked for.</summary>
    public static void Write(Utf8JsonWriter json, WintersResult? winters, string currency)
    {
        if (winters is null)
        {
            return;
        }

        json.WriteStartObject("winters");
        json.WriteStartArray("weather");
        foreach (var source in winters.Weather)
        {
            json.WriteStartObject();
            json.WriteString("source", source.Source);
            json.WriteBoolean("isTypical", source.IsTypical);
            WriteWeek(json, source.ColdestWeek);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        WriteWeek(json, winters.ColdestWeek);
        json.WriteNumber("coldestYear", winters.ColdestYear);
        if (winters.Stress is { } stress)
        {
            json.WriteString("stress", stress);
        }

        json.WriteStartArray("cells");
        foreach (var cell in winters.Cells)
        {
            WriteCell(json, cell, currency);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>Writes the coldest week.</summary>
    public static void WriteWeek(Utf8JsonWriter json, ColdestWeek week)
    {
        json.WriteStartObject("coldestWeek");
        json.WriteString("first", LocalDatePattern.Iso.Format(week.First));
        json.WriteRounded("meanC", week.MeanC, 2);
        json.WriteString("wording", week.Wording);
        json.WriteEndObject();
    }

    private static void WriteCell(Utf8JsonWriter json, WinterCell cell, string currency)
    {
        json.WriteStartObject();
        json.WriteString("setUp", cell.Name.SetUp);
        json.WriteString("ratePlan", cell.Name.RatePlan);
        json.WriteString("behaviour", cell.Name.Behaviour);
        WriteMoney(json, "wholeHouseCost", cell.WholeHouseCost, currency);
        WriteMoney(json, "carCost", cell.CarCost, currency);
        WriteRange(json, "homeWallKwh", cell.HomeWallKwh, KwhDigits);
        WriteRange(json, "awayKwh", cell.AwayKwh, KwhDigits);
        WriteRange(json, "readyShare", cell.ReadyShare, ShareDigits);
        WriteRange(json, "onTargetShare", cell.OnTargetShare, ShareDigits);
        WriteRange(json, "shortDays", cell.ShortDays, 1);
        ComparisonCellWriter.WriteDays(json, "coldestWeekDays", cell.ColdestWeek);
        if (cell.Stressed is { } stressed)
        {
            ComparisonCellWriter.WriteDays(json, "stressedWeekDays", stressed);
        }

        json.WriteEndObject();
    }

    private static void WriteMoney(Utf8JsonWriter json, string name, MedianAndRange range, string currency)
    {
        json.WriteStartObject(name);
        json.WriteMoney("median", new Money(range.Median, currency));
        json.WriteMoney("least", new Money(range.Least, currency));
        json.WriteMoney("most", new Money(range.Most, currency));
        json.WriteEndObject();
    }

    private static void WriteRange(Utf8JsonWriter json, string name, MedianAndRange? maybe, int digits)
    {
        if (maybe is not { } range)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        json.WriteRounded("median", (double)range.Median, digits);
        json.WriteRounded("least", (double)range.Least, digits);
        json.WriteRounded("most", (double)range.Most, digits);
        json.WriteEndObject();
    }
}
