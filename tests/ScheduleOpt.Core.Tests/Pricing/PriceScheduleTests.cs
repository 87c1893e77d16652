using NodaTime;
using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Core.Tests.Pricing;

public sealed class PriceScheduleTests
{
    private static readonly Instant Noon = Instant.FromUtc(2026, 1, 14, 12, 0);

    [Fact]
    public void At_BordersOfSpans_BelongToTheLaterOne()
    {
        var schedule = new PriceSchedule([Span(0, 0.10m, "off-peak"), Span(4, 0.30m, "on-peak"), Span(9, 0.10m, "off-peak")], Hour(24), "USD");

        Assert.Equal(0.10m, schedule.At(Hour(0)).ImportPerKwh);
        Assert.Equal(0.10m, schedule.At(Hour(4) - Duration.Epsilon).ImportPerKwh);
        Assert.Equal("on-peak", schedule.At(Hour(4)).Period);
        Assert.Equal(0.10m, schedule.At(Hour(24) - Duration.Epsilon).ImportPerKwh);
    }

    [Fact]
    public void Spans_NeighboursAlike_BecomeOne()
    {
        var schedule = new PriceSchedule([Span(0, 0.10m, "a"), Span(1, 0.10m, "a"), Span(2, 0.10m, "b"), Span(3, 0.20m, "b")], Hour(4), "USD");

        Assert.Equal([Hour(0), Hour(2), Hour(3)], schedule.Spans.Select(s => s.Start));
    }

    [Fact]
    public void At_OutsideTheSchedule_IsRefused()
    {
        var schedule = new PriceSchedule([Span(0, 0.10m, "a")], Hour(1), "USD");

        Assert.Throws<ArgumentOutOfRangeException>(() => schedule.At(Hour(1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => schedule.At(Hour(0) - Duration.Epsilon));
    }

    [Fact]
    public void Schedule_WithoutOrderOrSpanOrLength_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => new PriceSchedule([Span(1, 0, "a"), Span(0, 1, "b")], Hour(2), "USD"));
        Assert.Throws<ArgumentException>(() => new PriceSchedule([], Hour(2), "USD"));
        Assert.Throws<ArgumentException>(() => new PriceSchedule([Span(2, 0, "a")], Hour(2), "USD"));
    }

    private static Instant Hour(int hours) => Noon + Duration.FromHours(hours);

    private static PriceSpan Span(int hours, decimal price, string period) => new(Hour(hours), price, period);
}
