namespace ScheduleOpt.Comparison.Year;

/// <summary>What bounds the cost of a year from below, before the taper.</summary>
/// <param name="ChargingCost">What charging adds to the bill and costs at stops, at least. [currency]</param>
/// <param name="TripShortfallKwh">What must be bought away. [kWh, battery side]</param>
internal sealed record YearBound(double ChargingCost, double TripShortfallKwh)
{
    /// <summary>The bound; none where the charging cost has none.</summary>
    public static YearBound? Of(double? chargingCost, double tripShortfallKwh) => chargingCost is { } cost ? new YearBound(cost, tripShortfallKwh) : null;

    /// <summary>The bound of the cost of house and car on a plan. [currency]</summary>
    /// <param name="frame">The case.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="correction">The cell's correction of its end.</param>
    /// <remarks>Each metering interval is rounded to a millionth of a kWh, which may take half of that off the bill; where a price changes inside one, what is billed
    /// at each is rounded down by up to another one.</remarks>
    public decimal WholeHouse(YearFrame frame, PlanYear plan, EndCorrection correction)
    {
        var isCut = plan.Prices.Spans.Any(s => (s.Start - frame.Span.Start).BclCompatibleTicks % frame.Span.Step.BclCompatibleTicks != 0);
        var rounded = frame.Span.Count * (isCut ? 1.5 : 0.5) / Tariffs.MeteredSeries.UnitsPerKilowattHour * (double)plan.Prices.Spans.Max(s => Math.Abs(s.ImportPerKwh));
        return plan.Least.Total + (decimal)(ChargingCost - rounded)
            + AwayCharging.Buy(TripShortfallKwh, frame.Question.AwayPricePerKwh).Cost + correction.Cost;
    }
}
