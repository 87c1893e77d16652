using System.Text;
using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Interchange.Calendars;
using ScheduleOpt.Interchange.Demo;
using static ScheduleOpt.Interchange.Tests.Calendars.Ics;

namespace ScheduleOpt.Interchange.Tests.Calendars;

/// <summary>Whatever the text holds: a reading or faults, no exception, in bounded time.</summary>
public sealed class HostileCalendarTests
{
    private static readonly CalendarReadingOptions AllTrips = new() { AllEventsAreTrips = true, DefaultDistance = Distance.FromKilometres(10) };

    private static readonly string[] Spanners =
    [
        "RRULE:FREQ=SECONDLY", "RRULE:FREQ=DAILY;BYHOUR=0,1,2,3;BYMINUTE=0,30", "RRULE:FREQ=DAILY;INTERVAL=999;BYMONTH=2;BYMONTHDAY=30",
        "RRULE:FREQ=YEARLY;BYMONTHDAY=29;BYMONTH=2;BYDAY=MO;BYSETPOS=366", "DURATION:P366D", "DURATION:PT99999999S", "DTEND:21990101T000000",
        "DTSTART:19700101T000000", "DTSTART:21991231T235959Z", "DTSTART;TZID=:20260101T000000", "EXDATE:,,,", "RDATE:20260101,20260102T000000Z",
        "BEGIN:VALARM", "END:VEVENT", "END:VCALENDAR", "BEGIN:VCALENDAR", "X-TRIP-DISTANCE;X-UNIT=km:1e308", "X-TRIP-DISTANCE;X-UNIT=KM:.5",
        "SEQUENCE:99999999999999", "RECURRENCE-ID:20260105T071000", "SUMMARY:\\", "SUMMARY:" , ":", ";", "A;B=\"", "RRULE:;;;=", "UID:x",
        "STATUS:CANCELLED", "X-TARGET-STATE-OF-CHARGE:%", "DTSTART;VALUE=DATE:20260229",
    ];

    public static TheoryData<int> Seeds => [.. Enumerable.Range(0, 200)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public async Task Calendar_Mutated_IsReadOrRefused(int seed)
    {
        var random = new Random(seed);
        var octets = new List<byte>(Encoding.UTF8.GetBytes(DemoHousehold.CalendarText));
        for (var change = random.Next(1, 12); change > 0; change--)
        {
            Mutate(octets, random);
        }

        var reading = await InTime(() => CalendarText.Read(octets.ToArray(), NewYork, From, Until, random.Next(2) == 0 ? AllTrips : new CalendarReadingOptions()));

        Assert.True(reading.IsRead ? reading.Faults.Count == 0 : reading.Faults.All(f => f.Rule.Length > 0));
    }

    [Fact]
    public void Mutations_OverAllSeeds_GiveBothOutcomes()
    {
        var read = Enumerable.Range(0, 200).Count(seed =>
        {
            var random = new Random(seed);
            var octets = new List<byte>(Encoding.UTF8.GetBytes(DemoHousehold.CalendarText));
            Mutate(octets, random);
            return CalendarText.Read(octets.ToArray(), NewYork, From, Until, new CalendarReadingOptions()).IsRead;
        });

        Assert.InRange(read, 20, 180);
    }

    [Fact]
    public async Task Calendar_OverAMebibyte_IsRefused() =>
        Assert.Contains(
            "octets long",
            await InTime(() => Fault(Trip("DTSTART:20260105T073000", "DURATION:PT1H", $"DESCRIPTION:{new string('x', 1_048_576)}").ToString()).Rule),
            StringComparison.Ordinal);

    [Fact]
    public async Task Calendar_Over5000Components_IsRefused() =>
        Assert.Contains(
            "5000 components",
            await InTime(() => Fault(Calendar(string.Concat(Enumerable.Repeat("BEGIN:VTODO\r\nEND:VTODO\r\n", 5_000)))).Rule),
            StringComparison.Ordinal);

    [Fact]
    public async Task Calendar_NestedDeeply_IsRefused() =>
        Assert.Contains(
            "deep",
            await InTime(() => Fault(string.Concat(Enumerable.Repeat("BEGIN:VCALENDAR\r\n", 4_000))).Rule),
            StringComparison.Ordinal);

    [Fact]
    public async Task Rules_OverTenThousandInstances_AreRefused()
    {
        var daily = Enumerable.Range(0, 40).Select(_ => Event("DTSTART:20260101T000000", "DURATION:PT1M", "RRULE:FREQ=DAILY", "SUMMARY:1 km")).ToArray();

        Assert.Contains("10000 instances", await InTime(() => Fault(Calendar(daily)).Rule), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rules_ThousandsOfTheSlowestAllowed_AreReadOrRefusedInTime()
    {
        var slow = Enumerable.Range(0, 3_000)
            .Select(i => Event("DTSTART:19700101T000000", "DURATION:PT1M", "RRULE:FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=29;BYDAY=MO;INTERVAL=1", $"SUMMARY:{i % 90 + 1} km"))
            .ToArray();

        var reading = await InTime(() => Read(Calendar(slow)));

        Assert.True(reading.IsRead || reading.Faults.Count > 0);
    }

    [Fact]
    public async Task Text_MadeToTireTheDistanceSearch_IsReadInTime()
    {
        var digits = string.Concat(Enumerable.Repeat("1,111 ", 100_000));

        Assert.Empty((await InTime(() => Read(Trip("DTSTART:20260105T073000", "DURATION:PT1H", $"DESCRIPTION:{digits}")))).Faults);
    }

    // A reading that never ends is given up after half a minute, and the test fails.
    private static Task<T> InTime<T>(Func<T> reading) =>
        Task.Run(reading, TestContext.Current.CancellationToken).WaitAsync(TimeSpan.FromSeconds(30), TestContext.Current.CancellationToken);

    private static void Mutate(List<byte> octets, Random random)
    {
        var at = random.Next(octets.Count);
        switch (random.Next(7))
        {
            case 0:
                octets[at] = (byte)random.Next(256);
                break;
            case 1:
                octets.RemoveRange(at, Math.Min(random.Next(1, 60), octets.Count - at));
                break;
            case 2:
                octets.InsertRange(at, octets.Skip(random.Next(octets.Count)).Take(random.Next(1, 200)).ToArray());
                break;
            case 3:
                octets[at] = (byte)('0' + random.Next(10));
                break;
            default:
                // A whole line of malice at a line's beginning.
                var line = octets.IndexOf((byte)'\n', at) + 1;
                octets.InsertRange(line, Encoding.UTF8.GetBytes(Spanners[random.Next(Spanners.Length)] + "\r\n"));
                break;
        }
    }
}
