namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Writes JSON pointers in fragment form (RFC 6901).</summary>
internal static class Pointer
{
    public static string Of(IEnumerable<string> path) => "#" + string.Concat(path.Select(p => "/" + Escaped(p)));

    public static string Join(string pointer, string name) => $"{pointer}/{Escaped(name)}";

    private static string Escaped(string name)
    {
        var shortened = name.Length <= 60 ? name : name[..57] + "...";
        return shortened.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal);
    }
}
