using NodaTime;

namespace ScheduleOpt.Tariffs.Tests;

// What is given beside a plan: a fault that names it, never an exception of arithmetic.
public class BillInputCheckTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 1, 1, 0, 0);

    [Theory]
    [InlineData(0, 0)]
    [InlineData(-3600, 0)]
    [InlineData(90, 0)]
    [InlineData(172800, 0)]
    [InlineData(3600, 0.5)]
    public void Prices_NotOnTheClock_AreAFault(double intervalSeconds, double startSeconds)
    {
        // Where a stated price fills each gap, nothing else would stop such a series.
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, hourlyPrice: { series: market, missing: price, missingPrice: 0.1 } } ]
            """);
        var prices = new PriceSeries(Start + Duration.FromSeconds(startSeconds), Duration.FromSeconds(intervalSeconds), [0.10m, 0.20m]);
        var input = new BillInput { Prices = new Dictionary<string, PriceSeries> { ["market"] = prices } };
        var use = Plans.Even(Start, Duration.FromHours(1), 24, 24);

        var fault = Assert.Single(BillInputCheck.Faults(plan, use, input));

        Assert.Equal("/prices/market", fault.Path);
        Assert.Throws<ArgumentException>(() => Biller.Bill(plan, use, input: input));
        Assert.Throws<ArgumentException>(() => PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromHours(1), input: input));
    }

    [Theory]
    [InlineData(long.MaxValue, 0, 1, 1, "/state/bankMicroKwh/")]
    [InlineData(-1, 0, 1, 1, "/state/bankMicroKwh/")]
    [InlineData(0, 1e15, 1, 1, "/state/creditBank")]
    [InlineData(0, 0, 1e12, 1, "/state/peaks/Demand")]
    [InlineData(0, 0, 1, 13, "/state/peaks/Demand")]
    public void State_BeyondItsLimits_IsAFault(long bank, double credit, double kw, int month, string path)
    {
        var plan = Plans.Of("energyCharges: [ { name: Energy, pricePerKwh: 0.1 } ]");
        var state = new BillState
        {
            BankMicroKwh = new Dictionary<string, long> { [""] = bank },
            CreditBank = (decimal)credit,
            Peaks = [new PastPeak("Demand", 2026, month, (decimal)kw)],
        };
        var use = Plans.Even(Start, Duration.FromHours(1), 24, 24);

        var fault = Assert.Single(BillInputCheck.Faults(plan, use, new BillInput { State = state }));

        Assert.Equal(path, fault.Path);
        Assert.Throws<ArgumentException>(() => Biller.Bill(plan, use, input: new BillInput { State = state }));
    }
}
