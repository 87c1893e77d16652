using System.Buffers;
using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Core;
using ScheduleOpt.Interchange.Calendars;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>The forms that every answer shares: times in the household's offset, money as a text, numbers without noise.</summary>
internal static class AnswerJson
{
    // A buffer that one huge answer has grown is let go. [bytes]
    private const int MostKept = 1024 * 1024;

    // A decimal holds 96 bits.
    private const double MostOfDecimal = 79_228_162_514_264_337_593_543_950_336.0;

    [ThreadStatic]
    private static ArrayBufferWriter<byte>? kept;

    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Writes one JSON object.</summary>
    public static byte[] Write(Action<Utf8JsonWriter> members)
    {
        // One buffer a thread, kept: an answer of a week is large enough that growing into it anew each time would wake the collector.
        var buffer = kept ??= new ArrayBufferWriter<byte>(64 * 1024);
        buffer.ResetWrittenCount();
        using (var json = new Utf8JsonWriter(buffer, Options))
        {
            json.WriteStartObject();
            members(json);
            json.WriteEndObject();
        }

        var answer = buffer.WrittenSpan.ToArray();
        if (buffer.Capacity > MostKept)
        {
            kept = null;
        }

        return answer;
    }

    /// <summary>A time, RFC 3339 with the zone's offset.</summary>
    public static void WriteTime(this Utf8JsonWriter json, string name, Instant instant, DateTimeZone zone) =>
        json.WriteString(name, OffsetDateTimePattern.Rfc3339.Format(instant.InZone(zone).ToOffsetDateTime()));

    /// <summary>An amount of money, <c>{"amount":"612.40","currency":"USD"}</c>, rounded half away from zero to the minor unit.</summary>
    public static void WriteMoney(this Utf8JsonWriter json, string name, Money money)
    {
        json.WriteStartObject(name);
        json.WriteString("amount", Amount(money));
        json.WriteString("currency", money.Currency);
        json.WriteEndObject();
    }

    /// <summary>An amount worked out in binary numbers.</summary>
    public static Money Money(double amount, string currency) => new((decimal)amount, currency);

    /// <summary>A number rounded for reading: what lies below is noise of the arithmetic. One that a decimal can't hold is written as it is, and what is no number as null.</summary>
    public static void WriteRounded(this Utf8JsonWriter json, string name, double number, int digits)
    {
        if (Math.Abs(number) < MostOfDecimal)
        {
            json.WriteNumber(name, (decimal)Math.Round(number, digits, MidpointRounding.AwayFromZero) + 0m);
        }
        else if (double.IsFinite(number))
        {
            json.WriteNumber(name, number);
        }
        else
        {
            json.WriteNull(name);
        }
    }

    /// <summary>An exact number as a text, for prices and quantities of a bill.</summary>
    public static void WriteExact(this Utf8JsonWriter json, string name, decimal number) =>
        json.WriteString(name, number.ToString("0.############################", CultureInfo.InvariantCulture));

    /// <summary>A list of sentences.</summary>
    public static void WriteSentences(this Utf8JsonWriter json, string name, IEnumerable<string> sentences)
    {
        json.WriteStartArray(name);
        foreach (var sentence in sentences)
        {
            json.WriteStringValue(sentence);
        }

        json.WriteEndArray();
    }

    /// <summary>Events of a calendar that are no trips.</summary>
    public static void WriteIgnored(this Utf8JsonWriter json, IEnumerable<IgnoredEvent> events)
    {
        json.WriteStartArray("ignored");
        foreach (var ignored in events)
        {
            json.WriteStartObject();
            json.WriteString("label", ignored.Label);
            json.WriteNumber("line", ignored.Line);
            json.WriteString("reason", ignored.Reason);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    /// <summary>The amount as a text with the digits of the currency's minor unit.</summary>
    public static string Amount(Money money)
    {
        var digits = MinorUnits.DigitsOf(money.Currency);
        return Math.Round(money.Amount, digits, MidpointRounding.AwayFromZero)
            .ToString("F" + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }
}
