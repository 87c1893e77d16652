using System.Globalization;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Interchange.Calendars;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Interchange.Tests.Calendars;

/// <summary>Our recurrence against python3-dateutil, an implementation of RFC 5545 of its own.</summary>
/// <remarks>dateutil leaves out a first start that its rule does not name; we keep it. So the first start is set aside on both sides.</remarks>
public sealed class SecondExpansionTests
{
    private const string Script = """
        import json, sys, datetime
        from dateutil.rrule import rrulestr
        out = []
        for case in json.load(sys.stdin):
            start = datetime.datetime.fromisoformat(case["start"])
            low, high = (datetime.datetime.fromisoformat(case[k]) for k in ("low", "high"))
            rule = rrulestr(case["rule"], dtstart=start)
            out.append([d.isoformat() for d in rule.between(low, high, inc=True)])
        print(json.dumps(out))
        """;

    private static readonly string[] Fixed =
    [
        "FREQ=MONTHLY", "FREQ=MONTHLY;BYMONTHDAY=-1", "FREQ=MONTHLY;BYDAY=5FR", "FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-1",
        "FREQ=YEARLY", "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=29", "FREQ=YEARLY;BYYEARDAY=1,100,-1", "FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO",
        "FREQ=YEARLY;BYDAY=20MO", "FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13", "FREQ=WEEKLY;INTERVAL=2;BYDAY=TU,SU;WKST=MO",
        "FREQ=WEEKLY;INTERVAL=2;BYDAY=TU,SU;WKST=SU", "FREQ=DAILY;BYMONTH=1", "FREQ=YEARLY;BYMONTH=1;BYDAY=SU,MO", "FREQ=MONTHLY;INTERVAL=18;BYMONTHDAY=10",
    ];

    [Fact]
    public void Rules_FixedAndRandom_GiveTheSameStarts()
    {
        var python = PythonScript.InterpreterWith("dateutil.rrule");
        Assert.SkipWhen(python is null, "python3-dateutil is not installed here: nothing to compare with.");

        var random = new Random(20260114);
        var starts = new[] { "2026-01-05T07:10:00", "2025-12-31T07:10:00", "2019-03-30T06:00:00", "2024-02-29T22:15:00", "2012-05-11T00:00:00" };
        string[] rules = [.. Fixed, .. Enumerable.Range(0, 80).Select(_ => RandomRule(random))];
        var cases = rules.SelectMany(rule => starts.Select(start => new { rule, start, low = "2026-01-01T00:00:00", high = "2026-12-31T23:59:59" })).ToArray();

        var theirs = JsonSerializer.Deserialize<string[][]>(PythonScript.Run(python!, Script, JsonSerializer.Serialize(cases)))!;

        Assert.Equal(cases.Length, theirs.Length);
        for (var i = 0; i < cases.Length; i++)
        {
            var first = Local(cases[i].start);
            var ours = Ours(cases[i].rule, first).Where(s => s != first);
            Assert.True(
                theirs[i].Select(Local).Where(s => s != first).SequenceEqual(ours),
                $"{cases[i].rule} from {cases[i].start}: {string.Join(" ", ours.Take(8))} against {string.Join(" ", theirs[i].Take(8))}");
        }
    }

    private static IEnumerable<LocalDateTime> Ours(string rule, LocalDateTime first)
    {
        var reading = TripRecurrence.Expand(
            rule,
            first,
            first.PlusMinutes(1),
            [],
            new Core.Time.HouseholdZone(DateTimeZone.Utc),
            Instant.FromUtc(2026, 1, 1, 0, 0),
            Instant.FromUtc(2027, 1, 1, 0, 0));

        // A rule without any instance is refused; the other implementation gives none.
        return reading.IsRead ? reading.Value.Instances.Select(i => i.Departure.Shown) : [];
    }

    private static string RandomRule(Random random)
    {
        string[] days = ["MO", "TU", "WE", "TH", "FR", "SA", "SU"];
        string Days() => string.Join(",", days.Where(_ => random.Next(3) == 0).DefaultIfEmpty("WE"));
        var frequency = random.Next(4);
        var rule = new[] { "FREQ=DAILY", "FREQ=WEEKLY", "FREQ=MONTHLY", "FREQ=YEARLY" }[frequency];
        rule += random.Next(2) == 0 ? $";INTERVAL={random.Next(1, 5)}" : "";
        rule += random.Next(3) switch
        {
            0 => $";BYDAY={Days()}",
            1 when frequency >= 2 => $";BYDAY={random.Next(1, 5)}{days[random.Next(7)]},-1{days[random.Next(7)]}",
            2 when frequency != 1 => $";BYMONTHDAY={random.Next(1, 32)},{-random.Next(1, 20)}",
            _ => "",
        };
        rule += random.Next(3) == 0 ? $";BYMONTH={random.Next(1, 7)},{random.Next(7, 13)}" : "";
        return rule + random.Next(3) switch
        {
            0 => $";COUNT={random.Next(1, 600)}",
            1 => $";UNTIL=2026{random.Next(1, 13).ToString("00", CultureInfo.InvariantCulture)}15T071000",
            _ => "",
        };
    }

    private static LocalDateTime Local(string text) => LocalDateTimePattern.GeneralIso.Parse(text).Value;
}
