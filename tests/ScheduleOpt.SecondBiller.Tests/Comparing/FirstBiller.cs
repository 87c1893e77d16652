using NodaTime;
using ScheduleOpt.Interchange;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs;
using TariffEvent = ScheduleOpt.Tariffs.Events.CalledEvent;

namespace ScheduleOpt.SecondBiller.Tests.Comparing;

/// <summary>The biller that the program uses, through its public doors alone.</summary>
internal static class FirstBiller
{
    public static Reading<RatePlan> Read(string text) => RatePlanDocument.Read(text, "drawn");

    /// <exception cref="ArgumentException">What is given beside the plan is refused.</exception>
    public static Bill Bill(RatePlan plan, Question question, BillState? state = null) =>
        Biller.Bill(plan, Series(question, question.Import), question.ReadingDates, Input(question) with { State = state ?? State(question.Carried) });

    private static MeteredSeries Series(Question question, long[] micro) =>
        MeteredSeries.FromKilowattHours(question.Start, question.Interval, [.. micro.Select(energy => energy / 1e6)]);

    private static BillInput Input(Question question) => new()
    {
        Choices = question.Choices,
        Export = question.Export is { } export ? Series(question, export) : null,
        Prices = question.Prices.ToDictionary(item => item.Key, item => new PriceSeries(item.Value.Start, item.Value.Interval, item.Value.Values)),
        Events = question.Events.GroupBy(item => item.Name).ToDictionary(
            group => group.Key,
            group => (IReadOnlyList<TariffEvent>)[.. group.Select(item => new TariffEvent(item.From, item.To, item.BaselineKwh, item.AdjustmentKwh))]),
        ServiceKw = question.ServiceKw,
    };

    private static BillState State(Carried carried) => new()
    {
        Peaks = [.. carried.Peaks.Select(peak => new PastPeak(peak.Charge, peak.Month.Year, peak.Month.Month, peak.Kw))],
        BankMicroKwh = carried.BankedEnergy,
        CreditBank = carried.BankedMoney,
    };
}
