using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Ical.Net;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Outputs;
using ScheduleOpt.Interchange.Tests.Requests;
using ScheduleOpt.Interchange.Tests.Requests.Households;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Interchange.Tests.Outputs;

public sealed class CalendarFeedTests
{
    // Long, and with characters of two, three and four octets, so that folds fall inside and between them.
    private const string LongName = "Großmutters Wagen, klein; 青い車 \\ 🚗🚗🚗🚗 mit Anhänger";

    [Fact]
    public void Lines_OfAFeed_EndInCrlfAndHaveAtMost75Octets()
    {
        var text = Text(Named(LongName));

        Assert.DoesNotContain('\n', text.Replace("\r\n", "", StringComparison.Ordinal));
        Assert.All(text.Split("\r\n"), line => Assert.InRange(Encoding.UTF8.GetByteCount(line), 0, 75));
        Assert.Contains("\r\n ", text, StringComparison.Ordinal);
        Assert.Contains(
            "SUMMARY:Charge " + LongName.Replace("\\", "\\\\", StringComparison.Ordinal).Replace(",", "\\,", StringComparison.Ordinal).Replace(";", "\\;", StringComparison.Ordinal),
            text.Replace("\r\n ", "", StringComparison.Ordinal),
            StringComparison.Ordinal);
    }

    [Fact]
    public void Feed_ReadByAnotherLibrary_HasTheWindows()
    {
        var answer = Named(LongName);
        var events = Calendar.Load(Text(answer))!.Events;
        var windows = answer.Cars.SelectMany(c => c.Windows).ToArray();

        Assert.NotEmpty(windows);
        Assert.Equal(windows.Select(w => w.Uid).Order(), events.Select(e => e!.Uid!).Order());
        foreach (var window in windows)
        {
            var seen = events.Single(e => e!.Uid == window.Uid)!;
            Assert.Equal(window.Start.ToDateTimeUtc(), seen.DtStart!.AsUtc);
            Assert.Equal(window.End.ToDateTimeUtc(), seen.DtEnd!.AsUtc);
            Assert.Equal(answer.Request.AsOf.ToDateTimeUtc(), seen.DtStamp!.AsUtc);
            Assert.Equal("CONFIRMED", seen.Status);
            Assert.Equal("TRANSPARENT", seen.Transparency);
        }

        Assert.Equal($"Charge {LongName}", events.First()!.Summary);
    }

    [Fact]
    public void Feed_ReadByPython_HasTheWindows()
    {
        const string Script = """
            import json, sys, icalendar
            calendar = icalendar.Calendar.from_ical(sys.stdin.buffer.read())
            print(json.dumps([[str(e["UID"]), e["DTSTART"].dt.strftime("%Y-%m-%dT%H:%M:%SZ"), int(e["SEQUENCE"]), str(e["SUMMARY"]), len(e.errors)]
                              for e in calendar.walk("VEVENT")]))
            """;
        var python = PythonScript.InterpreterWith("icalendar");
        Assert.SkipWhen(python is null, "python3-icalendar is not installed here: nothing to compare with.");

        var answer = Named("Blue, the big one");
        using var seen = JsonDocument.Parse(PythonScript.Run(python!, Script, Text(answer)));
        var windows = answer.Cars.SelectMany(c => c.Windows.Select(w => (w, c.Car.Name))).ToArray();
        Assert.Equal(windows.Length, seen.RootElement.GetArrayLength());
        foreach (var (one, (window, name)) in seen.RootElement.EnumerateArray().Zip(windows))
        {
            Assert.Equal(window.Uid, one[0].GetString());
            Assert.Equal(InstantPattern.General.Format(window.Start), one[1].GetString());
            Assert.Equal(0, one[2].GetInt32());
            Assert.Equal($"Charge {name}", one[3].GetString());
            Assert.Equal(0, one[4].GetInt32());
        }
    }

    [Fact]
    public void Feed_WithNothingToCharge_StillHasAComponent()
    {
        var text = Text(Answers.With(RequestText.Schedule()));

        // RFC 5545, section 3.6: a calendar has at least one component.
        Assert.DoesNotContain("BEGIN:VEVENT", text, StringComparison.Ordinal);
        Assert.Contains("BEGIN:VTIMEZONE\r\nTZID:Etc/UTC\r\n", text, StringComparison.Ordinal);
        Assert.Empty(Calendar.Load(text)!.Events);
    }

    [Fact]
    public void Feed_WithdrawnWindow_IsCancelledWithAHigherSequence()
    {
        var request = Previous("""{ "start": "2026-01-14T19:30", "end": "2026-01-14T20:30", "uid": "old@example.org", "sequence": 4 }""");
        var cancelled = Calendar.Load(Text(Answers.With(request, [(9, 10, 32)])))!.Events.Single(e => e!.Uid == "old@example.org")!;

        Assert.Equal("CANCELLED", cancelled.Status);
        Assert.Equal(5, cancelled.Sequence);
    }

    [Fact]
    public void Feed_WindowBegunBeforeThePlan_KeepsItsStart()
    {
        var request = Previous("""{ "start": "2026-01-14T16:00", "end": "2026-01-14T18:30", "currentA": 32, "uid": "on@example.org", "sequence": 1 }""");
        var answer = Answers.With(request, [(0, 1, 32)]);
        var seen = Assert.Single(Calendar.Load(Text(answer))!.Events)!;

        Assert.Equal(("on@example.org", 1), (seen.Uid, seen.Sequence));
        Assert.Equal(Instant.FromUtc(2026, 1, 14, 22, 0).ToDateTimeUtc(), seen.DtStart!.AsUtc);
    }

    private static JsonObject Previous(string window) => RequestText.Schedule().Set("options", $$"""{ "previous": { "windows": [ {{window}} ] } }""");

    private static ScheduleAnswer Named(string name) => Answers.To(HouseholdText.TwoCars().Set("cars/0/name", JsonSerializer.Serialize(name)).Set("cars/0/previous", """{ "windows": [] }"""));

    private static string Text(ScheduleAnswer answer) => Encoding.UTF8.GetString(CalendarFeed.Write(answer));
}
