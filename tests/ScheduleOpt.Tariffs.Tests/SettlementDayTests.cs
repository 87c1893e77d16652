using NodaTime;

namespace ScheduleOpt.Tariffs.Tests;

// The bank is settled once: in the billing period that holds the first instant of the last day of the month.
public class SettlementDayTests
{
    [Theory]
    [InlineData(30, 0, "-0.50", true)]
    [InlineData(31, 0, "-0.50", true)]
    [InlineData(31, 12, "0", false)]
    public void Bank_SeriesFromInsideTheLastDay_IsNotSettledAgain(int day, int hour, string expected, bool isEmpty)
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]
            export: { kind: netMetering, settlementMonth: 7, payOutPerKwh: 0.05 }
            """);
        var import = Plans.WithUse(Instant.FromUtc(2026, 7, day, hour, 0), 48);
        var export = Plans.WithUse(import.Start, 48, (2, 10));

        var bill = Biller.Bill(plan, import, input: new() { Export = export });

        Assert.Equal(decimal.Parse(expected, null), bill.Total);
        Assert.Equal(isEmpty, bill.State.BankMicroKwh.Count == 0);
    }

    // Two series with a border inside the last day: the first one holds its beginning and pays out, the second does not pay again.
    [Fact]
    public void Bank_SeriesThatEndsInsideTheLastDay_IsSettled()
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]
            export: { kind: netMetering, settlementMonth: 7, payOutPerKwh: 0.05 }
            """);
        var import = Plans.WithUse(Instant.FromUtc(2026, 7, 30, 0, 0), 36);

        Assert.Equal(-0.50m, Biller.Bill(plan, import, input: new() { Export = Plans.WithUse(import.Start, 36, (2, 10)) }).Total);
    }
}
