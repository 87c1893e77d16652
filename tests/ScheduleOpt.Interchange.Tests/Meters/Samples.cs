using System.IO.Compression;
using NodaTime;
using ScheduleOpt.Interchange.Meters;

namespace ScheduleOpt.Interchange.Tests.Meters;

/// <summary>The files of Data, whose sources and licences stand in NOTICE, and texts made for a test.</summary>
internal static class Samples
{
    public static readonly DateTimeZone Eastern = Zone("America/New_York"), Pacific = Zone("America/Los_Angeles");

    public static DateTimeZone Zone(string id) => DateTimeZoneProviders.Tzdb[id];

    public static MeterFileOptions In(DateTimeZone zone) => new() { Zone = zone };

    public static Stream Open(string name)
    {
        var stream = typeof(Samples).Assembly.GetManifestResourceStream("Meters/" + name)!;
        return name.EndsWith(".gz", StringComparison.Ordinal) ? new GZipStream(stream, CompressionMode.Decompress) : stream;
    }

    public static string Text(string name)
    {
        using var reader = new StreamReader(Open(name));
        return reader.ReadToEnd();
    }
}
