using NodaTime;
using ScheduleOpt.Interchange;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.SecondBiller.Tests.Generation;
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

    /// <summary>Readings as they come in, and the question that they are once each energy is rounded to millionths of a kWh.</summary>
    /// <exception cref="ArgumentException">Readings or what is given beside the plan is refused.</exception>
    public static (Bill Bill, Question Question) Bill(RatePlan plan, Readings readings)
    {
        var import = MeteredSeries.FromKilowattHours(readings.Start, readings.Interval, readings.Kwh);
        var export = readings.ExportKwh is { } kwh ? MeteredSeries.FromKilowattHours(readings.Start, readings.Interval, kwh) : null;
        var question = readings.Beside with
        {
            Start = readings.Start,
            Interval = readings.Interval,
            Import = import.MicroKilowattHours.ToArray(),
            Export = export?.MicroKilowattHours.ToArray(),
        };
        var input = Input(question with { Export = null }) with { Export = export, State = State(question.Carried) };
        return (Biller.Bill(plan, import, question.ReadingDates, input), question);
    }

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
