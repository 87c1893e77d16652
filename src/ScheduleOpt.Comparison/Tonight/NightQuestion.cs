using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>Tonight's question: when to charge, at what current.</summary>
/// <param name="Case">Cars, supplies, calendars, prices, temperatures, and what the house adds.</param>
/// <param name="Order">Which shortfall is spared first.</param>
public sealed record NightQuestion(HouseholdCase Case, ShortfallOrder Order = ShortfallOrder.InTimeOrder)
{
    /// <summary>The name of a car that is asked about alone.</summary>
    public const string OnlyCar = "car";

    /// <summary>The question for one car at full current, with nothing that couples its charges.</summary>
    /// <param name="car">Its question.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    public NightQuestion(ChargingCase car, ShortfallOrder order = ShortfallOrder.InTimeOrder)
        : this(new HouseholdCase { Cars = [new CarCase(OnlyCar, car, RunningRules.FullCurrent)] }, order)
    {
    }
}
