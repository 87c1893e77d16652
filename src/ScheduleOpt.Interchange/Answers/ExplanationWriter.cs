using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Comparison.Tonight.Explanations;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Writes why a schedule is what it is: <c>explanation</c>, <c>help</c> and <c>timers</c> of a car, each where it was worked out.</summary>
internal static class ExplanationWriter
{
    private static readonly LocalTimePattern Clock = LocalTimePattern.CreateWithInvariantCulture("HH':'mm");

    /// <summary>Writes the members.</summary>
    public static void Write(Utf8JsonWriter json, CarAnswer car, string currency, DateTimeZone zone)
    {
        if (car.Explanation is { } explanation)
        {
            WriteExplanation(json, explanation, currency, zone);
        }

        if (car.Help.Count > 0)
        {
            WriteHelp(json, car.Help, zone);
        }

        if (car.Timers is { } timers)
        {
            json.WriteStartObject("timers");
            WriteTimer(json, "startTime", timers.StartTime, currency);
            WriteTimer(json, "finishTime", timers.FinishTime, currency);
            WriteOrNull(json, "singleCurrent", timers.SingleCurrent, current =>
            {
                json.WriteRounded("currentA", current.CurrentA, 3);
                json.WriteMoney("extraCost", AnswerJson.Money(current.ExtraCost, currency));
                json.WriteRounded("extraKwh", current.ExtraKwh, 4);
                json.WriteRounded("missingKwh", current.MissingKwh, 4);
            });
            if (timers.WhyNot is { } why)
            {
                json.WriteString("whyNot", why);
            }

            json.WriteEndObject();
        }
    }

    private static void WriteExplanation(Utf8JsonWriter json, CarExplanation explanation, string currency, DateTimeZone zone)
    {
        json.WriteStartObject("explanation");
        json.WriteStartArray("bindings");
        foreach (var binding in explanation.Bindings)
        {
            json.WriteStartObject();
            json.WriteTime("departure", binding.Departure, zone);
            json.WriteString("kind", JsonNamingPolicy.CamelCase.ConvertName(binding.Kind.ToString()));
            json.WriteString("sentence", binding.Sentence);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("whyEachWindow");
        foreach (var reason in explanation.WhyEachWindow)
        {
            json.WriteStartObject();
            json.WriteTime("start", reason.Start, zone);
            json.WriteString("sentence", reason.Sentence);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        WriteOrNull(json, "nextBest", explanation.NextBest, next =>
        {
            WriteDifference(json, "extraCost", next.Extra, currency);
            json.WriteString("sentence", next.Sentence);
            json.WriteStartArray("windows");
            foreach (var window in next.Windows)
            {
                json.WriteStartObject();
                json.WriteTime("start", window.Start, zone);
                json.WriteTime("end", window.End, zone);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        });
        WriteOrNull(json, "oneMoreKwh", explanation.OneMoreKwh, more =>
        {
            WriteOrNull(json, "more", more.More, one => WriteDifference(json, "cost", one, currency));
            WriteOrNull(json, "less", more.Less, one => WriteDifference(json, "cost", one, currency));
        });
        WriteOrNull(json, "anHourEarlier", explanation.AnHourEarlier, one => WriteDifference(json, "cost", one, currency));
        WriteOrNull(json, "tenPercentMore", explanation.TenPercentMore, one => WriteDifference(json, "cost", one, currency));
        WriteOrNull(json, "nextCircuit", explanation.NextCircuit, circuit =>
        {
            json.WriteRounded("breakerA", circuit.BreakerA, 1);
            WriteDifference(json, "cost", circuit.Extra, currency);
        });
        json.WriteEndObject();
    }

    private static void WriteHelp(Utf8JsonWriter json, IReadOnlyList<ShortfallHelp> help, DateTimeZone zone)
    {
        json.WriteStartArray("help");
        foreach (var one in help)
        {
            json.WriteStartObject();
            json.WriteTime("departure", one.Departure, zone);
            WriteNumberOrNull(json, "plugInEarlierMinutes", one.PlugInEarlierBy is { } by ? Math.Ceiling(by.TotalMinutes) : null, 0);
            WriteNumberOrNull(json, "breakerA", one.BreakerA, 1);
            WriteNumberOrNull(json, "currentA", one.CurrentA, 3);
            WriteNumberOrNull(json, "targetStateOfCharge", one.TargetStateOfCharge, 5);
            WriteNumberOrNull(json, "awayKwh", one.AwayKwh, 4);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteTimer(Utf8JsonWriter json, string name, TimerMoment? setting, string currency) => WriteOrNull(json, name, setting, timer =>
    {
        json.WriteString("at", Clock.Format(timer.At));
        json.WriteRounded("currentA", timer.CurrentA, 3);
        json.WriteRounded("stopAtStateOfCharge", timer.StopAt, 2);
        json.WriteMoney("extraCost", AnswerJson.Money(timer.ExtraCost, currency));
        json.WriteRounded("extraKwh", timer.ExtraKwh, 4);
        json.WriteRounded("missingKwh", timer.MissingKwh, 4);
    });

    private static void WriteDifference(Utf8JsonWriter json, string name, BillDifference difference, string currency)
    {
        json.WriteMoney(name, AnswerJson.Money(difference.Bill, currency));
        json.WriteRounded("storedMoreKwh", difference.StoredMoreKwh, 4);
    }

    private static void WriteNumberOrNull(Utf8JsonWriter json, string name, double? number, int digits)
    {
        if (number is { } value)
        {
            json.WriteRounded(name, value, digits);
        }
        else
        {
            json.WriteNull(name);
        }
    }

    private static void WriteOrNull<T>(Utf8JsonWriter json, string name, T? value, Action<T> members)
        where T : class
    {
        if (value is null)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        members(value);
        json.WriteEndObject();
    }
}
