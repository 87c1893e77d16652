using NodaTime;

namespace ScheduleOpt.SecondBiller;

/// <summary>A stretch of time in which nothing changes: no window, date, event or hourly price begins or ends inside it.</summary>
internal sealed record Piece(Instant Start, long Import, long Export, Dictionary<string, Moment> Moments);

/// <summary>Where anything could change.</summary>
internal static class Borders
{
    public static Instant[] Of(Context context)
    {
        var question = context.Question;
        var borders = new SortedSet<Instant>();
        int[] minutes = [.. context.Calendars.SelectMany(calendar => calendar.WindowMinutes).Append(0).Distinct()];
        for (var date = context.Legal.At(question.Start).Date.PlusDays(-1); date <= context.LastDate; date = date.PlusDays(1))
        {
            foreach (var minute in minutes)
            {
                var time = date.AtMidnight().PlusMinutes(minute);
                borders.UnionWith(context.Legal.InstantsOf(time));
                borders.UnionWith(context.Standard.InstantsOf(time));
            }
        }

        var zone = DateTimeZoneProviders.Tzdb[context.Plan.Text("timeZone")!];
        borders.UnionWith(zone.GetZoneIntervals(question.Start, question.End).Where(item => item.HasStart).Select(item => item.Start));
        borders.UnionWith(context.Events.SelectMany(called => new[] { context.Legal.First(called.From), context.Legal.First(called.To) }));
        foreach (var prices in context.HourlyPrices.Select(hourly => question.Prices.GetValueOrDefault(hourly.Text("series")!)).OfType<HourlyPrices>())
        {
            var step = prices.Interval.BclCompatibleTicks;
            var first = prices.Start.PlusTicks(Math.Max(0, (question.Start - prices.Start).BclCompatibleTicks / step) * step);
            for (var border = first; border < question.End; border = border.PlusTicks(step))
            {
                borders.Add(border);
            }
        }

        return [.. borders];
    }

    /// <summary>The use of a billing period, cut at the borders.</summary>
    public static List<Piece> Cut(Context context, BillingPeriod period, IEnumerable<Metered> metered, Instant[] borders)
    {
        var pieces = new List<Piece>();
        foreach (var item in metered)
        {
            Instant from = Instant.Max(item.Start, period.Start), end = Instant.Min(item.End, period.End);
            while (from < end)
            {
                var next = Array.BinarySearch(borders, from);
                next = next >= 0 ? next + 1 : ~next;
                var to = next < borders.Length ? Instant.Min(borders[next], end) : end;
                var start = from;
                var moments = context.CalendarNames.ToDictionary(name => name, name => context.Calendar(name).At(start));
                pieces.Add(new(from, item.ImportBetween(from, to), item.ExportBetween(from, to), moments));
                from = to;
            }
        }

        return pieces;
    }
}
