using System.Text;
using NodaTime;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

// A document that uses every count up to its limit: valid, so it must not take long either.
public class LargestRatePlanTests
{
    private static readonly string[] Days = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];

    // Reading it and a year's work under it. Memory stands for time here, which depends on the machine: what is laid out anew for each charge and block shows in both.
    private const long MostBytes = 150_000_000;

    [Fact]
    public void LargestDocument_ReadBilledAndPriced_StaysSmall()
    {
        var before = GC.GetAllocatedBytesForCurrentThread();
        var plan = RatePlanDocument.Read(Document(), "largest").Value;
        // From the day before the first adjustment begins to well past the last: every slice of dates, four months.
        var series = MeteredSeries.FromKilowattHours(
            Instant.FromUtc(2025, 12, 31, 6, 0), Duration.FromMinutes(15), Enumerable.Repeat(0.25, 120 * 96).ToArray());

        var bill = Biller.Bill(plan, series);
        var prices = PriceScheduleBuilder.Build(plan, series.End - Duration.FromDays(7), series.End, series);

        Assert.Equal(2880m, bill.Periods.Sum(p => p.Lines.Where(l => l.Part == BillPart.EnergyCharge).Sum(l => l.Quantity)));
        Assert.Equal(series.End, prices.End);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 1, MostBytes);
    }

    private static string Document()
    {
        var text = new StringBuilder("""
            name: Largest
            utility: Invented
            source: Invented
            currency: USD
            timeZone: America/Chicago
            effective: { from: 2026-01-01 }
            metering: wholeHouse
            customerCharges: []
            rounding: { each: line, mode: halfUp }
            proration: { month: daysInMonth }
            periods: [p0, p1, p2, p3, p4, p5, p6, p7, p8, p9, p10, p11]
            defaultPeriod: p0

            """);
        text.AppendLine("seasons:");
        for (var month = 1; month <= 12; month++)
        {
            text.AppendLine(null, $"  - {{ name: s{month}, ranges: [ {{ from: {month:00}-01, to: {month:00}-{CalendarSystem.Iso.GetDaysInMonth(2024, month)} }} ] }}");
        }

        text.AppendLine("dayTypes:");
        for (var type = 0; type < 10; type++)
        {
            text.AppendLine(null, $"  - {{ name: d{type}, days: [{(type < 7 ? Days[type] : "")}] }}");
        }

        text.AppendLine("holidays:");
        for (var holiday = 0; holiday < 60; holiday++)
        {
            text.AppendLine(null, $"  - {{ name: h{holiday}, rule: easter, offsetDays: {holiday}, dayType: d{7 + (holiday % 3)}, sundayMovesTo: nextFreeWeekday }}");
        }

        text.AppendLine("windows:");
        for (var window = 0; window < 200; window++)
        {
            var (from, to) = (7 * window, 7 * window + 5);
            text.AppendLine(null, $"  - {{ period: p{window % 12}, dayTypes: [{string.Join(", ", Enumerable.Range(0, 10).Select(d => $"d{d}"))}], from: \"{from / 60:00}:{from % 60:00}\", to: \"{to / 60:00}:{to % 60:00}\" }}");
        }

        text.AppendLine("energyCharges:");
        for (var charge = 0; charge < 100; charge++)
        {
            var (season, period) = ((charge / 12) + 1, charge % 12);
            text.AppendLine(charge < 96
                ? $"  - {{ name: e{charge}, seasons: [s{season}], periods: [p{period}], {Blocks(0.1)} }}"
                : $"  - {{ name: e{charge}, seasons: [s{charge - 87}], {Blocks(0.1)} }}");
        }

        text.AppendLine("adjustments:");
        for (var adjustment = 0; adjustment < 100; adjustment++)
        {
            var from = new LocalDate(2026, 1, 1).PlusDays(adjustment);
            text.AppendLine(null, $"  - {{ name: a{adjustment}, from: {from:uuuu-MM-dd}, {Blocks(0.001)} }}");
        }

        return text.ToString();
    }

    private static string Blocks(double price) =>
        FormattableString.Invariant($"limitPer: day, blocks: [ {string.Join(", ", Enumerable.Range(1, 19).Select(b => FormattableString.Invariant($"{{ upToKwh: {b}, pricePerKwh: {price} }}")))}, {{ pricePerKwh: {price} }} ]");
}
