using System.Text.Json.Nodes;
using NodaTime;

namespace ScheduleOpt.SecondBiller;

/// <summary>Which use and which days a charge covers.</summary>
internal static class Scope
{
    /// <summary>"A charge covers the use that lies in its `seasons` and `periods` (of its `calendar`), on dates `from` to `until`, in billing periods of its
    /// `billingSeasons`; what is left out does not bind."</summary>
    public static bool Covers(this BillingPeriod period, JsonObject charge, Moment moment) =>
        Names(charge, "seasons", moment.Season) && Names(charge, "periods", moment.Period) && OnDate(charge, moment.Date) && InBillingSeason(charge, period);

    public static bool Covers(this BillingPeriod period, JsonObject charge, Piece piece) =>
        period.Covers(charge, piece.Moments[charge.Text("calendar") ?? ""]);

    /// <summary>"Its covered days are the days of the billing period in its seasons and dates (its periods don't matter), zero in another billing season."</summary>
    public static decimal CoveredDays(this BillingPeriod period, Context context, JsonObject charge) => InBillingSeason(charge, period)
        ? period.Days.Where(day => Names(charge, "seasons", context.Calendar(charge).SeasonOf(day.Date)) && OnDate(charge, day.Date)).Sum(day => day.Share)
        : 0;

    /// <summary>The days of a percentage, which has dates alone.</summary>
    public static decimal DaysOnDates(this BillingPeriod period, JsonObject item) =>
        period.Days.Where(day => OnDate(item, day.Date)).Sum(day => day.Share);

    private static bool Names(JsonObject charge, string field, string name) => charge.Names(field)?.Contains(name) ?? true;

    private static bool OnDate(JsonObject charge, LocalDate date) =>
        (charge.Date("from") is not { } from || from <= date) && (charge.Date("until") is not { } until || date <= until);

    private static bool InBillingSeason(JsonObject charge, BillingPeriod period) =>
        charge.Names("billingSeasons") is not { } names || (period.Season is { } season && names.Contains(season));
}
