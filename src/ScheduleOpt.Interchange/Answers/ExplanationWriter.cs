using System.Text.Json;
using NodaTime;
using NodaTime.Text;

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
            });
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
            json.WriteMoney("extraCost", AnswerJson.Money(next.ExtraCost, currency));
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
            json.WriteMoney("cost", AnswerJson.Money(more.Cost, currency));
            json.WriteMoney("saving", AnswerJson.Money(more.Saving, currency));
        });
        WriteMoneyOrNull(json, "anHourEarlier", explanation.AnHourEarlier, currency);
        WriteMoneyOrNull(json, "tenPercentMore", explanation.TenPercentMore, currency);
        WriteOrNull(json, "nextCircuit", explanation.NextCircuit, circuit =>
        {
            json.WriteRounded("breakerA", circuit.BreakerA, 1);
            json.WriteMoney("saving", AnswerJson.Money(circuit.Saving, currency));
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
            WriteNumberOrNull(json, "currentA", one.CurrentA, 3);
            WriteNumberOrNull(json, "targetStateOfCharge", one.TargetStateOfCharge, 5);
            WriteNumberOrNull(json, "awayKwh", one.AwayKwh, 4);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteTimer(Utf8JsonWriter json, string name, TimerSetting? setting, string currency) => WriteOrNull(json, name, setting, timer =>
    {
        json.WriteString("at", Clock.Format(timer.At));
        json.WriteMoney("extraCost", AnswerJson.Money(timer.ExtraCost, currency));
    });

    private static void WriteMoneyOrNull(Utf8JsonWriter json, string name, double? amount, string currency)
    {
        if (amount is { } value)
        {
            json.WriteMoney(name, AnswerJson.Money(value, currency));
        }
        else
        {
            json.WriteNull(name);
        }
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
