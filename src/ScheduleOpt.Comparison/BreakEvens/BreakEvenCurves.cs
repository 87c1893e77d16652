using ScheduleOpt.Comparison.LifeCycle;

namespace ScheduleOpt.Comparison.BreakEvens;

/// <summary>Cost curves that need no new year: life-cycle cost over first cost, and energy cost over what is charged off-peak.</summary>
/// <remarks>Distance needs the year itself: give the search a function that runs it on the calendar with
/// <see cref="Core.Driving.DrivingCalendar.Scaled"/> trips.</remarks>
public static class BreakEvenCurves
{
    /// <summary>Life-cycle cost of an alternative by its first cost. [currency over currency]</summary>
    public static Func<double, decimal> OfInstallCost(LifeCycleAlternative alternative, LifeCycleTerms terms)
    {
        ArgumentNullException.ThrowIfNull(alternative);
        ArgumentNullException.ThrowIfNull(terms);
        return cost => LifeCycleCost.Of(alternative.WithInvestment((decimal)cost, "varied"), terms.Study, terms.Rate).Total;
    }

    /// <summary>What a year's energy costs at two prices, by the share bought off-peak. [currency a year over 0 to 1]</summary>
    /// <param name="kwhPerYear">Energy at the meter. [kWh a year]</param>
    /// <param name="offPeakPrice">[currency/kWh]</param>
    /// <param name="onPeakPrice">[currency/kWh]</param>
    /// <param name="fixedPerYear">What the plan costs beside energy. [currency a year]</param>
    public static Func<double, decimal> OfOffPeakShare(decimal kwhPerYear, decimal offPeakPrice, decimal onPeakPrice, decimal fixedPerYear) =>
        share => fixedPerYear + (kwhPerYear * (((decimal)share * offPeakPrice) + ((1 - (decimal)share) * onPeakPrice)));

    /// <summary>What a year's energy costs by the gap between the two prices, the off-peak price held. [currency a year over currency/kWh]</summary>
    /// <param name="kwhPerYear">Energy at the meter. [kWh a year]</param>
    /// <param name="offPeakShare">Share bought off-peak, 0 to 1.</param>
    /// <param name="offPeakPrice">[currency/kWh]</param>
    /// <param name="fixedPerYear">What the plan costs beside energy. [currency a year]</param>
    public static Func<double, decimal> OfPriceGap(decimal kwhPerYear, decimal offPeakShare, decimal offPeakPrice, decimal fixedPerYear) =>
        gap => fixedPerYear + (kwhPerYear * (offPeakPrice + ((1 - offPeakShare) * (decimal)gap)));
}
