namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>Where an entry of a feed stands and what it belongs to.</summary>
internal sealed class EspiLinks
{
    private const int MostRelated = 50;

    private readonly List<string> related = [];

    public string? Self { get; private set; }

    public string? Up { get; private set; }

    public IReadOnlyList<string> Related => related;

    /// <summary>When the entry was last changed. [100 ns]</summary>
    public long Updated { get; set; } = long.MinValue;

    public void Add(string? relation, string? address)
    {
        if (string.IsNullOrWhiteSpace(address) || address.Length > MeterLimits.LinkCharacters)
        {
            return;
        }

        var path = PathOf(address.Trim());
        switch (relation)
        {
            case "self":
                Self = path;
                break;
            case "up":
                Up = path;
                break;
            case "related" when related.Count < MostRelated:
                related.Add(path);
                break;
        }
    }

    /// <summary>Keeps of an entry with readings what says where it belongs: there may be hundreds of thousands of them under one address.</summary>
    public void KeepUpAlone(Dictionary<string, string> addresses)
    {
        related.Clear();
        if (Up is null)
        {
            return;
        }

        Self = null;
        if (addresses.TryGetValue(Up, out var same))
        {
            Up = same;
        }
        else if (addresses.Count < MeterLimits.Described)
        {
            addresses.Add(Up, Up);
        }
    }

    /// <summary>The address of the list that an entry stands in.</summary>
    public static string Above(string path) => path.LastIndexOf('/') is var at and > 0 ? path[..at] : "";

    // Some files write whole addresses in one link and paths in another.
    private static string PathOf(string address)
    {
        var host = address.IndexOf("://", StringComparison.Ordinal);
        var path = host < 0 ? 0 : address.IndexOf('/', host + 3);
        var end = address.IndexOfAny(['?', '#']);
        address = end < 0 ? address : address[..end];
        return path < 0 || path >= address.Length ? "" : address[path..].TrimEnd('/').Replace("//", "/", StringComparison.Ordinal);
    }
}
