using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>An amount that holds while the use of a billing period lies in a band.</summary>
internal sealed class BandCharge : UseCharge
{
    private readonly double over;
    private readonly double upTo;
    private readonly double amount;

    private BandCharge(BandTerm term, int period, MeterSpan[] spans)
        : base(period, spans, (double)term.UsedKwh) =>
        (over, upTo, amount) = ((double?)term.OverKwh ?? double.NegativeInfinity, (double?)term.UpToKwh ?? double.PositiveInfinity, (double)term.Amount);

    /// <inheritdoc/>
    public override bool MayFall => true;

    /// <summary>The charge of a term; none where more use changes nothing.</summary>
    /// <param name="term">The term.</param>
    /// <param name="period">Index of its billing period.</param>
    /// <param name="spans">The metering intervals of the billing period.</param>
    public static BandCharge? Of(BandTerm term, int period, MeterSpan[] spans) =>
        term.Amount == 0 || !(term.OverKwh >= term.UsedKwh || term.UpToKwh >= term.UsedKwh) ? null : new(term, period, spans);

    /// <inheritdoc/>
    public override double SlopeAbove(double useKwh) => 0;

    /// <inheritdoc/>
    public override double Cost(double useKwh) => In(useKwh) - In(UsedKwh);

    /// <inheritdoc/>
    public override IEnumerable<(double Kwh, double Cost)> Corners()
    {
        var (outside, inside) = (-In(UsedKwh), amount - In(UsedKwh));
        return new[] { over, upTo }.Where(double.IsFinite).Select(kwh => (kwh, Math.Min(outside, inside)));
    }

    private double In(double useKwh) => useKwh > over && useKwh <= upTo ? amount : 0;
}
