using System.Text;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Reads a text into nodes: JSON where it begins with a brace, YAML otherwise.</summary>
internal static class DocumentText
{
    public static Reading<DocumentNode> Read(string text)
    {
        if (text.Length > DocumentLimits.Bytes || Encoding.UTF8.GetByteCount(text) > DocumentLimits.Bytes)
        {
            return Reading<DocumentNode>.Refused(new Fault("#", "A rate-plan document must not be larger than 1 MiB."));
        }

        // A byte order mark is left over from a file.
        text = text.StartsWith('\ufeff') ? text[1..] : text;
        try
        {
            var root = text.AsSpan().TrimStart().StartsWith("{") ? JsonNodes.Read(text) : YamlNodes.Read(text);
            return root.Kind == NodeKind.Object
                ? root
                : Reading<DocumentNode>.Refused(new Fault("#", "A rate-plan document must be an object with named fields.", root.Shown, root.Line));
        }
        catch (DocumentRefusedException refused)
        {
            return Reading<DocumentNode>.Refused(refused.Fault);
        }
    }
}
