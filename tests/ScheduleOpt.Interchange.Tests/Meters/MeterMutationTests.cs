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
}
