using System.Text.Json;
using NodaTime;
using ScheduleOpt.Interchange.Calendars;
using ScheduleOpt.Interchange.Demo;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Interchange.Tests.Calendars;

/// <summary>The demo calendar against python3-icalendar: what another parser reads out of the same octets.</summary>
public sealed class SecondParserTests
{
    private const string Script = """
        import json, sys, icalendar
        out = []
        for event in icalendar.Calendar.from_ical(sys.stdin.buffer.read()).walk("VEVENT"):
            zone = lambda key: event[key].dt.astimezone(__import__("datetime").timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ")
            excepted = event.get("EXDATE")
            out.append({"summary": str(event["SUMMARY"]), "start": zone("DTSTART"), "end": zone("DTEND"),
                        "distance": float(event["X-TRIP-DISTANCE"]), "except": len(excepted.dts) if excepted else 0})
        print(json.dumps(out))
        """;

    [Fact]
    public void DemoCalendar_FirstInstances_AreThoseOfTheOtherParser()
    {
        var python = PythonScript.InterpreterWith("icalendar");
        Assert.SkipWhen(python is null, "python3-icalendar is not installed here: nothing to compare with.");

        using var theirs = JsonDocument.Parse(PythonScript.Run(python!, Script, DemoHousehold.CalendarText));
        var from = Instant.FromUtc(2026, 1, 1, 6, 0);
        var trips = CalendarText.Read(DemoHousehold.CalendarText, DemoHousehold.Zone, from, from + Duration.FromDays(396), new CalendarReadingOptions()).Value.Trips;

        Assert.Equal(trips.Select(t => t.Label).Distinct().Count(), theirs.RootElement.GetArrayLength());
        foreach (var seen in theirs.RootElement.EnumerateArray())
        {
            var ours = trips.First(t => t.Label == seen.GetProperty("summary").GetString());
            Assert.Equal(seen.GetProperty("start").GetString(), ours.Departure.ToString());
            Assert.Equal(seen.GetProperty("end").GetString(), ours.Return.ToString());
            Assert.Equal(seen.GetProperty("distance").GetDouble(), ours.Distance.Kilometres, 9);
        }

        // 52 weeks of weekdays and the rest of January, less the dates excepted.
        var commute = theirs.RootElement.EnumerateArray().Single(e => e.GetProperty("summary").GetString() == "Commute");
        var weekdays = Enumerable.Range(0, 395).Select(d => new LocalDate(2026, 1, 2).PlusDays(d)).Where(d => d <= new LocalDate(2027, 1, 31)).Count(d => d.DayOfWeek < IsoDayOfWeek.Saturday);
        Assert.Equal(weekdays - commute.GetProperty("except").GetInt32(), trips.Count(t => t.Label == "Commute"));
    }
}
