namespace ScheduleOpt.Core.Homes.Panels;

/// <summary>The highest managed current of the charging unit that would fit beside the house, by the same estimate.</summary>
/// <remarks>
/// NFPA 70 (NEC) 2023, 625.42(A) and (B): charging may count with the maximum that a listed energy management system (750.30) sets, or with
/// an adjustable setting whose access is restricted and which the label shows. A setting in an app does not count.
/// </remarks>
/// <param name="CurrentA">Whole amperes, never above the nameplate; zero where less than 6 A would fit. [A]</param>
/// <param name="PowerKva">Apparent power at that current. [kVA]</param>
public sealed record ManagedMaximum(int CurrentA, double PowerKva)
{
    /// <summary>What makes a managed maximum count; stands beside the figure.</summary>
    public const string Condition =
        "Counts only with a listed energy management system, or an adjustable setting with restricted access shown on the label (NEC 2023, 625.42(A) "
        + "and (B)); a setting in an app does not count. It needs an electrician's calculation.";

    /// <summary>The lowest current that can be offered. [A]</summary>
    /// <remarks>IEC 61851-1.</remarks>
    public const int LowestA = 6;

    internal static ManagedMaximum Of(double leftKva, ChargingLoad load, double factor)
    {
        var amperes = Math.Min(load.NameplateA, leftKva * 1000 / factor / load.VoltageV);
        var whole = (int)Math.Floor(amperes + 1e-9);
        return whole < LowestA ? new ManagedMaximum(0, 0) : new ManagedMaximum(whole, whole * load.VoltageV / 1000.0);
    }
}
