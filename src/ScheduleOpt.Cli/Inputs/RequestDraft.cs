using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using ScheduleOpt.Interchange;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>A request as it is put together from a document and from options; the request's own reader judges the whole.</summary>
/// <remarks>So an option is held to the very limits of the field it stands for, and a fault found there is told under the option's name.</remarks>
internal sealed class RequestDraft
{
    private readonly Dictionary<string, (string Option, string Typed)> given = new(StringComparer.Ordinal);
    private readonly string source;

    /// <summary>Begins with a document.</summary>
    /// <param name="root">The document; it is changed.</param>
    /// <param name="source">What faults in it are told under, such as the file's name; empty without a document.</param>
    public RequestDraft(JsonObject root, string source) => (Root, this.source) = (root, source);

    /// <summary>The request so far.</summary>
    public JsonObject Root { get; }

    /// <summary>Faults of options that no field can hold.</summary>
    public List<Fault> Faults { get; } = [];

    /// <summary>What was taken to be so in files that options name; told beside the answer.</summary>
    public List<string> Notes { get; } = [];

    /// <summary>Begins with the text of a document.</summary>
    public static Reading<RequestDraft> Of(string text, string source)
    {
        var json = JsonText.Read(text);
        if (!json.IsRead)
        {
            return Reading<RequestDraft>.Refused([.. json.Faults.Select(f => f with { Pointer = source + f.Pointer })]);
        }

        try
        {
            var options = new JsonDocumentOptions { MaxDepth = JsonText.MostDepth, AllowDuplicateProperties = false };
            return JsonNode.Parse(text.TrimStart('\uFEFF'), documentOptions: options) is JsonObject root
                ? new RequestDraft(root, source)
                : Reading<RequestDraft>.Refused(new Fault(source + "#", "Must be a JSON object."));
        }
        catch (JsonException e)
        {
            return Reading<RequestDraft>.Refused(new Fault(source + "#", $"Each field may be given once. {e.Message}"));
        }
    }

    /// <summary>A number where the text is one, else the text: the reader then says what must stand there.</summary>
    public static JsonNode Number(string text) =>
        decimal.TryParse(text.Trim(), NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
            ? JsonValue.Create(number)
            : JsonValue.Create(text);

    /// <summary>Sets a field in place of whatever stands there.</summary>
    /// <param name="pointer">Its pointer; objects on the way are made.</param>
    /// <param name="value">The value.</param>
    /// <param name="option">The option that gives it.</param>
    /// <param name="typed">What was typed.</param>
    public void Set(string pointer, JsonNode value, string option, string typed)
    {
        var steps = pointer[2..].Split('/').Select(Name).ToArray();
        var at = Root;
        foreach (var step in steps[..^1])
        {
            if (at[step] is not JsonObject inner)
            {
                inner = [];
                at[step] = inner;
            }

            at = inner;
        }

        at[steps[^1]] = value;
        given[pointer] = (option, typed);
    }

    /// <summary>Sets a member of an object of the request in place of whatever stands there.</summary>
    /// <param name="at">The object.</param>
    /// <param name="pointer">Its pointer.</param>
    /// <param name="name">The member's name.</param>
    /// <param name="value">The value.</param>
    /// <param name="option">The option that gives it.</param>
    /// <param name="typed">What was typed.</param>
    public void SetIn(JsonObject at, string pointer, string name, JsonNode value, string option, string typed)
    {
        at[name] = value;
        given[$"{pointer}/{Step(name)}"] = (option, typed);
    }

    /// <summary>A name as a step of a pointer (RFC 6901, in fragment form).</summary>
    public static string Step(string name) =>
        Uri.EscapeDataString(name.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal));

    private static string Name(string step) =>
        Uri.UnescapeDataString(step).Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal);

    /// <summary>Takes a member of an object away, such as the other of two that exclude one another.</summary>
    public void Remove(string parent, string member) => (Root[parent] as JsonObject)?.Remove(member);

    /// <summary>Reads the whole.</summary>
    /// <param name="read">The request's reader.</param>
    /// <param name="optionFor">The option that would give a field that is missing; none where there is no such option.</param>
    public Reading<T> Read<T>(Func<JsonText, Reading<T>> read, Func<string, string?> optionFor)
        where T : class
    {
        if (Faults.Count > 0)
        {
            return Reading<T>.Refused(Faults);
        }

        var json = JsonText.Read(Root.ToJsonString());
        var reading = json.IsRead ? read(json.Value) : Reading<T>.Refused(json.Faults);
        return reading.IsRead ? reading : Reading<T>.Refused([.. reading.Faults.Select(f => Named(f, optionFor))]);
    }

    private Fault Named(Fault fault, Func<string, string?> optionFor)
    {
        var pointer = given.Keys.Where(p => IsUnder(fault.Pointer, p)).MaxBy(p => p.Length);
        if (pointer is not null)
        {
            var (name, typed) = given[pointer];
            var whole = fault.Pointer == pointer && typed.Length <= 60;
            return fault with
            {
                Pointer = fault.Pointer == pointer ? name : $"{name} ({fault.Pointer})",
                Value = whole ? typed : fault.Value,
            };
        }

        return source.Length > 0 || optionFor(fault.Pointer) is not { } missing
            ? fault with { Pointer = source + fault.Pointer }
            : fault with { Pointer = $"{missing} ({fault.Pointer})" };
    }

    private static bool IsUnder(string pointer, string parent) =>
        pointer == parent || pointer.StartsWith(parent + "/", StringComparison.Ordinal);
}
