using System.Globalization;
using System.Text.Json;
using ScheduleOpt.Interchange.Meters;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Interchange.Tests.Meters;

// Random feeds: blocks in any order and sent again later with other values, two meters, multiples, readings without a time of their own; read by a
// few lines of Python as well.
public class SecondReaderTests
{
    private const string Script = """
        import json, sys, xml.etree.ElementTree as tree
        from decimal import Decimal
        atom, espi = "{http://www.w3.org/2005/Atom}", "{http://naesb.org/espi}"
        def read(text):
            types, blocks = {}, []
            for entry in tree.fromstring(text).iter(atom + "entry"):
                links = {l.get("rel"): l.get("href") for l in entry.iter(atom + "link")}
                kind = entry.find(f"{atom}content/{espi}ReadingType")
                block = entry.find(f"{atom}content/{espi}IntervalBlock")
                if kind is not None:
                    types[links["self"].split("/")[-1]] = {e.tag[len(espi):]: e.text for e in kind}
                if block is not None:
                    blocks.append((entry.find(atom + "updated").text, links["up"].split("/")[-2], block))
            energy = {}
            for updated, meter, block in sorted(blocks, key=lambda b: b[0]):
                length = int(types[meter]["intervalLength"])
                scale = Decimal(10) ** int(types[meter]["powerOfTenMultiplier"])
                at = int(block.find(f"{espi}interval/{espi}start").text)
                for reading in block.iter(espi + "IntervalReading"):
                    start = reading.find(f"{espi}timePeriod/{espi}start")
                    at = int(start.text) if start is not None else at
                    energy[(meter, at)] = int(reading.find(espi + "value").text) * scale / 1000
                    at += length
            meters = sorted({m for m, _ in energy})
            return [[str(energy[k]) for k in sorted(energy) if k[0] == m] for m in meters]
        print(json.dumps([read(text) for text in json.load(sys.stdin)]))
        """;

    [Fact]
    public void RandomFeeds_ReadingByReading_AreWhatAnotherReaderFinds()
    {
        var python = PythonScript.InterpreterWith("xml.etree.ElementTree");
        Assert.SkipWhen(python is null, "Python is not installed here: nothing to compare with.");

        var random = new Random(4711);
        var feeds = Enumerable.Range(0, 200).Select(_ => Feed(random)).ToArray();
        using var theirs = JsonDocument.Parse(PythonScript.Run(python!, Script, JsonSerializer.Serialize(feeds)));
        for (var f = 0; f < feeds.Length; f++)
        {
            var ours = MeterFile.Read(feeds[f], Samples.In(Samples.Eastern));
            Assert.True(ours.IsRead, string.Join("\n", ours.Faults) + feeds[f]);
            var expected = theirs.RootElement[f].EnumerateArray()
                .Select(m => m.EnumerateArray().Select(v =>
                    (long)Math.Round(decimal.Parse(v.GetString()!, NumberStyles.Float, CultureInfo.InvariantCulture) * 1_000_000,
                    MidpointRounding.AwayFromZero)).ToArray());
            Assert.Equal(expected, ours.Value.Channels.OrderBy(c => c.Direction).Select(c => c.Series.MicroKilowattHours.ToArray()));
        }
    }

    private static string Feed(Random random)
    {
        var entries = new List<string> { Espi.Point() };
        foreach (var meter in random.Next(2) == 0 ? ["1"] : new[] { "1", "2" })
        {
            var length = random.Next(2) == 0 ? 900 : 3600;
            entries.Add(Espi.Meter(meter));
            entries.Add(Espi.Type(power: random.Next(-4, 4), flow: meter == "1" ? 1 : 19, length: length, meter: meter));
            var (at, number) = (Espi.Start, 0);
            for (var block = random.Next(1, 8); block > 0; block--)
            {
                var count = random.Next(1, 12);
                for (var sent = random.Next(3) == 0 ? 3 : 1; sent > 0; sent--)
                {
                    var stated = random.Next(3) > 0;
                    var readings = Enumerable.Range(0, count).Select(i =>
                        Espi.Reading(stated ? at + (length * i) : null, stated ? length : null, random.Next(0, 2000), random.Next(2) == 0 ? 17
                        : null));
                    entries.Add(Espi.Block(
                        string.Concat(readings), at, count * length, meter,
                        string.Create(CultureInfo.InvariantCulture, $"2026-02-{random.Next(1, 28):00}T{number / 60:00}:{number++ % 60:00}:00Z")));
                }

                at += count * length;
            }
        }

        var order = entries.ToArray();
        random.Shuffle(order);
        return Espi.Feed(order);
    }
}
