using System.Globalization;
using System.IO.Compression;
using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Published;

/// <summary>Series of published cases; their licence is beside them.</summary>
internal static class PublishedData
{
    /// <summary>The values of a file, in kW.</summary>
    public static double[] Kw(string name)
    {
        using var stream = typeof(PublishedData).Assembly.GetManifestResourceStream(name)!;
        using Stream plain = name.EndsWith(".gz", StringComparison.Ordinal) ? new GZipStream(stream, CompressionMode.Decompress) : stream;
        using var reader = new StreamReader(plain);
        return [.. reader.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(line => double.Parse(line, CultureInfo.InvariantCulture))];
    }

    /// <summary>The house less its roof, as import and export.</summary>
    /// <param name="year">Its year, UTC.</param>
    /// <param name="load">Load. [kW]</param>
    /// <param name="roof">Output of the roof, negative while it draws. [kW]</param>
    public static (MeteredSeries Import, MeteredSeries Export) Net(int year, double[] load, double[] roof)
    {
        var perHour = load.Length / 8760;
        var net = load.Zip(roof, (l, r) => (l - r) / perHour).ToArray();
        MeteredSeries Series(Func<double, double> part) =>
            MeteredSeries.FromKilowattHours(Instant.FromUtc(year, 1, 1, 0, 0), Duration.FromMinutes(60 / perHour), net.Select(part).ToArray());
        return (Series(n => Math.Max(0, n)), Series(n => Math.Max(0, -n)));
    }
}
