using System.Text;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>A place in a document that is being read: asks for values and notes every fault, so that one reading shows them all.</summary>
/// <remarks>A value that is wrong is replaced by one that does no harm; whoever reads the document throws it away when there is a fault.</remarks>
internal sealed class Field(DocumentNode? node, string pointer, int line, List<Fault> faults)
{
    private readonly HashSet<string> asked = [];

    public bool Exists => node is not null;

    public string Pointer { get; } = pointer;

    public DocumentNode? Node => node;

    /// <summary>Where this is in the document.</summary>
    public DocumentPlace Place => new(Pointer[1..], node?.Line ?? line);

    private IReadOnlyList<KeyValuePair<string, DocumentNode>> Members => node?.Kind == NodeKind.Object ? node.Members : [];

    /// <summary>A member of this object, there or not.</summary>
    public Field this[string name]
    {
        get
        {
            asked.Add(name);
            var member = node?.Kind == NodeKind.Object ? node.Member(name) : null;
            return new(member, RatePlans.Pointer.Join(Pointer, name), member?.Line ?? node?.Line ?? line, faults);
        }
    }

    /// <summary>The elements of a list, without a word about how many there are.</summary>
    public IReadOnlyList<Field> Elements =>
        node is { Kind: NodeKind.List } ? [.. node.Elements.Select((e, i) => new Field(e, $"{Pointer}/{i}", e.Line, faults))] : [];

    public void Fault(string rule, string? value = null) =>
        faults.Add(new(Pointer, rule, value ?? node?.Shown ?? "", node?.Line ?? line));

    /// <summary>Refuses members that were not asked for: a misspelt field must not silently do nothing.</summary>
    public void RefuseOthers()
    {
        foreach (var (name, member) in Members.Where(m => !asked.Contains(m.Key)))
        {
            new Field(member, RatePlans.Pointer.Join(Pointer, name), member.Line, faults)
                .Fault($"This field is not known here. Known: {string.Join(", ", asked)}.");
        }
    }

    public bool IsObject()
    {
        if (node?.Kind == NodeKind.Object)
        {
            return true;
        }

        Fault(node is null ? "This field is required." : "It must be an object with named fields.");
        return false;
    }

    /// <summary>A text of limited length without control characters.</summary>
    public string Text(int longest, string? otherwise = null)
    {
        if (node is null && otherwise is not null)
        {
            return otherwise;
        }

        if (node is null)
        {
            Fault("This field is required.");
        }
        else if (node.Kind != NodeKind.String || node.Text.Length > longest || node.Text.Trim().Length == 0
            || node.Text.Any(char.IsControl) || node.Text.EnumerateRunes().Any(r => r == Rune.ReplacementChar))
        {
            Fault($"It must be a text of 1 to {longest} characters without control characters.");
        }
        else
        {
            return node.Text.Trim();
        }

        return "";
    }

    public decimal Number(decimal least, decimal most, string unit)
    {
        if (node is null)
        {
            Fault("This field is required.");
        }
        else if (!node.TryNumber(out var number) || number < least || number > most)
        {
            Fault($"It must be a number from {least} to {most}{(unit.Length > 0 ? " " + unit : "")}.");
        }
        else
        {
            // Negative zero is zero.
            return number == 0 ? 0 : number;
        }

        return Math.Clamp(0, least, most);
    }

    public int Whole(int least, int most, string unit)
    {
        var number = Number(least, most, unit);
        if (number != decimal.Truncate(number))
        {
            Fault("It must be a whole number.");
        }

        return (int)number;
    }

    public bool YesOrNo()
    {
        if (node?.Kind is not (NodeKind.Boolean or null))
        {
            Fault("It must be true or false.");
        }

        return node?.Text == "true";
    }

    /// <summary>One of the given words.</summary>
    public T OneOf<T>(IReadOnlyDictionary<string, T> choices, T? otherwise = default, bool required = true)
    {
        if (node is { Kind: NodeKind.String } && choices.TryGetValue(node.Text, out var choice))
        {
            return choice;
        }

        if (node is not null || required)
        {
            Fault((node is null ? "This field is required: " : "It must be ") + $"one of {string.Join(", ", choices.Keys)}.");
            return otherwise ?? choices.Values.First();
        }

        return otherwise!;
    }

    /// <summary>The elements of a list; a list that may be left out is empty then.</summary>
    public IReadOnlyList<Field> List(int least, int most, bool required = true)
    {
        if (node is null && !required)
        {
            return [];
        }

        if (node is null)
        {
            Fault("This field is required.");
            return [];
        }

        if (node.Kind != NodeKind.List || node.Elements.Count < least || node.Elements.Count > most)
        {
            Fault($"It must be a list of {least} to {most} elements.", node.Kind == NodeKind.List ? $"{node.Elements.Count} elements" : null);
            return [];
        }

        return Elements;
    }

    /// <summary>The members of an object whose names are free.</summary>
    public IReadOnlyList<(string Name, Field Field)> FreeMembers() =>
        [.. Members.Select(m => (m.Key, this[m.Key]))];

    /// <summary>A list of names that must exist; left out, it means all.</summary>
    public IReadOnlyList<string> Names(IReadOnlyCollection<string> known, string of, bool required = false)
    {
        var names = new List<string>();
        foreach (var element in List(1, 100, required))
        {
            var name = element.Text(80);
            if (name.Length > 0 && !known.Contains(name))
            {
                element.Fault($"It must name one of the {of}: {string.Join(", ", known)}.");
            }
            else if (names.Contains(name))
            {
                element.Fault("It must be named once.");
            }

            names.Add(name);
        }

        return names;
    }

    public LocalDate Date()
    {
        var date = Parsed(LocalDatePattern.Iso, "It must be a date such as 2026-01-31.", new LocalDate(2000, 1, 1));
        if (date.Year is < 1900 or > 2200)
        {
            Fault("It must be a date from 1900 to 2200.");
        }

        return date;
    }

    /// <summary>A local date and time, to the minute.</summary>
    public LocalDateTime DateAndTime()
    {
        var time = Parsed(DateAndTimePattern, "It must be a local date and time such as 2026-01-31T17:00.", new LocalDateTime(2000, 1, 1, 0, 0));
        if (time.Year is < 1900 or > 2200)
        {
            Fault("It must be a date from 1900 to 2200.");
        }

        return time;
    }

    public LocalDate? OptionalDate() => node is null ? null : Date();

    public AnnualDate MonthAndDay() => Parsed(AnnualDatePattern.Iso, "It must be a month and a day such as 06-01.", new AnnualDate(1, 1));

    /// <summary>A local clock time in minutes since midnight; 24:00 where it is allowed.</summary>
    public int ClockMinute(bool mayBeMidnightAtEnd)
    {
        if (mayBeMidnightAtEnd && node is { Kind: NodeKind.String, Text: "24:00" })
        {
            return 1440;
        }

        var time = Parsed(ClockPattern, "It must be a time of day such as 07:30" + (mayBeMidnightAtEnd ? ", or 24:00." : "."), LocalTime.Midnight);
        return (time.Hour * 60) + time.Minute;
    }

    private static readonly LocalDateTimePattern DateAndTimePattern = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm");

    private static readonly LocalTimePattern ClockPattern = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    private T Parsed<T>(IPattern<T> pattern, string rule, T otherwise)
    {
        if (node is null)
        {
            Fault("This field is required.");
        }
        else if (node.Kind == NodeKind.String && pattern.Parse(node.Text) is { Success: true } parsed)
        {
            return parsed.Value;
        }
        else
        {
            Fault(rule);
        }

        return otherwise;
    }
}
