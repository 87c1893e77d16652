using System.Text.Json.Nodes;
using NodaTime;

namespace ScheduleOpt.SecondBiller;

/// <summary>Credits for using less than a baseline during an event.</summary>
internal static class Rebates
{
    public static void AddRebates(this StatementSheet sheet, IReadOnlyList<PastUse> use)
    {
        var context = sheet.Context;
        foreach (var rebate in context.There("rebates"))
        {
            foreach (var called in context.Events.Where(called => called.Name == rebate.Text("event")).OrderBy(called => called.From))
            {
                // "A rebate is for each event that starts in the billing period."
                var (from, to) = (context.Legal.First(called.From), context.Legal.First(called.To));
                if (from < sheet.Period.Start || from >= sheet.Period.End || Baseline(context, rebate, called, use) is not { } baseline)
                {
                    continue;
                }

                // "Then + `baselineAdjustmentKwh`. Rebate: - pricePerKwh x max(0, baseline - import during the event), a line where it is more than zero."
                var saved = baseline + called.AdjustmentKwh - Rounded.Kwh(Between(use, from, to));
                if (saved > 0)
                {
                    sheet.Add(Parts.Credit, rebate.Text("name")!, -rebate.Number("pricePerKwh")!.Value * saved);
                }
            }
        }
    }

    private static decimal? Baseline(Context context, JsonObject rebate, CalledEvent called, IReadOnlyList<PastUse> use)
    {
        // "Its baseline is `baselineKwh` if stated;"
        if (called.BaselineKwh is { } stated)
        {
            return stated;
        }

        // "otherwise the mean of the same clock times on the latest `days` days that qualify, at most 60 days before the event's date: same day type as that date
        // (plan's own calendar or the event's), not an observed holiday, no event of that name on the date (...), the stretch of the same clock times (not the whole date) wholly inside the series
        // (or the use carried in)"
        var definition = context.Plan.List("events").First(item => item.Text("name") == called.Name);
        var calendar = context.Calendar(definition);
        var rule = rebate.Child("baseline")!;
        var eventDate = called.From.Date;
        var found = new List<long>();
        for (var before = 1; before <= 60 && found.Count < rule.Integer("days"); before++)
        {
            var date = eventDate.PlusDays(-before);
            var (from, to) = (context.Legal.First(called.From.PlusDays(-before)), context.Legal.First(called.To.PlusDays(-before)));
            var isEventDay = context.Events.Any(other => other.Name == called.Name && IsOn(other, date));
            if (calendar.DayTypeOf(date) == calendar.DayTypeOf(eventDate) && !calendar.IsHoliday(date) && !isEventDay
                && use.Count > 0 && from >= use[0].Start && to <= use[^1].End)
            {
                found.Add(Between(use, from, to));
            }
        }

        // "with `highest` only the highest of them. The mean is rounded to 6 decimals (half away from zero). Fewer days: those there are; none: no rebate."
        var counted = found.OrderDescending().Take(rule.Integer("highest") ?? int.MaxValue).ToList();
        return counted.Count == 0 ? null : Rounded.To6(Rounded.Kwh(counted.Sum()) / counted.Count);
    }

    private static bool IsOn(CalledEvent called, LocalDate date) => called.From < date.PlusDays(1).AtMidnight() && called.To > date.AtMidnight();

    private static long Between(IReadOnlyList<PastUse> use, Instant from, Instant to) => use
        .Where(item => item.Start < to && item.End > from)
        .Sum(item => new Metered(item.Start, item.End, item.Energy, 0).ImportBetween(from, to));
}
