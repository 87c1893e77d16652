using System.Text.Json.Nodes;
using NodaTime;

namespace ScheduleOpt.SecondBiller;

/// <summary>Measured and billed kW of the demand charges.</summary>
internal static class Demand
{
    /// <summary>The kW before minimum, ratchet and rounding to kwDecimals.</summary>
    public static decimal Measured(Context context, BillingPeriod period, JsonObject charge, List<Metered> netted)
    {
        var calendar = context.Calendar(charge);
        var counted = Averages(period, charge, netted)
            .Where(average => period.Covers(charge, calendar.At(average.Start)))
            .ToList();
        if (counted.Count == 0)
        {
            return 0;
        }

        if (charge.Text("measure") != "meanOfDailyHighest")
        {
            return counted.Max(average => average.Kw);
        }

        // "each local date's highest (by the clock, of the averages that begin on it; dates without a counted average are left out), the `days` highest of these
        // (all, if left out or fewer), their mean, rounded to 6 decimals (half away from zero) like every kW"
        var highest = counted.GroupBy(average => calendar.Clock.At(average.Start).Date).Select(day => day.Max(average => average.Kw))
            .OrderDescending().Take(charge.Integer("days") ?? int.MaxValue).ToList();
        return Rounded.To6(highest.Sum() / highest.Count);
    }

    private static IEnumerable<(Instant Start, decimal Kw)> Averages(BillingPeriod period, JsonObject charge, List<Metered> netted)
    {
        var length = Duration.FromMinutes(charge.Integer("averagingMinutes")!.Value);
        var step = netted[0].End - netted[0].Start;
        // "Where metering intervals are as long or longer, each interval by itself."
        var starts = step >= length || charge.Flag("sliding")
            ? netted.Select(item => item.Start)
            : Aligned(netted[0].Start, netted[^1].End, length);
        length = step >= length ? step : length;

        // "only if it lies wholly inside the billing period and the series"
        foreach (var start in starts.Where(start => start >= period.Start && start + length <= period.End))
        {
            long energy = 0;
            for (var index = (int)((start - netted[0].Start) / step); index < netted.Count && netted[index].Start < start + length; index++)
            {
                energy += netted[index].ImportBetween(start, start + length);
            }

            // "kW = kWh / hours, rounded to 6 decimals"
            yield return (start, Rounded.To6(Rounded.Kwh(energy) / (decimal)length.TotalHours));
        }
    }

    /// <summary>"starting at whole multiples of them since 1970-01-01T00:00Z"</summary>
    private static IEnumerable<Instant> Aligned(Instant from, Instant to, Duration length)
    {
        var ticks = length.BclCompatibleTicks;
        for (var start = from.ToUnixTimeTicks() / ticks * ticks; start < to.ToUnixTimeTicks(); start += ticks)
        {
            if (start >= from.ToUnixTimeTicks())
            {
                yield return Instant.FromUnixTimeTicks(start);
            }
        }
    }

    /// <summary>"Billed kW = max(that kW, `minimumKw`, ratchet), rounded to `kwDecimals` (halfUp, up or down)."</summary>
    public static decimal Billed(JsonObject charge, BillingPeriod period, decimal measured, IReadOnlyList<Peak> peaks)
    {
        var kw = Math.Max(measured, charge.Number("minimumKw") ?? 0);
        if (charge.Child("ratchet") is { } ratchet)
        {
            kw = Math.Max(kw, Ratchet(charge, ratchet, period.Month, peaks));
        }

        return Math.Round(kw, charge.Integer("kwDecimals") ?? 6, charge.Text("kwRounding") switch
        {
            "up" => MidpointRounding.ToPositiveInfinity,
            "down" => MidpointRounding.ToNegativeInfinity,
            _ => MidpointRounding.AwayFromZero,
        });
    }

    /// <summary>"Ratchet = percent / 100 x the highest kW ... that the demand charge named by `of` had in billing periods whose billing months lie 1 to `months`
    /// months before this one's, or, for `inMonths`, in billing periods of those calendar months among this billing month and the 11 before it (this billing
    /// period's own kW included if its month is named)."</summary>
    private static decimal Ratchet(JsonObject charge, JsonObject ratchet, YearMonth month, IReadOnlyList<Peak> peaks)
    {
        var of = ratchet.Text("of") ?? charge.Text("name")!;
        var named = ratchet.Integers("inMonths");
        var months = ratchet.Integer("months");
        var highest = peaks.Where(peak => peak.Charge == of).Where(peak =>
        {
            var before = (month.Year - peak.Month.Year) * 12 + month.Month - peak.Month.Month;
            return named is null ? before >= 1 && before <= months : before >= 0 && before <= 11 && named.Contains(peak.Month.Month);
        }).Select(peak => peak.Kw).DefaultIfEmpty(0).Max();
        return ratchet.Number("percent")!.Value / 100 * highest;
    }
}
