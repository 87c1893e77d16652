using System.Text.Json;
using ScheduleOpt.Comparison.BreakEvens;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Waterfalls;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Writes why the first comes first, and what would change that.</summary>
internal static class DecisionWriter
{
    /// <summary>Writes the scenario; nothing where there is none.</summary>
    public static void WriteScenario(Utf8JsonWriter json, Scenario? scenario)
    {
        if (scenario is null)
        {
            return;
        }

        json.WriteStartObject("scenario");
        json.WriteString("name", scenario.Name);
        json.WriteString("author", scenario.Author);
        json.WriteStartArray("overrides");
        foreach (var one in scenario.Overrides)
        {
            json.WriteStartObject();
            json.WriteString("field", one.Field);
            json.WritePropertyName("value");
            json.WriteRawValue(one.Value);
            json.WriteString("was", one.Was);
            json.WriteString("note", one.Note);
            json.WriteString("author", one.Author);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>Writes the waterfalls.</summary>
    public static void WriteWhys(Utf8JsonWriter json, DecisionResult decided)
    {
        json.WriteStartArray("why");
        foreach (var why in decided.Whys)
        {
            json.WriteStartObject();
            json.WriteString("against", why.Against);
            WriteName(json, "first", CellName.Of(why.Waterfall.First.Cell));
            WriteName(json, "other", CellName.Of(why.Waterfall.Second.Cell));
            json.WriteMoney("difference", new Money(why.Waterfall.Difference, decided.Year.Currency));
            json.WriteStartArray("steps");
            foreach (var step in why.Waterfall.Steps)
            {
                json.WriteStartObject();
                json.WriteString("part", WordOf(step.Part));
                json.WriteMoney("amount", new Money(step.Amount, decided.Year.Currency));
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    /// <summary>Writes the break-evens; nothing where they were not asked for.</summary>
    public static void WriteFlips(Utf8JsonWriter json, Flips? asked)
    {
        if (asked is not { } flips)
        {
            return;
        }

        json.WriteStartObject("breakEvens");
        WriteName(json, "first", flips.First);
        WriteName(json, "second", flips.Second);
        json.WriteStartArray("axes");
        foreach (var axis in flips.Axes)
        {
            json.WriteStartObject();
            json.WriteString("name", axis.Axis.Name);
            json.WriteString("unit", axis.Axis.Unit);
            json.WriteRounded("low", axis.Axis.Low, 4);
            json.WriteRounded("high", axis.Axis.High, 4);
            json.WriteString("cheaperAtLow", WordOf(axis.AtLow));
            json.WriteString("cheaperAtHigh", WordOf(axis.AtHigh));
            json.WriteStartArray("at");
            foreach (var found in axis.Found)
            {
                json.WriteNumberValue((decimal)Math.Round(found.At, 4));
            }

            json.WriteEndArray();
            json.WriteString("wording", axis.Wording);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteSentences("leftOut", flips.LeftOut);
        json.WriteEndObject();
    }

    /// <summary>Writes the tornado; nothing where it was not asked for.</summary>
    public static void WriteUncertainty(Utf8JsonWriter json, DecisionResult decided)
    {
        if (decided.Uncertainty is not { } tornado)
        {
            return;
        }

        var currency = decided.Year.Currency;
        json.WriteStartObject("uncertainty");
        json.WriteString("of", tornado.Base.First);
        json.WriteMoney("base", new Money(tornado.Base.Amount, currency));
        json.WriteStartArray("bars");
        foreach (var bar in tornado.Bars)
        {
            json.WriteStartObject();
            json.WriteString("input", bar.Input.Name);
            json.WriteString("unit", bar.Input.Unit);
            json.WriteRounded("low", bar.Input.Low, 6);
            json.WriteRounded("mid", bar.Input.Mid, 6);
            json.WriteRounded("high", bar.Input.High, 6);
            json.WriteString("basis", bar.Input.Basis);
            json.WriteMoney("atLow", new Money(bar.Low.Amount, currency));
            json.WriteMoney("atHigh", new Money(bar.High.Amount, currency));
            json.WriteString("firstAtLow", bar.Low.First);
            json.WriteString("firstAtHigh", bar.High.First);
            json.WriteBoolean("flipsRanking", bar.FlipsRanking);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteName(Utf8JsonWriter json, string name, CellName cell)
    {
        json.WriteStartObject(name);
        json.WriteString("setUp", cell.SetUp);
        json.WriteString("ratePlan", cell.RatePlan);
        json.WriteString("behaviour", cell.Behaviour);
        json.WriteEndObject();
    }

    private static string WordOf(WaterfallPart part) => JsonNamingPolicy.CamelCase.ConvertName(part.ToString());

    private static string WordOf(Cheaper cheaper) => JsonNamingPolicy.CamelCase.ConvertName(cheaper.ToString());
}
