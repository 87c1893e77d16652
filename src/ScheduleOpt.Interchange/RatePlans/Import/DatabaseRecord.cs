using System.Text.Json;

namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>A record that is being read: gives its fields, notes faults, and remembers what became of each field.</summary>
internal sealed class DatabaseRecord(JsonElement record, string pointer)
{
    private readonly List<Fault> faults = [];
    private readonly List<FieldCarried> fields = [];
    private readonly HashSet<string> reported = [];

    public IReadOnlyList<Fault> Faults => faults;

    public string Pointer => pointer;

    /// <summary>The reports, with every field of which nothing was said.</summary>
    public IReadOnlyList<FieldCarried> Fields =>
    [
        .. fields,
        .. record.EnumerateObject().Select(m => m.Name).Where(n => !reported.Contains(n)).Take(ImportLimits.Fields)
            .Select(n => new FieldCarried(Clean(n, 60), Carried.No, "This field is not known.")),
    ];

    public bool Has(string name) => Find(name) is not null;

    public JsonElement? Find(string name) => record.TryGetProperty(name, out var value) && value.ValueKind != JsonValueKind.Null ? value : null;

    public void Report(string name, Carried how, string note = "")
    {
        if (reported.Add(name))
        {
            fields.Add(new(name, how, note));
        }
    }

    /// <summary>Reports fields that are there.</summary>
    public void ReportIfThere(Carried how, string note, params string[] names)
    {
        foreach (var name in names.Where(Has))
        {
            Report(name, how, note);
        }
    }

    /// <summary>Marks fields whose report stands under another name.</summary>
    public void Covered(params string[] names) => reported.UnionWith(names);

    public void Fault(string path, string rule, JsonElement? value = null)
    {
        if (faults.Count < 100)
        {
            faults.Add(new($"{pointer}/{path}", rule, value is { } v ? Shown(v) : ""));
        }
    }

    /// <summary>A text without control characters, shortened; empty where there is none.</summary>
    public string Text(string name, int longest) =>
        Find(name) is { ValueKind: JsonValueKind.String } value && TryText(value, out var text) ? Clean(text, longest) : "";

    /// <summary>A number within limits; none where the field is not there, or with a fault where it is wrong.</summary>
    public decimal? Number(string name, decimal least, decimal most) => Find(name) is { } value ? Number(value, name, least, most) : null;

    public decimal? Number(JsonElement value, string path, decimal least, decimal most)
    {
        if (Exact(value) is { } number && number >= least && number <= most)
        {
            return number;
        }

        Fault(path, $"It must be a number from {least} to {most}.", value);
        return null;
    }

    /// <summary>A list of at most so many elements; empty where it is not there, or with a fault where it is wrong.</summary>
    public JsonElement[] List(string name, int most)
    {
        if (Find(name) is not { } value)
        {
            return [];
        }

        if (value.ValueKind == JsonValueKind.Array && value.GetArrayLength() <= most)
        {
            return [.. value.EnumerateArray()];
        }

        Fault(name, $"It must be a list of at most {most} elements.", value);
        return [];
    }

    /// <summary>Text fit to be shown: no control characters, no halves of surrogate pairs, shortened.</summary>
    public static string Clean(string text, int longest)
    {
        var clean = string.Concat(text.EnumerateRunes().Where(r => r.Value != 0xFFFD).Select(r => System.Text.Rune.IsControl(r) ? " " : r.ToString())).Trim();
        while (clean.Length > longest)
        {
            clean = clean[..^(char.IsSurrogate(clean[^1]) ? 2 : 1)];
        }

        return clean.Trim();
    }

    private static decimal? Exact(JsonElement value)
    {
        // Some records hold numbers as texts.
        var text = value.ValueKind == JsonValueKind.Number ? value.GetRawText()
            : value.ValueKind == JsonValueKind.String && TryText(value, out var written) ? written
            : "";
        return text.Length is > 0 and < 60
            && decimal.TryParse(text, System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture, out var number)
            ? number
            : null;
    }

    private static bool TryText(JsonElement value, out string text)
    {
        try
        {
            text = value.GetString() ?? "";
            return true;
        }
        catch (InvalidOperationException)
        {
            // Half of a surrogate pair.
            text = "";
            return false;
        }
    }

    private static string Shown(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => $"a list of {value.GetArrayLength()}",
        _ => Clean(value.GetRawText(), 60),
    };
}
