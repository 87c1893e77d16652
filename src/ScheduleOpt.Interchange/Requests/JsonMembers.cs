using System.Text.Json;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>The members of one object of a document.</summary>
internal sealed class JsonMembers
{
    private readonly JsonField self;
    private readonly Dictionary<string, JsonElement> members = new(StringComparer.Ordinal);

    /// <summary>Opens an object and notes its unknown and repeated members.</summary>
    public JsonMembers(JsonField self, ReadOnlySpan<string> known)
    {
        this.self = self;
        foreach (var property in self.Element.EnumerateObject())
        {
            if (!members.TryAdd(property.Name, property.Value))
            {
                self.Faults.Add(Pointer(property.Name), "Is given more than once; each field may be given once.");
            }
            else if (!known.Contains(property.Name))
            {
                self.Faults.Add(Pointer(property.Name), $"Is not a field here. Known: {string.Join(", ", known.ToArray())}.");
            }
        }
    }

    /// <summary>Where faults are noted.</summary>
    public FaultList Faults => self.Faults;

    /// <summary>The pointer of a member, present or not.</summary>
    public string Pointer(string name) => JsonField.Child(self.Pointer, JsonField.Shortened(name));

    /// <summary>Whether a member is there.</summary>
    public bool Has(string name) => members.ContainsKey(name);

    /// <summary>A member that need not be there.</summary>
    public JsonField? Optional(string name) =>
        members.TryGetValue(name, out var element) ? new JsonField(element, Pointer(name), Faults) : null;

    /// <summary>A member that must be there; a fault is noted where it isn't.</summary>
    /// <param name="name">The member.</param>
    /// <param name="what">What it must be, such as <c>a number from 1 to 300 kWh</c>; empty: said by the reader of the value.</param>
    public JsonField? Required(string name, string what = "")
    {
        if (Optional(name) is { } field)
        {
            return field;
        }

        Faults.Add(Pointer(name), what.Length > 0 ? $"Is missing. {what}" : "Is missing.");
        return null;
    }

    /// <summary>A number that must be there.</summary>
    public double? Number(string name, Limits limits) => Required(name, limits.ToString())?.Number(limits);

    /// <summary>A number with a default; the default also stands in where the number is faulty.</summary>
    public double Number(string name, Limits limits, double otherwise) => Optional(name)?.Number(limits) ?? otherwise;

    /// <summary>A word with a default.</summary>
    public TWord Word<TWord>(string name, IReadOnlyList<(string Name, TWord Meaning)> words, TWord otherwise)
        where TWord : struct => Optional(name)?.Word(words) ?? otherwise;

    /// <summary>The one of several members that exclude one another; a fault is noted where none or more than one is there.</summary>
    public JsonField? ExactlyOne(params ReadOnlySpan<string> names)
    {
        var found = AtMostOne(names);
        if (found is null && !Any(names))
        {
            Faults.Add(self.Pointer, $"Exactly one of {string.Join(", ", names.ToArray())} must be given; none is.");
        }

        return found;
    }

    /// <summary>The one of several members that exclude one another, if any; a fault is noted where more than one is there.</summary>
    public JsonField? AtMostOne(params ReadOnlySpan<string> names)
    {
        string? first = null;
        foreach (var name in names)
        {
            if (!Has(name))
            {
                continue;
            }

            if (first is not null)
            {
                Faults.Add(Pointer(name), $"Only one of {string.Join(", ", names.ToArray())} may be given; {first} is given too.");
                return null;
            }

            first = name;
        }

        return first is null ? null : Optional(first);
    }

    private bool Any(ReadOnlySpan<string> names)
    {
        foreach (var name in names)
        {
            if (Has(name))
            {
                return true;
            }
        }

        return false;
    }
}
