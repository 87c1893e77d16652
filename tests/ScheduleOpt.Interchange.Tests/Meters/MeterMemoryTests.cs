using System.Globalization;
using System.Runtime;
using System.Text;
using ScheduleOpt.Interchange.Meters;

namespace ScheduleOpt.Interchange.Tests.Meters;

// What the largest files and hostile ones take of memory. Alone: the heap belongs to the whole program.
[CollectionDefinition(Alone, DisableParallelization = true)]
[Collection(Alone)]
public class MeterMemoryTests
{
    private const string Alone = "memory";
    private const long Most = 200L * 1024 * 1024;

    [Theory]
    [InlineData("deep", "deeper")]
    [InlineData("names", "different names")]
    [InlineData("attribute", "No tag")]
    [InlineData("text", "No tag")]
    [InlineData("entries", "entries")]
    [InlineData("entities", "document type")]
    [InlineData("row", "row")]
    [InlineData("quote", "quotation mark")]
    [InlineData("years", "intervals")]
    [InlineData("flows", "all flows together")]
    public void HostileFile_IsRefusedWithinBounds(string kind, string rule)
    {
        var text = Hostile(kind);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var reading = MeterFile.Read(text, Samples.In(Samples.Eastern) with { Missing = MissingIntervals.Zero });
        var allocated = GC.GetAllocatedBytesForCurrentThread() - before;

        // All that was ever allocated is at least what was in use at a time, and the same on every run.
        Assert.Contains(reading.Faults, f => f.Rule.Contains(rule, StringComparison.Ordinal));
        Assert.InRange(allocated, 1, Most);
    }

    [Theory]
    [InlineData("xml")]
    [InlineData("csv")]
    public void LargestFile_IsReadWithinBounds(string kind)
    {
        // 20 years of five-minute readings of XML are more than 50 MiB: as many as fit.
        const int Readings = 400_000;
        using var stream = new MemoryStream();
        using (var writer = new StreamWriter(stream, new UTF8Encoding(false), 65_536, leaveOpen: true))
        {
            if (kind == "xml")
            {
                var file = Espi.File(Espi.Type(length: 300), Espi.Block("@", Espi.Start, 300)).Split('@');
                writer.Write(file[0]);
                for (var i = 0; i < Readings; i++)
                {
                    writer.Write(string.Create(CultureInfo.InvariantCulture,
                        $"<IntervalReading><timePeriod><duration>300</duration><start>{Espi.Start + (300L * i)}</start></timePeriod><value>{i % 99}</value></IntervalReading>"));
                }

                writer.Write(file[1]);
            }
            else
            {
                writer.Write("Time,kWh\n");
                for (var i = 0; i < 1_900_000; i++)
                {
                    writer.Write(NodaTime.Instant.FromUnixTimeSeconds(Espi.Start + (300L * i)).ToString("uuuu-MM-dd'T'HH:mm'Z'",
                        CultureInfo.InvariantCulture));
                    writer.Write(i % 2 == 0 ? ",1\n" : ",2\n");
                }
            }
        }

        stream.Position = 0;
        Assert.True(stream.Length < MeterLimits.Bytes, $"{stream.Length}");
        var reading = Peak(() => MeterFile.Read(stream, Samples.In(Samples.Eastern)), out var peak);
        Assert.Equal(kind == "xml" ? Readings : 1_900_000, reading.Value.House!.Series.Count);

        // Nothing measured would be no answer: a file this large takes more than one MiB.
        Assert.InRange(peak, 1024 * 1024, Most);
    }

    private static string Hostile(string kind)
    {
        const int Many = 5_000_000;
        return kind switch
        {
            "deep" => "<feed>" + string.Concat(Enumerable.Repeat("<a>", Many / 3)),
            "names" => "<feed>" + string.Concat(Enumerable.Range(0, Many / 12).Select(i => $"<n{i}/>")),
            "attribute" => $"<feed a=\"{new string('>', Many)}\"/>",
            "text" => $"<feed><updated>{new string('x', Many)}</updated></feed>",
            "entries" => "<feed>" + string.Concat(Enumerable.Repeat("<entry/>", Many / 8)),
            "entities" => "<!DOCTYPE feed [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;\">]><feed>&b;</feed>",
            "row" => "Date,kWh\n" + new string(',', Many),
            "quote" => "Date,kWh\n\"" + string.Concat(Enumerable.Repeat("\"\"\n,", Many / 4)),
            "flows" => Espi.Feed([Espi.Point(), .. Enumerable.Range(1, 500).Select(i => i.ToString(CultureInfo.InvariantCulture)).Select(i =>
                Espi.Meter(i) + Espi.Type(length: 60, meter: i)
                    + Espi.Block(Espi.Reading(Espi.Start - 50_000_000, 60, 1) + Espi.Reading(Espi.Start, 60, 1), meter: i))]),
            _ => Espi.File(Espi.Type(length: 60), Espi.Block(Espi.Reading(Espi.Start - 1_500_000_000, 60, 1) + Espi.Reading(Espi.Start, 60, 1))),
        };
    }

    /// <summary>Largest heap at a collection beyond what it was before, free space of earlier tests pressed out: what was in use at a time, and garbage that had grown old.</summary>
    private static T Peak<T>(Func<T> work, out long peak)
    {
        GCSettings.LargeObjectHeapCompactionMode = GCLargeObjectHeapCompactionMode.CompactOnce;
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Forced, blocking: true, compacting: true);
        var before = GC.GetGCMemoryInfo(GCKind.Any);
        long most = 0;
        using var done = new ManualResetEventSlim();
        var watch = new Thread(() =>
        {
            while (!done.Wait(2))
            {
                var now = GC.GetGCMemoryInfo(GCKind.Any);
                most = now.Index > before.Index ? Math.Max(most, now.HeapSizeBytes - before.HeapSizeBytes) : most;
            }
        });
        watch.Start();
        var result = work();
        done.Set();
        watch.Join();
        peak = most;
        return result;
    }
}
