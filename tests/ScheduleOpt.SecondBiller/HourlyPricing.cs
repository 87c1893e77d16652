using System.Text.Json.Nodes;
using NodaTime;

namespace ScheduleOpt.SecondBiller;

/// <summary>The price of an hourly charge at an instant.</summary>
internal static class HourlyPricing
{
    /// <summary>"price = multiplier x p + adder, then at least `atLeast`, at most `atMost`"</summary>
    public static decimal PriceAt(this Context context, JsonObject hourly, Instant instant)
    {
        var prices = context.Question.Prices.TryGetValue(hourly.Text("series")!, out var found)
            ? found
            : throw new RefusedException($"No price series {hourly.Text("series")}.");
        if (prices.Interval <= Duration.Zero)
        {
            throw new RefusedException("A price series without length.");
        }

        var price = (hourly.Number("multiplier") ?? 1) * Given(hourly, prices, instant) + (hourly.Number("adder") ?? 0);
        price = Math.Max(price, hourly.Number("atLeast") ?? price);
        return Math.Min(price, hourly.Number("atMost") ?? price);
    }

    /// <summary>"`refuse` no bill, if any part of the series has no price": so for each rule that gives none, whether the charge covers that part or not.</summary>
    public static void Refuse(Context context)
    {
        foreach (var hourly in context.HourlyPrices)
        {
            for (var index = 0; index < context.Question.Import.Length; index++)
            {
                Instant start = context.Question.Start + context.Question.Interval * index, end = start + context.Question.Interval;
                for (var instant = start; instant < end; instant += Duration.FromMinutes(1))
                {
                    context.PriceAt(hourly, instant);
                }
            }
        }
    }

    private static decimal Given(JsonObject hourly, HourlyPrices prices, Instant instant)
    {
        if (At(prices, instant) is { } price)
        {
            return price;
        }

        switch (hourly.Text("missing"))
        {
            case "previous":
                // "the latest earlier price in the series (before its beginning: refused; after its end: its last)"
                for (var index = Math.Min(Index(prices, instant), prices.Values.Length - 1); index >= 0; index--)
                {
                    if (prices.Values[index] is { } earlier)
                    {
                        return earlier;
                    }
                }

                break;
            case "dayBefore":
                // "the price of the interval 24 hours (or 48, ... 168) earlier"
                for (var hours = 24; hours <= 168; hours += 24)
                {
                    if (At(prices, instant - Duration.FromHours(hours)) is { } earlier)
                    {
                        return earlier;
                    }
                }

                break;
            case "price":
                return hourly.Number("missingPrice")!.Value;
        }

        throw new RefusedException($"No price at {instant}.");
    }

    private static decimal? At(HourlyPrices prices, Instant instant) =>
        Index(prices, instant) is var index && index >= 0 && index < prices.Values.Length ? prices.Values[index] : null;

    private static int Index(HourlyPrices prices, Instant instant)
    {
        var ticks = (instant - prices.Start).BclCompatibleTicks;
        return ticks < 0 ? -1 : (int)Math.Min(ticks / prices.Interval.BclCompatibleTicks, int.MaxValue);
    }
}
