using System.Globalization;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>One value of a rate-plan document, whether it was written in YAML or JSON.</summary>
internal sealed class DocumentNode(NodeKind kind, int line, string text = "")
{
    /// <summary>What it is.</summary>
    public NodeKind Kind { get; } = kind;

    /// <summary>Line it begins on, from 1.</summary>
    public int Line { get; } = line;

    /// <summary>Text of a scalar, as written.</summary>
    public string Text { get; } = text;

    /// <summary>Members of an object, in the order written; keys are unique.</summary>
    public List<KeyValuePair<string, DocumentNode>> Members { get; } = [];

    /// <summary>Elements of a list.</summary>
    public List<DocumentNode> Elements { get; } = [];

    public DocumentNode? Member(string key) => Members.FirstOrDefault(m => m.Key == key).Value;

    /// <summary>The value in short, for people.</summary>
    public string Shown => Kind switch
    {
        NodeKind.Object => "an object",
        NodeKind.List => "a list",
        NodeKind.Null => "null",
        NodeKind.String when Text.Length == 0 => "\"\"",
        _ => Text.Length <= 60 ? Text : string.Concat(Text.AsSpan(0, 57), "..."),
    };

    /// <summary>The number written, exactly; false where it is no number or needs more than a decimal holds.</summary>
    public bool TryNumber(out decimal number) =>
        decimal.TryParse(
            Text,
            NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent,
            CultureInfo.InvariantCulture,
            out number)
        && Kind == NodeKind.Number;
}

/// <summary>What a value is.</summary>
internal enum NodeKind
{
    Object,
    List,
    String,
    Number,
    Boolean,
    Null,
}
