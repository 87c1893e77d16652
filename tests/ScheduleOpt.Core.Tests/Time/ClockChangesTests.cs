using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Core.Time;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Core.Tests.Time;

/// <summary>Every clock change of ten zones from 2000 to 2025 against Python's zoneinfo on the system's own time-zone data.</summary>
/// <remarks>
/// Later years are compared too where both sides hold the same number of changes; rules for the future differ between editions of the data.
/// </remarks>
public sealed class ClockChangesTests
{
    private const string Script = """
        import json, sys
        from datetime import datetime, timedelta, timezone
        from zoneinfo import ZoneInfo
        UTC = timezone.utc
        def offset(zone, second):
            return int(datetime.fromtimestamp(second, zone).utcoffset().total_seconds())
        def changes(zone):
            at = int(datetime(2000, 1, 1, tzinfo=UTC).timestamp())
            end = int(datetime(2036, 1, 1, tzinfo=UTC).timestamp())
            step = 6 * 3600
            while at < end:
                if offset(zone, at) != offset(zone, at + step):
                    low, high = at, at + step
                    while high - low > 1:
                        middle = (low + high) // 2
                        low, high = (middle, high) if offset(zone, middle) == offset(zone, low) else (low, middle)
                    yield high
                at += step
        def second(local, zone, fold):
            return int(local.replace(tzinfo=zone, fold=fold).timestamp())
        out = {}
        for name in json.load(sys.stdin):
            zone = ZoneInfo(name)
            out[name] = []
            for change in changes(zone):
                middle = datetime.fromtimestamp(change - 1, zone).replace(tzinfo=None) + timedelta(seconds=1)
                probes = []
                for quarter in range(-12, 13):
                    local = middle + timedelta(minutes=15 * quarter)
                    first, last = second(local, zone, 0), second(local, zone, 1)
                    skipped = datetime.fromtimestamp(first, zone).replace(tzinfo=None) != local
                    probes.append([local.isoformat(), change if skipped else first, first if skipped else last, skipped])
                out[name].append({"at": change, "before": offset(zone, change - 1), "after": offset(zone, change), "probes": probes})
        print(json.dumps(out))
        """;

    private static readonly string[] Zones =
    [
        "America/Chicago", "America/New_York", "America/Los_Angeles", "America/St_Johns", "America/Sao_Paulo",
        "Europe/London", "Europe/Berlin", "Europe/Dublin", "Australia/Lord_Howe", "Pacific/Auckland",
    ];

    private static readonly Instant From = Instant.FromUtc(2000, 1, 1, 0, 0);
    private static readonly Instant Strictly = Instant.FromUtc(2026, 1, 1, 0, 0);
    private static readonly Instant Until = Instant.FromUtc(2036, 1, 1, 0, 0);

    private static readonly Lazy<string?> Theirs = new(() => PythonScript.InterpreterWith("zoneinfo") is { } python
        ? PythonScript.Run(python, Script, JsonSerializer.Serialize(Zones))
        : null);

    [Fact]
    public void Changes_OfTenZones_AreThoseOfTheOtherImplementation()
    {
        using var theirs = Expected();
        foreach (var name in Zones)
        {
            var expected = theirs.RootElement.GetProperty(name).EnumerateArray()
                .Select(c => (At: c.GetProperty("at").GetInt64(), Before: c.GetProperty("before").GetInt32(), After: c.GetProperty("after").GetInt32()))
                .ToArray();
            var ours = Changes(DateTimeZoneProviders.Tzdb[name]).ToArray();
            var until = expected.Length == ours.Length ? Until : Strictly;

            Assert.NotEmpty(ours);
            Assert.True(
                expected.Where(c => c.At < until.ToUnixTimeSeconds()).SequenceEqual(ours.Where(c => c.At < until.ToUnixTimeSeconds())),
                $"{name}: {expected.Length} changes there, {ours.Length} here");
        }
    }

    [Fact]
    public void LocalTimes_RoundEveryChange_BecomeTheSameInstants()
    {
        using var theirs = Expected();
        var (compared, skipped) = (0, 0);
        foreach (var name in Zones)
        {
            var zone = new HouseholdZone(DateTimeZoneProviders.Tzdb[name]);
            foreach (var probe in theirs.RootElement.GetProperty(name).EnumerateArray()
                .Where(c => c.GetProperty("at").GetInt64() < Strictly.ToUnixTimeSeconds())
                .SelectMany(c => c.GetProperty("probes").EnumerateArray()))
            {
                var local = LocalDateTimePattern.GeneralIso.Parse(probe[0].GetString()!).Value;
                var (departure, back) = (zone.Departure(local), zone.Return(local));

                Assert.True(departure.Instant.ToUnixTimeSeconds() == probe[1].GetInt64(), $"{name}: departure at {local}");
                Assert.True(back.Instant.ToUnixTimeSeconds() == probe[2].GetInt64(), $"{name}: return at {local}");
                Assert.True((departure.Reading == LocalReading.Skipped) == probe[3].GetBoolean(), $"{name}: {local} in a gap");
                Assert.Equal(departure.Shown, back.Shown);
                compared++;
                skipped += probe[3].GetBoolean() ? 1 : 0;
            }
        }

        // Ten zones, two changes in most of 26 years, 25 probes each.
        Assert.InRange(compared, 10_000, 14_000);
        Assert.InRange(skipped, 700, 1_300);
    }

    [Fact]
    public void Kolkata_From2000To2035_HasNoChange() => Assert.Empty(Changes(DateTimeZoneProviders.Tzdb["Asia/Kolkata"]));

    private static JsonDocument Expected()
    {
        Assert.SkipUnless(Directory.Exists("/usr/share/zoneinfo/America"), "No time-zone data in /usr/share/zoneinfo: nothing to compare with.");
        Assert.SkipWhen(Theirs.Value is null, "Python 3.9 or later is not installed here: nothing to compare with.");
        return JsonDocument.Parse(Theirs.Value!);
    }

    private static IEnumerable<(long At, int Before, int After)> Changes(DateTimeZone zone)
    {
        var intervals = zone.GetZoneIntervals(From, Until).ToArray();
        for (var i = 1; i < intervals.Length; i++)
        {
            if (intervals[i].WallOffset != intervals[i - 1].WallOffset)
            {
                yield return (intervals[i].Start.ToUnixTimeSeconds(), intervals[i - 1].WallOffset.Seconds, intervals[i].WallOffset.Seconds);
            }
        }
    }
}
