using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Published;

// National Renewable Energy Laboratory, REopt.jl, test/runtests.jl and test/scenarios (commit 029db01dc17ddfc726b3fc5bb7fb72b8541cff0e, 2026-01-04), "Lookback
// Demand Charges". Another engine's figures, not a utility's bill.
public class RatchetTests
{
    // 1: $10.50 per kW in six cold months, $11.50 in six warm ones; each month at least 35 % of the year's highest; 1 kW flat, 100 kW in one hour of January: $5,302.50.
    [Fact]
    public void LookBack_35PercentOfTheYear_IsThePublishedYear()
    {
        var plan = Plans.Of("""
            seasons:
              - { name: warm, ranges: [ { from: 04-01, to: 09-30 } ] }
              - { name: cold, ranges: [ { from: 10-01, to: 03-31 } ] }
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            demandCharges:
              - { name: Peaks, pricePerKw: 0, averagingMinutes: 60 }
              - { name: Cold, seasons: [cold], pricePerKw: 10.50, averagingMinutes: 60, ratchet: { percent: 35, months: 11, of: Peaks } }
              - { name: Warm, seasons: [warm], pricePerKw: 11.50, averagingMinutes: 60, ratchet: { percent: 35, months: 11, of: Peaks } }
            """);

        Assert.Equal(5302.50m, Biller.Bill(plan, Year(2017, (0, 100), 1)).Total);
    }

    // 2: 75 % of the highest of January, April and December; $ per kW by month 10, 10, 20, 50, 20, 10, 20, 20, 20, 20, 20, 5; peaks 200 in January, 400 in April, 500 in
    // June, 300 in December, otherwise 100. Billed kW 300, 300, 300, 400, 300, 500, 300 x 6: $74,500. The year before was the same: it is carried in.
    [Fact]
    public void LookBack_NamedMonths_IsThePublishedYear()
    {
        int[] prices = [10, 10, 20, 50, 20, 10, 20, 20, 20, 20, 20, 5];
        var charges = string.Concat(prices.Select((price, i) =>
            $"  - {{ name: Month {i + 1}, billingSeasons: [m{i + 1}], pricePerKw: {price}, averagingMinutes: 60, ratchet: {{ percent: 75, inMonths: [1, 4, 12], of: Peaks }} }}\n"));
        var seasons = string.Concat(prices.Select((_, i) => $"  - {{ name: m{i + 1}, months: [{i + 1}] }}\n"));
        var plan = Plans.Of($"""
            energyCharges:
              - name: Energy
                pricePerKwh: 0
            billingSeasons:
            {seasons}
            demandCharges:
              - name: Peaks
                pricePerKw: 0
                averagingMinutes: 60
            {charges}
            """);
        var before = Biller.Bill(plan, Peaks(2016));

        var bill = Biller.Bill(plan, Peaks(2017), input: new() { State = before.State });

        var billed = bill.Periods.Select(p => p.Lines.Single(l => l.Part == BillPart.DemandCharge && l.Charge != "Peaks").Quantity).ToArray();
        Assert.Equal([300, 300, 300, 400, 300, 500, 300, 300, 300, 300, 300, 300], billed);
        Assert.Equal(74_500m, bill.Total);
        // Without the year before, January knows only itself.
        Assert.NotEqual(bill.Total, Biller.Bill(plan, Peaks(2017)).Total);
    }

    // Pacific Northwest National Laboratory (US DOE), "What is a demand ratchet?", feds.pnnl.gov/faq/what-demand-ratchet: 80 % of the last 11 months; a peak of 1,000 kW
    // makes at least 800 kW. The twelfth month after is free of it.
    [Fact]
    public void Ratchet_80PercentOf11Months_Bills800Kw()
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            demandCharges: [ { name: Demand, pricePerKw: 1, averagingMinutes: 60, ratchet: { percent: 80, months: 11 } } ]
            """);
        var kwh = Enumerable.Repeat(10.0, 13 * 31 * 24).ToArray();
        kwh[5] = 1000;

        var bill = Biller.Bill(plan, MeteredSeries.FromKilowattHours(Instant.FromUtc(2025, 1, 1, 0, 0), Duration.FromHours(1), kwh));

        Assert.Equal([1000m, .. Enumerable.Repeat(800m, 11), 10m], bill.Periods.Take(13).Select(p => p.Total));
    }

    private static int DateDays(int year) => CalendarSystem.Iso.GetDaysInYear(year);

    private static MeteredSeries Peaks(int year)
    {
        var kwh = Enumerable.Repeat(1.0, DateDays(year) * 24).ToArray();
        for (var month = 1; month <= 12; month++)
        {
            kwh[(int)(Instant.FromUtc(year, month, 2, 0, 0) - Instant.FromUtc(year, 1, 1, 0, 0)).TotalHours] = month switch { 1 => 200, 4 => 400, 6 => 500, 12 => 300, _ => 100 };
        }

        return MeteredSeries.FromKilowattHours(Instant.FromUtc(year, 1, 1, 0, 0), Duration.FromHours(1), kwh);
    }

    private static MeteredSeries Year(int year, (int Hour, double Kwh) peak, double flat)
    {
        var kwh = Enumerable.Repeat(flat, 8760).ToArray();
        kwh[peak.Hour] = peak.Kwh;
        return MeteredSeries.FromKilowattHours(Instant.FromUtc(year, 1, 1, 0, 0), Duration.FromHours(1), kwh);
    }
}
