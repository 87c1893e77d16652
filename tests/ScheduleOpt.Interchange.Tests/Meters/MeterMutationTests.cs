using System.Globalization;
using System.Text;
using ScheduleOpt.Interchange.Meters;

namespace ScheduleOpt.Interchange.Tests.Meters;

// Files that someone might really send, with slips or with malice: readings or a clear fault, never an exception, within bounds of memory.
public class MeterMutationTests
{
    private const int PerFile = 400;
    private const long MostAllocated = 200L * 1024 * 1024;

    private static readonly MissingIntervals[] Rules = [MissingIntervals.Refuse, MissingIntervals.Zero, MissingIntervals.NeighbouringWeeks];

    public static TheoryData<string> Files => ["hours", "register", "blocks", "25 hours", "usage.csv", "long", "wide", "two stamps", "two flows"];

    private static string Text(string file) => file switch
    {
        "hours" => Espi.File(Espi.Type(), Espi.Hours(310, 290, 280, 270)),
        "register" => Espi.File(Espi.Type(accumulation: 1), Espi.Hours(310, 690, 1280, 2270)),
        "blocks" => Espi.File(Espi.Type(flow: 4), Espi.Hours(310, -290), Espi.Hours(310, -290),
            Espi.Block(Espi.Reading(null, null, 5) + Espi.Reading(null, null, 6), Espi.Start + 7200, 7200)),
        "25 hours" => Samples.Text("usage_25h.xml"),
        "usage.csv" => Samples.Text("usage.csv"),
        "long" => "Date,Time,kWh\n" + string.Concat(Enumerable.Range(0, 48).Select(h => $"2026-11-0{1 + (h / 24)},{h % 24:00}:00,{h}.5\n")),
        "wide" => "Date," + string.Join(',', Enumerable.Range(1, 24).Select(h => $"HE{h}")) + "\nkWh\n"
            + string.Concat(Enumerable.Range(1, 5).Select(d => $"3/{d + 5}/2026,{string.Join(',', Enumerable.Range(d, 24))}\n")),
        "two stamps" => "Start,End,kW\n"
            + string.Concat(Enumerable.Range(0, 24).Select(h => $"2026-03-08T{h:00}:00:00-05:00,2026-03-08T{h:00}:59:59-05:00,{h}\n")),
        _ => "Date;Time;Delivered kWh;Received kWh\n" + string.Concat(Enumerable.Range(1, 24).Select(h => $"15.01.2026;{h:00}:00;{h},5;0,{h}\n")),
    };

    [Theory]
    [MemberData(nameof(Files))]
    public void MutatedFile_IsReadingsOrFaults(string file)
    {
        var text = Text(file);
        var random = new Random(file.Length + (text.Length * 31));
        int read = 0, refused = 0;
        for (var i = 0; i < PerFile; i++)
        {
            var mutated = Mutation.Of(text, random);
            var options = Samples.In(Samples.Eastern) with { Missing = Rules[i % Rules.Length] };
            var before = GC.GetAllocatedBytesForCurrentThread();
            var reading = MeterFile.Read(mutated, options);
            Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < MostAllocated, mutated);
            if (reading.IsRead)
            {
                read++;
                Assert.All(reading.Value.Channels, c => Assert.True(c.Series.TotalKilowattHours >= 0 && c.Series.Count <= MeterLimits.Readings));
            }
            else
            {
                refused++;
                Assert.All(reading.Faults, f => Assert.StartsWith("#", f.Pointer, StringComparison.Ordinal));
                Assert.All(reading.Faults, f => Assert.NotEmpty(f.Rule));
                Assert.All(reading.Faults, f => Assert.True(f.Value.Length < 200, f.Value));
            }
        }

        // Both outcomes occur, or the mutations would prove little.
        Assert.True(read > 0 && refused > 0, $"{read} read, {refused} refused");
    }

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
        var reading = Peak(() => MeterFile.Read(text, Samples.In(Samples.Eastern) with { Missing = MissingIntervals.Zero }), out var peak);

        Assert.Contains(reading.Faults, f => f.Rule.Contains(rule, StringComparison.Ordinal));
        Assert.True(peak < MostAllocated, $"{peak / 1024 / 1024} MiB");
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
        Assert.True(peak < MostAllocated, $"{peak / 1024 / 1024} MiB");
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

    /// <summary>Largest heap after a collection beyond what was before: what was in use at a time, and garbage that had grown old.</summary>
    private static T Peak<T>(Func<T> work, out long peak)
    {
        GC.Collect();
        var before = GC.GetTotalMemory(true);
        long most = 0;
        using var done = new ManualResetEventSlim();
        var watch = new Thread(() =>
        {
            while (!done.Wait(2))
            {
                most = Math.Max(most, GC.GetGCMemoryInfo(GCKind.Any).HeapSizeBytes - before);
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
