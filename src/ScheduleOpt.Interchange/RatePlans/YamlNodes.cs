using System.Text.RegularExpressions;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Reads the part of YAML that a rate plan needs: one document of plain objects, lists and scalars.</summary>
/// <remarks>Aliases, anchors and tags are refused: they let a small text stand for a huge one or name a type. A scalar without quotes is a number
/// where JSON would read it as one, <c>true</c>, <c>false</c> or <c>null</c>, and otherwise a string; so 23:00, 06-01, 2026-01-01 and no are
/// strings.</remarks>
internal static partial class YamlNodes
{
    /// <exception cref="DocumentRefusedException">The text is no YAML, uses a part that is refused, or breaks a limit.</exception>
    public static DocumentNode Read(string text)
    {
        var builder = new NodeBuilder();
        try
        {
            var parser = new Parser(new StringReader(text));
            var documents = 0;
            while (parser.MoveNext())
            {
                var line = (int)parser.Current!.Start.Line;
                if (parser.Current is DocumentStart && ++documents > 1)
                {
                    throw builder.Refused("The text must hold one document.", "", line);
                }

                Take(builder, parser.Current, line);
            }
        }
        catch (YamlException e)
        {
            throw builder.Refused("The text must be valid YAML.", "", (int)e.Start.Line);
        }

        return builder.Root ?? throw builder.Refused("The text must not be empty.", "", 1);
    }

    private static void Take(NodeBuilder builder, ParsingEvent current, int line)
    {
        if (current is AnchorAlias or NodeEvent { Anchor.IsEmpty: false })
        {
            throw builder.Refused("Anchors and aliases are not allowed.", "", line);
        }

        if (current is NodeEvent { Tag.IsEmpty: false })
        {
            throw builder.Refused("Tags are not allowed.", "", line);
        }

        switch (current)
        {
            case MappingStart or SequenceStart when builder.ExpectsKey:
                throw builder.Refused("The name of a field must be a plain text.", "", line);
            case MappingStart:
                builder.Begin(NodeKind.Object, line);
                break;
            case SequenceStart:
                builder.Begin(NodeKind.List, line);
                break;
            case MappingEnd or SequenceEnd:
                builder.End();
                break;
            case Scalar scalar when builder.ExpectsKey:
                builder.Key(scalar.Value, line);
                break;
            case Scalar scalar:
                builder.Scalar(KindOf(scalar), scalar.Value, line);
                break;
        }
    }

    private static NodeKind KindOf(Scalar scalar) =>
        scalar.Style != ScalarStyle.Plain ? NodeKind.String
        : scalar.Value is "" or "null" or "~" ? NodeKind.Null
        : scalar.Value is "true" or "false" ? NodeKind.Boolean
        : Number().IsMatch(scalar.Value) ? NodeKind.Number
        : NodeKind.String;

    // RFC 8259, section 6.
    [GeneratedRegex(@"\A-?(0|[1-9][0-9]*)(\.[0-9]+)?([eE][+-]?[0-9]+)?\z", RegexOptions.CultureInvariant)]
    private static partial Regex Number();
}
