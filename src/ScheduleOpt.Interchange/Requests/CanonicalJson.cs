using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>One text for all the ways in which a JSON document may be laid out, and its hash.</summary>
/// <remarks>RFC 8785, JSON Canonicalization Scheme: members sorted by their UTF-16 code units, no white space, the least escapes, numbers as
/// ECMAScript writes an IEEE 754 double.</remarks>
internal static class CanonicalJson
{
    /// <summary>SHA-256 (FIPS 180-4) of the canonical text in UTF-8, in lower-case hexadecimal.</summary>
    public static string HashOf(JsonElement element) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(TextOf(element))));

    /// <summary>The canonical text.</summary>
    public static string TextOf(JsonElement element)
    {
        var text = new StringBuilder();
        Write(text, element);
        return text.ToString();
    }

    private static void Write(StringBuilder text, JsonElement element)
    {
        switch (element.ValueKind)
        {
            case JsonValueKind.Object:
                Join(text, '{', '}', element.EnumerateObject().OrderBy(p => p.Name, StringComparer.Ordinal), member =>
                {
                    WriteText(text, member.Name);
                    text.Append(':');
                    Write(text, member.Value);
                });
                break;
            case JsonValueKind.Array:
                Join(text, '[', ']', element.EnumerateArray(), item => Write(text, item));
                break;
            case JsonValueKind.String:
                WriteText(text, element.GetString()!);
                break;
            case JsonValueKind.Number:
                // Beyond a double RFC 8785 has no form; the text as it came is still one for equal requests.
                text.Append(element.TryGetDouble(out var number) && double.IsFinite(number) ? NumberText(number) : element.GetRawText());
                break;
            default:
                text.Append(element.GetRawText());
                break;
        }
    }

    private static void Join<T>(StringBuilder text, char open, char close, IEnumerable<T> parts, Action<T> write)
    {
        text.Append(open);
        var isFirst = true;
        foreach (var part in parts)
        {
            if (!isFirst)
            {
                text.Append(',');
            }

            isFirst = false;
            write(part);
        }

        text.Append(close);
    }

    private static void WriteText(StringBuilder text, string value)
    {
        text.Append('"');
        foreach (var c in value)
        {
            text.Append(c switch
            {
                '"' => "\\\"",
                '\\' => "\\\\",
                '\b' => "\\b",
                '\f' => "\\f",
                '\n' => "\\n",
                '\r' => "\\r",
                '\t' => "\\t",
                < ' ' => string.Create(CultureInfo.InvariantCulture, $"\\u{(int)c:x4}"),
                _ => c.ToString(),
            });
        }

        text.Append('"');
    }

    /// <summary>A number as ECMAScript writes it (ECMA-262, Number::toString).</summary>
    internal static string NumberText(double number)
    {
        if (number == 0)
        {
            return "0";
        }

        // The shortest digits that read back as the same double, and the place of the decimal point among them.
        var parts = Math.Abs(number).ToString("R", CultureInfo.InvariantCulture).Split('E');
        var (whole, fraction) = parts[0].Split('.') is [var w, var f] ? (w, f) : (parts[0], "");
        var all = (whole + fraction).TrimStart('0');
        var point = whole.Length - (whole.Length + fraction.Length - all.Length) + (parts.Length > 1 ? int.Parse(parts[1], CultureInfo.InvariantCulture) : 0);
        var digits = all.TrimEnd('0');
        var sign = number < 0 ? "-" : "";
        var n = digits.Length;
        return sign + (point switch
        {
            > 0 and <= 21 when n <= point => digits + new string('0', point - n),
            > 0 and <= 21 => $"{digits[..point]}.{digits[point..]}",
            > -6 and <= 0 => $"0.{new string('0', -point)}{digits}",
            _ => string.Create(
                CultureInfo.InvariantCulture, $"{digits[..1]}{(n > 1 ? "." : "")}{digits[1..]}e{(point > 0 ? "+" : "-")}{Math.Abs(point - 1)}"),
        });
    }
}
