using System.Globalization;
using System.Text;
using System.Text.Json;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>One value of a document, with where it stands. Each reading notes what is wrong and gives null then.</summary>
/// <param name="Element">The value.</param>
/// <param name="Pointer">Its JSON pointer in fragment form (RFC 6901, section 6).</param>
/// <param name="Faults">Where faults are noted.</param>
internal readonly record struct JsonField(JsonElement Element, string Pointer, FaultList Faults)
{
    private const int MostShown = 60;
    private const NumberStyles ExactText = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint;

    /// <summary>The pointer of a member or an item of a value.</summary>
    public static string Child(string pointer, string name) =>
        $"{pointer}/{Uri.EscapeDataString(name.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal))}";

    /// <summary>Notes that a rule does not hold here.</summary>
    public void Fault(string rule) => Faults.Add(Pointer, rule, Shown());

    /// <summary>A number within limits. Negative zero is zero.</summary>
    public double? Number(Limits limits)
    {
        if (Element.ValueKind == JsonValueKind.Number && Element.TryGetDouble(out var number) && limits.Hold(number))
        {
            return number == 0 ? 0 : number;
        }

        Fault(limits.ToString());
        return null;
    }

    /// <summary>An amount of money or a price, exact. Negative zero is zero.</summary>
    public decimal? Price(Limits limits) =>
        Number(limits) is null ? null : Element.TryGetDecimal(out var price) ? Unsigned(price) : Refuse<decimal>(limits.ToString());

    /// <summary>An exact number within limits, as a number or as a decimal text such as "0.0512".</summary>
    public decimal? Exact(Limits limits)
    {
        if (Element.ValueKind != JsonValueKind.String)
        {
            return Price(limits);
        }

        return decimal.TryParse(Element.GetString(), ExactText, CultureInfo.InvariantCulture, out var exact) && limits.Hold((double)exact)
            ? Unsigned(exact)
            : Refuse<decimal>(limits.ToString());
    }

    /// <summary>A text that is not empty.</summary>
    public string? Text(int most)
    {
        if (Element.ValueKind == JsonValueKind.String && Element.GetString() is { } text && text.Length > 0 && text.Length <= most)
        {
            return text;
        }

        Fault($"Must be a text of 1 to {most} characters.");
        return null;
    }

    /// <summary>true or false.</summary>
    public bool? Flag() => Element.ValueKind switch
    {
        JsonValueKind.True => true,
        JsonValueKind.False => false,
        _ => Refuse<bool>("Must be true or false."),
    };

    /// <summary>One of a few words, as they are written.</summary>
    public TWord? Word<TWord>(IReadOnlyList<(string Name, TWord Meaning)> words)
        where TWord : struct
    {
        if (Element.ValueKind == JsonValueKind.String)
        {
            var text = Element.GetString();
            foreach (var (name, meaning) in words)
            {
                if (name == text)
                {
                    return meaning;
                }
            }
        }

        return Refuse<TWord>($"Must be one of {string.Join(", ", words.Select(w => $"\"{w.Name}\""))}.");
    }

    /// <summary>The items of an array.</summary>
    public IReadOnlyList<JsonField>? Items(int least, int most, string what)
    {
        if (Element.ValueKind != JsonValueKind.Array || Element.GetArrayLength() is var length && (length < least || length > most))
        {
            Fault(least == most ? $"Must be an array of {least} {what}." : $"Must be an array of {least} to {most} {what}.");
            return null;
        }

        var items = new List<JsonField>(Element.GetArrayLength());
        foreach (var item in Element.EnumerateArray())
        {
            items.Add(new JsonField(item, $"{Pointer}/{items.Count}", Faults));
        }

        return items;
    }

    /// <summary>The members of an object whose names the asker chooses; repeated ones are noted as faults.</summary>
    public IReadOnlyList<(string Name, JsonField Field)>? Entries(int most, string what)
    {
        if (Element.ValueKind != JsonValueKind.Object || Element.GetPropertyCount() > most)
        {
            Fault($"Must be an object of at most {most} {what}, each under its name.");
            return null;
        }

        var names = new HashSet<string>(StringComparer.Ordinal);
        var entries = new List<(string, JsonField)>();
        foreach (var property in Element.EnumerateObject())
        {
            var field = new JsonField(property.Value, Child(Pointer, Shortened(property.Name)), Faults);
            if (names.Add(property.Name))
            {
                entries.Add((property.Name, field));
            }
            else
            {
                field.Faults.Add(field.Pointer, "Is given more than once; each name may be given once.");
            }
        }

        return entries;
    }

    /// <summary>An array of numbers within limits.</summary>
    public double[]? Numbers(int least, int most, Limits limits)
    {
        if (Items(least, most, "numbers") is not { } items)
        {
            return null;
        }

        var before = Faults.Count;
        var numbers = new double[items.Count];
        for (var i = 0; i < numbers.Length; i++)
        {
            numbers[i] = items[i].Number(limits) ?? 0;
        }

        return Faults.Count == before ? numbers : null;
    }

    /// <summary>The members of an object; unknown and repeated ones are noted as faults, the known ones can still be read.</summary>
    public JsonMembers? Members(params ReadOnlySpan<string> known)
    {
        if (Element.ValueKind == JsonValueKind.Object)
        {
            return new JsonMembers(this, known);
        }

        Fault("Must be an object.");
        return null;
    }

    private static decimal Unsigned(decimal number) => number == 0 ? 0 : number;

    private T? Refuse<T>(string rule)
        where T : struct
    {
        Fault(rule);
        return null;
    }

    private string Shown() => Element.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => $"an array of {Element.GetArrayLength()}",
        JsonValueKind.String => $"\"{Shortened(Element.GetString()!)}\"",
        _ => Shortened(Element.GetRawText()),
    };

    internal static string Shortened(string text)
    {
        var shown = new StringBuilder(MostShown + 1);
        foreach (var rune in text.EnumerateRunes())
        {
            if (shown.Length >= MostShown)
            {
                return shown.Append('…').ToString();
            }

            shown.Append(Rune.IsControl(rune) ? " " : rune.ToString());
        }

        return shown.ToString();
    }
}
