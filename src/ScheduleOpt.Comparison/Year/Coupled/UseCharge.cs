namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>What the use of some hours of one billing period costs beside the prices per kWh.</summary>
/// <param name="period">Index of the billing period.</param>
/// <param name="spans">The metering intervals whose use it counts.</param>
/// <param name="usedKwh">Use without the car. [kWh]</param>
internal abstract class UseCharge(int period, MeterSpan[] spans, double usedKwh)
{
    /// <summary>Index of the billing period.</summary>
    public int Period => period;

    /// <summary>The metering intervals whose use it counts.</summary>
    public MeterSpan[] Spans => spans;

    /// <summary>Use without the car. [kWh]</summary>
    public double UsedKwh => usedKwh;

    /// <summary>Whether more use may cost less.</summary>
    public abstract bool MayFall { get; }

    /// <summary>What the next kWh costs more than the prices say. [currency/kWh]</summary>
    public abstract double SlopeAbove(double useKwh);

    /// <summary>What a use costs more than the prices say. [currency]</summary>
    public abstract double Cost(double useKwh);

    /// <summary>Where cost changes its slope or jumps, in order, and the lower of the costs there. [kWh, currency]</summary>
    public abstract IEnumerable<(double Kwh, double Cost)> Corners();
}
