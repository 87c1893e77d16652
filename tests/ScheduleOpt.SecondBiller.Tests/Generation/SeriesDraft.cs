using NodaTime;

namespace ScheduleOpt.SecondBiller.Tests.Generation;

/// <summary>When and how much: the span is drawn before the plan, so that the plan's edges can fall into it.</summary>
internal sealed record SeriesDraft(string Zone, LocalDate First, int Days, Question Question)
{
    // Among them half-hour zones, a half-hour change (Lord Howe), and changes at midnight (Cairo, Santiago, Beirut).
    private static readonly string[] Zones =
    [
        "America/Chicago", "America/New_York", "Europe/London", "Europe/Berlin", "America/St_Johns", "Asia/Kolkata", "Australia/Adelaide",
        "Australia/Lord_Howe", "Africa/Cairo", "America/Santiago", "Asia/Beirut", "UTC", "Asia/Kathmandu",
    ];

    /// <summary>A date near the middle of the series.</summary>
    public LocalDate SomeDate(Draw draw) => First.PlusDays(draw.Between(0, Math.Max(0, Days - 1)));

    public static SeriesDraft Make(Draw draw, bool atEdge)
    {
        var name = draw.Chance(0.5) ? draw.Of("America/Chicago", "Europe/London", "America/New_York") : draw.Of(Zones);
        var zone = DateTimeZoneProviders.Tzdb[name];
        var year = draw.Between(2024, 2028);
        var first = new LocalDate(year, 1, 1).PlusDays(draw.Between(0, 364));
        if (atEdge)
        {
            first = Edge(draw, zone, year);
        }

        var minutes = draw.Of(15, 30, 60, 60, 60);
        if (draw.Chance(0.08))
        {
            minutes = draw.Of(5, 10, 20, 45, 90, 120, 240);
        }

        // Short at fine intervals; now and then months of hours, for ratchets, banks and reading dates.
        var days = draw.Between(1, minutes < 60 ? 4 : 8);
        if (minutes >= 60 && draw.Chance(0.15))
        {
            days = draw.Between(30, 75);
        }

        var start = zone.AtStartOfDay(first).ToInstant();
        if (draw.Chance(0.2))
        {
            start += Duration.FromMinutes(draw.Of(15, 30, 60, 420, 725, 1380));
        }

        var count = Math.Max(1, days * 1440 / minutes + (draw.Chance(0.3) ? draw.Between(-3, 3) : 0));
        var question = new Question
        {
            Start = start,
            Interval = Duration.FromMinutes(minutes),
            Import = Energies(draw, count),
            Export = draw.Chance(0.4) ? Energies(draw, count) : null,
        };
        if (draw.Chance(0.4))
        {
            question = question with { ReadingDates = Readings(draw, first, days) };
        }

        return new(name, first, days, question);
    }

    private static LocalDate Edge(Draw draw, DateTimeZone zone, int year)
    {
        var changes = zone.GetZoneIntervals(Instant.FromUtc(year, 1, 1, 0, 0), Instant.FromUtc(year, 12, 31, 0, 0)).Where(item => item.HasStart).Select(item => item.IsoLocalStart.Date)
            .Where(date => date.Year == year).ToList();
        var kind = draw.Between(0, 5);
        LocalDate date = kind switch
        {
            0 or 1 when changes.Count > 0 => draw.Of(changes),
            2 => new LocalDate(draw.Of(2024, 2028, 2026), 2, 28),
            3 => new LocalDate(year, 12, 31),
            4 => new LocalDate(year, draw.Between(1, 12), 1).PlusDays(-1),
            // A Sunday: holidays on it are drawn with the plan.
            _ => new LocalDate(year, draw.Between(1, 12), draw.Between(1, 28)).Next(IsoDayOfWeek.Sunday),
        };
        return date.PlusDays(-draw.Between(0, 2));
    }

    private static List<LocalDate> Readings(Draw draw, LocalDate first, int days)
    {
        var dates = new SortedSet<LocalDate>();
        for (var date = first.PlusDays(draw.Between(-5, 3)); date <= first.PlusDays(days + 3); date = date.PlusDays(days > 12 ? draw.Between(9, 35) : draw.Between(1, 5)))
        {
            dates.Add(date);
        }

        return [.. dates];
    }

    private static long[] Energies(Draw draw, int count)
    {
        var kind = draw.Between(0, 9);
        var even = draw.Of<long>(250_000, 500_000, 1_000_000);
        return [.. Enumerable.Range(0, count).Select(_ => kind switch
        {
            0 => 0L,
            1 or 2 => even,
            3 => draw.NextLong(10_000_000_000),
            4 => draw.Chance(0.8) ? 0 : draw.NextLong(5_000_000),
            5 => draw.Between(0, 4) * even,
            _ => draw.NextLong(4_000_000),
        })];
    }
}
