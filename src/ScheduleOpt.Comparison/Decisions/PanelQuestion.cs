using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Homes.Panels;

namespace ScheduleOpt.Comparison.Decisions;

/// <summary>What is known of the panel: metered demand or a load list, one of them.</summary>
/// <param name="Service">The dwelling's service.</param>
/// <param name="Metered">Its metered demand; none where loads are listed.</param>
/// <param name="Loads">Its loads; none where demand is metered.</param>
public sealed record PanelQuestion(ElectricalService Service, DemandRecord? Metered, IReadOnlyList<PanelLoad>? Loads)
{
    /// <summary>Makes the estimate for a supply; none where the estimates do not know such a supply: they know 120, 208 and 240 V, one phase,
    /// 6 to 80 A.</summary>
    public PanelEstimate? For(Supply supply)
    {
        ArgumentNullException.ThrowIfNull(supply);
        var amperes = Math.Min(supply.ContinuousRatingA, supply.UnitLimitA ?? double.PositiveInfinity);
        if (supply.VoltageV is not (120 or 208 or 240) || supply.Phases != 1 || amperes is not (>= 6 and <= 80))
        {
            return null;
        }

        var load = new ChargingLoad(amperes, supply.VoltageV);
        return Metered is not null ? MeteredDemandCheck.Of(Service, Metered, load) : LoadListCheck.Of(Service, Loads ?? [], load);
    }
}
